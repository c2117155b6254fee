"""A part of a whole, as people say it: a third, 30 %, hardly any."""

import re
from fractions import Fraction

from growers.science.units import numerals
from growers.science.units.pairs import PAIR, Kind, at_most, plain, refuse_not_positive, sign, unit_of
from growers.science.units.registry import Reading, UnitError

PART = Kind("part", "part", ("%",))

# "Hardly any" as 2 % is our own choice, no source.
PARTS: dict[str, Fraction] = {
    "hardly any": Fraction(2, 100),
    "a tenth": Fraction(1, 10),
    "a quarter": Fraction(1, 4),
    "a third": Fraction(1, 3),
    "half": Fraction(1, 2),
    "two thirds": Fraction(2, 3),
    "three quarters": Fraction(3, 4),
    "all": Fraction(1),
}

_COUNTS = {"": 1, "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4}
_PIECES = {"half": 2, "third": 3, "quarter": 4, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10}
_ALL = {"all", "the lot", "everything", "all of it", "the whole", "whole"}
_NAMED = 0.005  # a part within half a point of a name is called by it
_WHOLE = 0.0005


def read_part(text: str | None, unit: str | None = None, *, decimal: str = ".") -> Reading:
    """A part of a whole [fraction] from such as "a third", "half", "1/3", "½", "30 %", "0.3" or "hardly any".

    Parameters
    ----------
    text : what was typed.
    unit : "%" to take a bare number above 1 as per cent; None refuses one with "no_unit".
    decimal : the decimal mark of the reader's language, "." or ",".

    Returns
    -------
    Reading with 0 < value <= 1 and unit "%" or "part".

    Raises
    ------
    UnitError : see its table; "ambiguous" for a bare 1, and with unit "%" for a bare 0.3 too.
    """
    said = re.sub(r"\s*\bper cent$", "%", plain(text, "part"))
    typed = (text or "").strip()
    spoken = _spoken(re.sub(r"\s+of (?:it|them|the bundle)$", "", said.replace("-", " ")))
    if spoken:
        return Reading(float(spoken), "part", typed)
    factor, said = sign(said)
    pair = PAIR.fullmatch(said)
    if not pair:
        raise UnitError("not_understood", kind="part", text=typed)
    percent = bool(pair["unit"]) and unit_of(pair["unit"], PART, typed) == "%"
    value = factor * numerals.number(pair["number"], kind="part", text=typed, decimal=decimal, unit=pair["unit"] or "")
    if not percent and "/" not in pair["number"]:
        percent = _bare_is_percent(value, typed, unit, decimal)
    part = value / 100 if percent else value
    refuse_not_positive(part, "%", typed, "part")
    return at_most(part, 1, "%" if percent else "part", typed, "part")


def nearest_part(fraction: float) -> str | None:
    """The key of `PARTS` within half a hundredth of `fraction` ("all" only for the whole), or None."""
    for name, part in PARTS.items():
        if abs(fraction - part) <= (1e-9 if part == 1 else _NAMED):
            return name
    return None


def write_part(fraction: float, *, decimal: str = ".") -> str:
    """A part [fraction, 0 to 1] in words where it has a name ("a third"), else "30 %" or "about 37 %".

    Per cent are whole, but near none and near all a tenth is kept, so that 0.997 does not pass for all. What
    is written, nothing apart, `read_part` reads back within half a hundredth. ValueError beyond 0 to 1.
    """
    if not 0 <= fraction <= 1:
        raise ValueError(f"a part is from 0 to 1, not {fraction}")
    if name := nearest_part(fraction):
        return name
    places = 0 if 0.01 <= fraction <= 0.99 else 1
    percent = min(max(round(fraction * 100, places), 0.1), 99.9) if places else round(fraction * 100)
    about = "" if abs(fraction * 100 - percent) < _WHOLE else "about "
    return f"{about}{percent:g} %".replace(".", decimal) if fraction else "0 %"


def _spoken(plain: str) -> Fraction | None:
    if plain in _ALL:
        return Fraction(1)
    if plain in PARTS:
        return PARTS[plain]
    *count, piece = plain.split(" ")
    piece = "half" if piece == "halves" else piece.removesuffix("s")
    top = _COUNTS.get(" ".join(count))
    bottom = _PIECES.get(piece)
    return Fraction(top, bottom) if top and bottom and top < bottom else None


def _bare_is_percent(value: Fraction, typed: str, unit: str | None, decimal: str) -> bool:
    if value > 1 and unit is None:
        raise UnitError("no_unit", kind="part", text=typed, number=float(value), units=PART.offered)
    if value == 1 or (0 < value < 1 and unit == "%"):
        readings = tuple(f"{float(v):g} %".replace(".", decimal) for v in (value * 100, value))
        raise UnitError("ambiguous", kind="part", text=typed, readings=readings)
    return value > 1
