from .batch import batch, check, put_in, put_in_by_tag, variety, whole_soak
from .correcting import CORRECTIONS, correct
from .lifting import bench, dry_again, lift, spoil, unwrap, wrap
from .tank import add_tank, tank, tanks, water

__all__ = [
    "CORRECTIONS",
    "add_tank",
    "batch",
    "bench",
    "check",
    "correct",
    "dry_again",
    "lift",
    "put_in",
    "put_in_by_tag",
    "spoil",
    "tank",
    "tanks",
    "unwrap",
    "variety",
    "water",
    "whole_soak",
    "wrap",
]
