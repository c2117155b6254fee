from .batch import batch, check, put_in, put_in_by_tag, variety, whole_soak
from .correcting import CORRECTIONS, correct
from .lifting import bench, dry_again, gone_over, lift, redamp, spoil, steam, unwrap, wrap
from .ready import ready_by
from .tank import add_tank, tank, tanks, water

__all__ = [
    "CORRECTIONS",
    "add_tank",
    "batch",
    "bench",
    "check",
    "correct",
    "dry_again",
    "gone_over",
    "lift",
    "put_in",
    "put_in_by_tag",
    "ready_by",
    "redamp",
    "spoil",
    "steam",
    "tank",
    "tanks",
    "unwrap",
    "variety",
    "water",
    "whole_soak",
    "wrap",
]
