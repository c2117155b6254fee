from .bounds import Bound, Bounds, bounds_by_type, bounds_for
from .due import due
from .reads import (
    bundles_to_soak,
    checks_of,
    doubts_of_putting_in,
    last_finish,
    last_reading,
    lifts_of,
    name_of,
    named,
    named_bundles,
    same_check_by_another,
    water_over,
)
from .tank import InWater, LiftedRods, OfTank, batch_in_water, board, in_water, lifted_rods, lifts_told, story_of

__all__ = [
    "Bound",
    "Bounds",
    "InWater",
    "LiftedRods",
    "OfTank",
    "batch_in_water",
    "board",
    "bounds_by_type",
    "bounds_for",
    "bundles_to_soak",
    "checks_of",
    "doubts_of_putting_in",
    "due",
    "in_water",
    "last_finish",
    "last_reading",
    "lifted_rods",
    "lifts_of",
    "lifts_told",
    "name_of",
    "named",
    "named_bundles",
    "same_check_by_another",
    "story_of",
    "water_over",
]
