"""Reading masses, lengths, hours, humidities and counts."""

import re
from fractions import Fraction

from growers.science.units import numerals
from growers.science.units.pairs import PAIR, Kind, at_most, plain, refuse_not_positive, sign, total, unit_of
from growers.science.units.registry import Reading, UnitError

# Far beyond anything on a willow holding, so certainly a slip.
HEAVIEST_KG = 2000
LONGEST_M = 15
THICKEST_M = 0.1
LONGEST_HOURS = 24 * 400
MOST_COUNTED = 10_000_000

MASS = Kind("mass", "mass", ("kg", "lb"))
LENGTH = Kind("length", "length", ("m", "ft", "cm"))
THICKNESS = Kind("thickness", "length", ("mm", "in"))
HOURS = Kind("hours", "time", ("h", "d"), (("m", "min"),))
HUMIDITY = Kind("humidity", "part", ("%",))
COUNT = Kind("count", "count")

_THINGS = re.compile(r"(?<=\d)\s*(?:rods?|bundles?|stools?|sets?|rows?|pieces?|pcs|x)$")


def read_mass(text: str | None, unit: str | None = None, *, decimal: str = ".") -> Reading:
    """A mass [kg] from such as "3.2 kg", "12 lb 3 oz", "12½ lb", "1 st 3 lb" or "800 g".

    Parameters
    ----------
    text : what was typed.
    unit : the unit of a bare number, a key of `UNITS`; None refuses one with "no_unit".
    decimal : the decimal mark of the reader's language, "." or ",". See `numerals.number`.

    Returns
    -------
    Reading with 0 < value <= 2000 kg. Conversion is exact, then rounded once to a float.

    Raises
    ------
    UnitError : see its table of codes.

    References
    ----------
    1 lb = 0.45359237 kg exactly: International Yard and Pound Agreement, 1959; as defined by pint.
    """
    return _positive(plain(text, "mass"), text, MASS, unit, decimal, HEAVIEST_KG)


def read_length(text: str | None, unit: str | None = None, *, decimal: str = ".") -> Reading:
    """A length [m] from such as 5', 4'6", "4 ft 6 in", "4ft6", "1.52 m", "1,52 m" or "152cm".

    Parameters as for `read_mass`. Returns a Reading with 0 < value <= 15 m. Raises UnitError.

    References
    ----------
    1 ft = 0.3048 m exactly: International Yard and Pound Agreement, 1959; as defined by pint.
    """
    return _positive(plain(text, "length"), text, LENGTH, unit, decimal, LONGEST_M)


def read_thickness(text: str | None, unit: str | None = "mm", *, decimal: str = ".") -> Reading:
    """The thickness of a rod at its butt [m, not mm] from such as "9", "9 mm", "1 cm" or 3/8".

    Parameters as for `read_mass`, a bare number being in mm. Returns a Reading with 0 < value <= 0.1 m.
    Raises UnitError.
    """
    return _positive(plain(text, "thickness"), text, THICKNESS, unit, decimal, THICKEST_M)


def read_hours(text: str | None, unit: str | None = "h", *, decimal: str = ".") -> Reading:
    """A span of time [h] from such as "8", "8 h", "1 h 30", "1:30", "90 min" or "2 days".

    Parameters as for `read_mass`, a bare number being in hours. Returns a Reading with 0 < value <= 9600 h.
    Raises UnitError.
    """
    said = re.sub(r"^(\d+):([0-5]\d)(?: ?h)?$", r"\1 h \2 min", plain(text, "hours"))
    return _positive(said, text, HOURS, unit, decimal, LONGEST_HOURS)


def read_humidity(text: str | None, unit: str | None = "%", *, decimal: str = ".") -> Reading:
    """Relative humidity [fraction] from such as "85 %", "85" or "85 % RH".

    Parameters as for `read_mass`, a bare number being per cent. Returns a Reading with 0 < value <= 1.
    Raises UnitError; a bare number of 1 or less is "ambiguous" (0.85: 85 % or 0.85 %?).
    """
    said = re.sub(r"\s*(?:r\.?h\.?|relative humidity|humidity)$", "", plain(text, "humidity"))
    said = re.sub(r"\bper cent$", "percent", said)
    typed = (text or "").strip()
    value, _ = total(said, typed, HUMIDITY, unit, decimal)
    refuse_not_positive(value, "%", typed, "humidity")
    if value <= Fraction(1, 100) and not re.search(r"[^\d.,/ ]", said):
        readings = tuple(f"{float(value * times):g} %".replace(".", decimal) for times in (10_000, 100))
        raise UnitError("ambiguous", kind="humidity", text=typed, readings=readings)
    return at_most(value, 1, "%", typed, "humidity")


def read_count(text: str | None, *, least: int = 0) -> int:
    """A whole number of rods, bundles, stools or the like from such as "120", "1,200" or "40 rods".

    Returns an int from `least` to 10,000,000: a mark before three digits parts thousands, whichever it is.
    Raises UnitError: "not_whole", "not_positive" below `least`, "too_large", "wrong_unit" for "12 kg".
    """
    factor, said = sign(_THINGS.sub("", plain(text, "count")))
    typed = (text or "").strip()
    pair = PAIR.fullmatch(said)
    if not pair:
        raise UnitError("not_understood", kind="count", text=typed)
    if pair["unit"]:
        unit_of(pair["unit"], COUNT, typed)
    value = factor * numerals.number(pair["number"], kind="count", text=typed, whole=True)
    if value.denominator != 1:
        raise UnitError("not_whole", kind="count", text=typed, value=float(value))
    if value < least:
        raise UnitError("not_positive", kind="count", text=typed, value=int(value), least=least)
    at_most(value, MOST_COUNTED, "", typed, "count")
    return int(value)


def _positive(said: str, typed: str | None, kind: Kind, unit: str | None, decimal: str, most: float) -> Reading:
    typed = (typed or "").strip()
    value, code = total(said, typed, kind, unit, decimal)
    refuse_not_positive(value, code, typed, kind.name)
    return at_most(value, most, code, typed, kind.name)
