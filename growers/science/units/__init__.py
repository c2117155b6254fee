"""Quantities as people write them: read into SI, and written back.

One door to the modules of this package. Reading never guesses silently: what could mean two things is refused
with `UnitError`, which carries a code and parameters; the sentence for it is made by the page.
"""

from growers.science.units.parts import PARTS, nearest_part, read_part, write_part
from growers.science.units.quantities import (
    read_count,
    read_hours,
    read_humidity,
    read_length,
    read_mass,
    read_thickness,
)
from growers.science.units.registry import UNITS, Reading, UnitError, from_si, to_si, ureg
from growers.science.units.slips import SLIPS, as_meant, likely_slip, likely_slip_and_meant
from growers.science.units.temperature import WATER_WORDS, WaterWord, read_temperature
from growers.science.units.writing import (
    write_hours,
    write_humidity,
    write_length,
    write_mass,
    write_number,
    write_temperature,
    write_thickness,
)

__all__ = [
    "PARTS",
    "SLIPS",
    "UNITS",
    "WATER_WORDS",
    "Reading",
    "UnitError",
    "WaterWord",
    "as_meant",
    "from_si",
    "likely_slip",
    "likely_slip_and_meant",
    "nearest_part",
    "read_count",
    "read_hours",
    "read_humidity",
    "read_length",
    "read_mass",
    "read_part",
    "read_temperature",
    "read_thickness",
    "to_si",
    "ureg",
    "write_hours",
    "write_humidity",
    "write_length",
    "write_mass",
    "write_number",
    "write_part",
    "write_temperature",
    "write_thickness",
]
