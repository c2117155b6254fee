from .after import BenchResult, DriedAgain, Mellow, Spoiled
from .batch import Batch, BendCheck, Lift
from .kept_damp import GoneOver, Redamp, Steam
from .tank import Tank, WaterReading

__all__ = [
    "Batch",
    "BenchResult",
    "BendCheck",
    "DriedAgain",
    "GoneOver",
    "Lift",
    "Mellow",
    "Redamp",
    "Spoiled",
    "Steam",
    "Tank",
    "WaterReading",
]
