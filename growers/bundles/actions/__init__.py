from .corrections import (
    correct_find,
    correct_grading,
    correct_making,
    correct_move,
    correct_place,
    correct_purchase,
    correct_stack,
)
from .ledger import NotEnoughLeft, check_tied, give_evidence, lock, set_right, take
from .making import NewBundle, WentIn, came_back, dried_again, make
from .origins import settle_find, was_of_cut
from .places import add_place, call_telltale, leave_stack, move, stack_up
from .tying import buy_in, correct_bundle, find, finish_grading, tie

__all__ = [
    "NewBundle",
    "NotEnoughLeft",
    "WentIn",
    "add_place",
    "buy_in",
    "call_telltale",
    "came_back",
    "check_tied",
    "correct_bundle",
    "correct_find",
    "correct_grading",
    "correct_making",
    "correct_move",
    "correct_place",
    "correct_purchase",
    "correct_stack",
    "dried_again",
    "find",
    "finish_grading",
    "give_evidence",
    "leave_stack",
    "lock",
    "make",
    "move",
    "set_right",
    "settle_find",
    "stack_up",
    "take",
    "tie",
    "was_of_cut",
]
