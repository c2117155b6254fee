from .ancestry import Ancestry, ancestry_of, labels_of, variety_of, with_ancestry
from .bench import Balance, balance_of, balances_of, cuts_at_bench, grading_of, tally_of
from .due import due
from .family import came_in_with, came_out, dried_again_from, makings_from, origins_of, parents_of, went_in
from .ledger import left_of, left_when_weighed, takings_of
from .lists import listed, places_now, stacks_now, unsettled_finds
from .tags import by_tag, near_tags, tagged
from .winters import of_winter, winters_in

__all__ = [
    "Ancestry",
    "Balance",
    "ancestry_of",
    "balance_of",
    "balances_of",
    "by_tag",
    "came_in_with",
    "came_out",
    "cuts_at_bench",
    "dried_again_from",
    "due",
    "grading_of",
    "labels_of",
    "left_of",
    "left_when_weighed",
    "listed",
    "makings_from",
    "near_tags",
    "of_winter",
    "origins_of",
    "parents_of",
    "places_now",
    "stacks_now",
    "tagged",
    "takings_of",
    "tally_of",
    "unsettled_finds",
    "variety_of",
    "went_in",
    "winters_in",
    "with_ancestry",
]
