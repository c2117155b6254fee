from .bench import bench, bench_cut, buy_in, find_untagged, finish, other_cut, settle
from .corrections import CORRECTIONS, correct
from .lists import bundles
from .places import add_place, leave, move, place, places, stack, stack_up, stacks, telltale

__all__ = [
    "CORRECTIONS",
    "add_place",
    "bench",
    "bench_cut",
    "bundles",
    "buy_in",
    "correct",
    "find_untagged",
    "finish",
    "leave",
    "move",
    "other_cut",
    "place",
    "places",
    "settle",
    "stack",
    "stack_up",
    "stacks",
    "telltale",
]
