from .due import due
from .left import Left, what_is_left
from .promises import free_ppb, promised_ppb, standing_promises
from .weights import Whole, believed_rods, whole_mass, whole_masses

__all__ = [
    "Left",
    "Whole",
    "believed_rods",
    "due",
    "free_ppb",
    "promised_ppb",
    "standing_promises",
    "what_is_left",
    "whole_mass",
    "whole_masses",
]
