from .kept_damp import correct_goneover, correct_redamp, correct_steam, gone_over, redamp, steam
from .leaving import check_lifted_by, correct_driedagain, correct_spoiled, dry_again, part_to_use, spoil, use
from .ledger import NotThere, draw, hold
from .lifting import (
    bench_result,
    correct_benchresult,
    correct_lift,
    correct_mellow,
    lift,
    unwrap,
    wrap,
)
from .putting_in import check_bend, correct_batch, correct_bendcheck, put_in
from .tanks import add_tank, correct_tank, correct_waterreading, read_water
from .whole import whole_soak

__all__ = [
    "NotThere",
    "add_tank",
    "bench_result",
    "check_bend",
    "check_lifted_by",
    "correct_batch",
    "correct_benchresult",
    "correct_bendcheck",
    "correct_driedagain",
    "correct_goneover",
    "correct_lift",
    "correct_mellow",
    "correct_redamp",
    "correct_spoiled",
    "correct_steam",
    "correct_tank",
    "correct_waterreading",
    "draw",
    "dry_again",
    "gone_over",
    "hold",
    "lift",
    "part_to_use",
    "put_in",
    "read_water",
    "redamp",
    "spoil",
    "steam",
    "unwrap",
    "use",
    "whole_soak",
    "wrap",
]
