from .keeping import correct_count, correct_promise, count, promise, release
from .making import make_into, merge, regrade, split
from .scale import scale
from .shed import shed
from .taking import correct_taking, gone, take_out

__all__ = [
    "correct_count",
    "correct_promise",
    "correct_taking",
    "count",
    "gone",
    "make_into",
    "merge",
    "promise",
    "regrade",
    "release",
    "scale",
    "shed",
    "split",
    "take_out",
]
