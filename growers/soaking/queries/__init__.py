from .bounds import Bound, Bounds, bounds_by_type, bounds_for
from .doubts import doubts_of_putting_in, last_finish, too_long
from .due import due
from .keeping import Keeping, keeping_by_type
from .lifted import LiftedRods, kept_of, lifted_rods, lifts_told
from .reads import (
    bundles_to_soak,
    checks_of,
    last_reading,
    lifts_of,
    name_of,
    named,
    named_bundles,
    same_check_by_another,
    water_over,
)
from .ready import Start, ready_by
from .tank import InWater, OfTank, batch_in_water, board, in_water, story_of

__all__ = [
    "Bound",
    "Bounds",
    "InWater",
    "Keeping",
    "LiftedRods",
    "OfTank",
    "Start",
    "batch_in_water",
    "board",
    "bounds_by_type",
    "bounds_for",
    "bundles_to_soak",
    "checks_of",
    "doubts_of_putting_in",
    "due",
    "in_water",
    "keeping_by_type",
    "kept_of",
    "last_finish",
    "last_reading",
    "lifted_rods",
    "lifts_of",
    "lifts_told",
    "name_of",
    "named",
    "named_bundles",
    "ready_by",
    "same_check_by_another",
    "story_of",
    "too_long",
    "water_over",
]
