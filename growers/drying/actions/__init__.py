from .air import correct_air, read_air
from .air_file import read_air_file
from .judging import judge_stale, judged
from .sampling import (
    correct_meter,
    correct_oven_test,
    correct_word,
    give_word,
    meter_reading,
    oven_test,
)
from .weighing import correct_weighing, weigh

__all__ = [
    "correct_air",
    "correct_meter",
    "correct_oven_test",
    "correct_weighing",
    "correct_word",
    "give_word",
    "judge_stale",
    "judged",
    "meter_reading",
    "oven_test",
    "read_air",
    "read_air_file",
    "weigh",
]
