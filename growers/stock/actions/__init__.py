from .counting import correct_count, count
from .makings import Out, make_into, merge, regrade, split
from .promising import correct_promise, promise, release
from .scales import correct_scale
from .taking import SLACK, correct_taking, take_out

__all__ = [
    "SLACK",
    "Out",
    "correct_count",
    "correct_promise",
    "correct_scale",
    "correct_taking",
    "count",
    "make_into",
    "merge",
    "promise",
    "regrade",
    "release",
    "split",
    "take_out",
]
