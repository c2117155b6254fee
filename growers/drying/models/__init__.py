from .answer import DrynessAnswer, PooledRates
from .reading import AirFile, AirReading, MeterReading, OvenTest, Weighing, Word

__all__ = ["AirFile", "AirReading", "DrynessAnswer", "MeterReading", "OvenTest", "PooledRates", "Weighing", "Word"]
