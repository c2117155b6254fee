"""The common ground of the readers: a text as pairs of a number and a unit, summed in SI."""

import re
from dataclasses import dataclass
from fractions import Fraction

from growers.science.units import numerals
from growers.science.units.registry import UNITS, Reading, UnitError, to_si
from growers.science.units.slips import likely_slip_and_meant


@dataclass(frozen=True)
class Kind:
    """What one reader takes: its name, its dimension, the units offered for a bare number, own spellings."""

    name: str
    dimension: str
    offered: tuple[str, ...] = ()
    spellings: tuple[tuple[str, str], ...] = ()


Pair = tuple[Fraction, str]

PAIR = re.compile(rf"(?P<number>{numerals.NUMBER})\s*(?P<unit>['\"%]|°?[^\W\d_]+|°)?\.?")
_BETWEEN = re.compile(r"\s*(?:,|;|&|\+|and\b|(?<=')-)?\s*")
_ABOUT = re.compile(r"^(?:about|approximately|approx\.?|around|roughly|circa|ca\.?|c\.|~|≈)\s*")
_SPELLINGS = {spelling: code for code, unit in UNITS.items() for spelling in unit.spellings}


def plain(text: str | None, kind: str) -> str:
    """As `numerals.plain`, without a leading "about"."""
    return _ABOUT.sub("", numerals.plain(text, kind))


def sign(text: str) -> tuple[int, str]:
    """-1 or 1, and the rest of a plain text."""
    return (-1 if text.startswith("-") else 1), text[1:].strip() if text[:1] in ("+", "-") else text


def total(text: str, typed: str, kind: Kind, unit: str | None, decimal: str) -> Pair:
    """The sum in SI, exactly, of the pairs in a plain text such as "12 lb 3 oz", and the first unit.

    `unit` is that of a bare number. Raises UnitError as its table says, with `typed` as the text.
    """
    factor, text = sign(text)
    first, *rest = _pairs(text, typed, kind, unit, decimal)
    # Only a temperature gets by with a sign, and it has no second pair.
    return sum((to_si(*pair) for pair in rest), to_si(factor * first[0], first[1])), first[1]


def unit_of(spelling: str, kind: Kind, typed: str) -> str:
    """The unit written as `spelling`; raises UnitError "wrong_unit" if it measures something else."""
    code = dict(kind.spellings).get(spelling) or _SPELLINGS.get(spelling)
    if code is None:
        raise UnitError("not_understood", kind=kind.name, text=typed)
    came = UNITS[code].dimension
    if came != kind.dimension:
        raise UnitError("wrong_unit", kind=kind.name, text=typed, expected=kind.dimension, came=came, unit=code)
    return code


def at_most(value: Fraction, most: float, unit: str, typed: str, kind: str) -> Reading:
    """The reading, or UnitError "too_large" with the slip that would explain it."""
    if value <= most:
        return Reading(float(value), unit, typed)
    slip, meant = likely_slip_and_meant(float(value), 0, most, kind, unit) or (None, None)
    raise UnitError(
        "too_large", kind=kind, text=typed, value=float(value), unit=unit, limit=most, slip=slip, meant=meant
    )


def refuse_not_positive(value: Fraction, unit: str, typed: str, kind: str) -> None:
    """Raise UnitError "not_positive" for nothing and less than nothing."""
    if value <= 0:
        raise UnitError("not_positive", kind=kind, text=typed, value=float(value), unit=unit)


def _pairs(text: str, typed: str, kind: Kind, unit: str | None, decimal: str) -> list[Pair]:
    pairs: list[Pair] = []
    place = 0
    while place < len(text) or not pairs:
        found = PAIR.match(text, place)
        if not found:
            raise UnitError("not_understood", kind=kind.name, text=typed)
        bare = UNITS[pairs[-1][1]].smaller if pairs else unit
        code = unit_of(found["unit"], kind, typed) if found["unit"] else bare
        said = found["unit"] or unit or ""
        amount = numerals.number(found["number"], kind=kind.name, text=typed, decimal=decimal, unit=said)
        if code is None and found[0] == text:
            raise UnitError("no_unit", kind=kind.name, text=typed, number=float(amount), units=kind.offered)
        if code is None:
            raise UnitError("not_understood", kind=kind.name, text=typed)
        if pairs:
            _refuse_uneven(pairs[-1], (amount, code), found[0].strip(), typed, kind)
        pairs.append((amount, code))
        place = _BETWEEN.match(text, found.end()).end()
    return pairs


def _refuse_uneven(before: Pair, this: Pair, part: str, typed: str, kind: Kind) -> None:
    """Units that follow one another fall in size, only the last has a fraction, and 12 lb 18 oz is a slip."""
    if kind.dimension not in ("mass", "length", "time") or before[0].denominator != 1:
        raise UnitError("not_understood", kind=kind.name, text=typed)
    if to_si(1, this[1]) >= to_si(1, before[1]):
        raise UnitError("not_understood", kind=kind.name, text=typed)
    if to_si(*this) >= to_si(1, before[1]):
        raise UnitError("too_many", kind=kind.name, text=typed, part=part, unit=before[1])
