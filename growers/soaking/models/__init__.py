from .after import BenchResult, DriedAgain, Mellow, Spoiled
from .batch import Batch, BendCheck, Lift
from .tank import Tank, WaterReading

__all__ = ["Batch", "BenchResult", "BendCheck", "DriedAgain", "Lift", "Mellow", "Spoiled", "Tank", "WaterReading"]
