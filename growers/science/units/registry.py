"""The one pint registry, the units this book knows, and what a reading is."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any


@dataclass(frozen=True)
class Unit:
    """A unit people write: its name in pint, the dimension it measures, and the ways of writing it."""

    pint_name: str
    dimension: str
    spellings: tuple[str, ...]
    smaller: str | None = None  # what a bare number after it is in: the 6 of "4 ft 6"


UNITS: dict[str, Unit] = {
    "kg": Unit(
        "kilogram",
        "mass",
        ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
    ),
    "g": Unit("gram", "mass", ("g", "gr", "gm", "gms", "gram", "grams", "gramme", "grammes")),
    "st": Unit("stone", "mass", ("st", "stone", "stones"), smaller="lb"),
    "lb": Unit("pound", "mass", ("lb", "lbs", "pound", "pounds"), smaller="oz"),
    "oz": Unit("ounce", "mass", ("oz", "ozs", "ounce", "ounces")),
    "m": Unit("meter", "length", ("m", "metre", "metres", "meter", "meters")),
    "cm": Unit("centimeter", "length", ("cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters")),
    "mm": Unit(
        "millimeter",
        "length",
        ("mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters"),
    ),
    "ft": Unit("foot", "length", ("ft", "'", "foot", "feet"), smaller="in"),
    "in": Unit("inch", "length", ("in", "ins", '"', "inch", "inches")),
    "C": Unit("degree_Celsius", "temperature", ("c", "°c", "celsius", "°celsius", "centigrade")),
    "F": Unit("degree_Fahrenheit", "temperature", ("f", "°f", "fahrenheit", "°fahrenheit")),
    "d": Unit("day", "time", ("d", "day", "days"), smaller="h"),
    "h": Unit("hour", "time", ("h", "hr", "hrs", "hour", "hours"), smaller="min"),
    "min": Unit("minute", "time", ("min", "mins", "minute", "minutes")),
    "%": Unit("percent", "part", ("%", "percent", "pc", "pct")),
}

# The unit in which each dimension is kept.
SI = {
    "mass": "kilogram",
    "length": "meter",
    "temperature": "degree_Celsius",
    "time": "hour",
    "part": "dimensionless",
}


@dataclass(frozen=True)
class Reading:
    """What was understood from what was typed.

    `value` is in kg, m, °C, hours, or a fraction. `unit` is the (largest) unit typed, a key of `UNITS`, or
    "word" (water told by a word) or "part" (a part told by a word or as 1/3). `text` is what was typed,
    trimmed. `low` and `high` bound a value given as a range or a word, else None.
    """

    value: float
    unit: str
    text: str
    low: float | None = None
    high: float | None = None


class UnitError(ValueError):
    """A quantity that was not understood or can't be so; `code` says why, `params` what a sentence needs.

    All `params` hold `text`, and `kind`: mass, length, thickness, temperature, humidity, part, hours, count.

    =============== ===================================================================================
    nothing         nothing was typed
    not_understood  no reading of the text
    no_unit         a bare number, with `number` and `units` that would do
    wrong_unit      `came` (dimension) and `unit` typed, where `expected` (dimension) was wanted
    not_positive    zero or less
    ambiguous       `readings`: the two texts it could be, each of which is read without question
    too_many        `part` (18 oz) holds more than one `unit` (lb): 12 lb 18 oz
    too_large       above `limit`; `value` in SI; `slip` (see `likely_slip`) and `meant` (SI) or None
    too_small       below `limit` (temperature only), else as too_large
    not_whole       a count with a fraction
    =============== ===================================================================================
    """

    def __init__(self, code: str, **params: Any) -> None:
        super().__init__(f"{code} {params}")
        self.code = code
        self.params = params


@cache
def ureg() -> Any:
    """The one pint registry, reckoning in exact fractions so that 1 lb is 0.45359237 kg to the last digit.

    Made on first use: pint takes a third of a second to load, and loads scipy, which start-up must not.
    """
    import pint

    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)


def to_si(value: Fraction | float, unit: str) -> Fraction:
    """`value` in `unit` (a key of `UNITS`) as kg, m, °C, hours or a fraction, exactly."""
    known = UNITS[unit]
    return ureg().Quantity(Fraction(value), known.pint_name).to(SI[known.dimension]).magnitude


def from_si(value: Fraction | float, unit: str) -> Fraction:
    """`value` in kg, m, °C, hours or as a fraction, in `unit` (a key of `UNITS`), exactly."""
    known = UNITS[unit]
    return ureg().Quantity(Fraction(value), SI[known.dimension]).to(known.pint_name).magnitude
