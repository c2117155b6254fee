"""Reading temperatures, in degrees or by the hand in the water."""

import re
from dataclasses import dataclass
from fractions import Fraction

from growers.science.units.pairs import Kind, plain, total
from growers.science.units.registry import Reading, UnitError
from growers.science.units.slips import likely_slip_and_meant

# Air and water on a holding are never beyond these, so such a figure is a slip.
COLDEST_C, WARMEST_C = -30, 60

TEMPERATURE = Kind("temperature", "temperature", ("C", "F"))

_DEGREES = r"(?:°|deg\b\.?|degrees?\b)"
_RANGE = re.compile(r"(-?[^-]*\d[^-]*?)\s*(?:-|\bto\b|\.\.\.?)\s*(-?[\d.,]+.*)")


@dataclass(frozen=True)
class WaterWord:
    """A word for the coldness of water: its middle and a wide band [°C], and other ways of saying it."""

    value_c: float
    low_c: float
    high_c: float
    also: tuple[str, ...] = ()


# Starting guesses of our own, no source: the bands are wide and overlap, since hands differ.
WATER_WORDS: dict[str, WaterWord] = {
    "ice": WaterWord(0.0, 0.0, 2.0, ("icy", "ice cold", "iced", "iced over", "frozen", "ice on it")),
    "numbs the fingers": WaterWord(4.0, 2.0, 7.0, ("numb", "numbs", "numbing", "numbs fingers")),
    "cold": WaterWord(8.0, 5.0, 11.0),
    "cool": WaterWord(13.0, 10.0, 16.0),
    "mild": WaterWord(18.0, 15.0, 21.0),
}


def read_temperature(text: str | None, unit: str | None = None, *, words: bool = True, decimal: str = ".") -> Reading:
    """A temperature [°C] of air or water from such as "10 °C", "50F", "-2 C", "8-10 C", or a word.

    Parameters
    ----------
    text, unit, decimal : as for `read_mass`; units "C" and "F".
    words : whether the words of `WATER_WORDS` ("numbs the fingers") are understood; they are for water.

    Returns
    -------
    Reading with -30 <= value <= 60 °C. A range is read as its middle, with `low` and `high`; a word as its
    middle, with its wide band and the unit "word".

    Raises
    ------
    UnitError : beyond -30 to 60 °C "too_large" or "too_small", with the slip "f_for_c" if that explains it.

    References
    ----------
    °C = (°F - 32) 5/9 exactly, as defined by pint.
    """
    said = plain(text, "temperature")
    typed = (text or "").strip()
    if words and (band := _spoken(said)):
        return Reading(band.value_c, "word", typed, band.low_c, band.high_c)
    said = re.sub(rf"{_DEGREES}\s*(?=[a-z])", "°", said)
    said = re.sub(rf"\s*{_DEGREES}$", "", said)
    ends = _RANGE.fullmatch(said)
    if not ends:
        value, code = total(said, typed, TEMPERATURE, unit, decimal)
        return Reading(_within(value, code, typed), code, typed)
    high, code = total(ends[2], typed, TEMPERATURE, unit, decimal)
    low, _ = total(ends[1], typed, TEMPERATURE, code, decimal)
    if not low < high:
        raise UnitError("not_understood", kind="temperature", text=typed)
    coldest, warmest = _within(low, code, typed), _within(high, code, typed)
    return Reading(float((low + high) / 2), code, typed, coldest, warmest)


def _spoken(said: str) -> WaterWord | None:
    said = said.replace("-", " ")
    return next((band for word, band in WATER_WORDS.items() if said == word or said in band.also), None)


def _within(value: Fraction, unit: str, typed: str) -> float:
    if COLDEST_C <= value <= WARMEST_C:
        return float(value)
    code, limit = ("too_large", WARMEST_C) if value > WARMEST_C else ("too_small", COLDEST_C)
    found = likely_slip_and_meant(float(value), COLDEST_C, WARMEST_C, "temperature", unit)
    slip, meant = found or (None, None)
    raise UnitError(
        code,
        kind="temperature",
        text=typed,
        value=float(value),
        unit=unit,
        limit=limit,
        slip=slip,
        meant=meant,
    )
