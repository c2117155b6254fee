from .bundle import Bundle
from .grading import Grading
from .making import Making
from .origin import Find, Origin, Purchase
from .place import Move, Place, Stack
from .scale import ScaleCorrection
from .taking import Adjustment, Taking

__all__ = [
    "Adjustment",
    "Bundle",
    "Find",
    "Grading",
    "Making",
    "Move",
    "Origin",
    "Place",
    "Purchase",
    "ScaleCorrection",
    "Stack",
    "Taking",
]
