"""How much was taken, as the grower says it: a weight, a number of rods, a part, or all the rest."""

import re
from dataclasses import dataclass

from django.utils.formats import get_format
from django.utils.translation import gettext as _

from growers.furniture import sentences
from growers.furniture.writing import PART_WORDS
from growers.science import units

MASS, RODS, PART, REST, BUNDLES = "mass", "rods", "part", "rest", "bundles"


@dataclass(frozen=True)
class Much:
    """`value` is kg, a number of rods or of bundles, or a fraction; nothing for all the rest. `text` is as typed."""

    how: str
    value: float | None = None
    unit: str = ""
    text: str = ""


def rest_words():
    ours = {"rest", "the rest", "all the rest", "all", "all of it", "everything"}
    return ours | {str(_("the rest")).casefold(), str(_("all the rest")).casefold()}


def rod_word():
    words = (r"rods?", re.escape(_("rod")), re.escape(_("rods")), r"st(?:ü|ue)ck", r"pieces?")
    return re.compile(rf"^(.*?)\s*(?:{'|'.join(words)})\.?$", re.I)


def bundle_word():
    words = (r"bundles?", r"bolts?", re.escape(_("bundle")), re.escape(_("bundles")))
    return re.compile(rf"^(.*?)\s*(?:{'|'.join(words)})\.?$", re.I)


def read_much(text, bare_unit=None):
    """Read “2.3 kg”, “4 lb 2 oz”, “40 rods”, “a third”, “30 %”, “2 bundles” or “the rest”. Raises UnitError.

    A bare number takes the unit of `bare_unit`.
    """
    said = " ".join(str(text).split())
    if said.casefold() in rest_words():
        return Much(REST, text=said)
    decimal = get_format("DECIMAL_SEPARATOR")
    if found := rod_word().match(said):
        return Much(RODS, float(units.read_count(found[1], least=1)), "rods", said)
    if found := bundle_word().match(said):
        return Much(BUNDLES, float(units.read_count(found[1], least=1)), "bundles", said)
    # A bare number is a weight: “0.5” out of a bundle is half a kilo to everybody.
    if not re.fullmatch(r"[\d.,]+", said):
        try:
            part = units.read_part(sentences.known_word(said, PART_WORDS), decimal=decimal)
            return Much(PART, part.value, part.unit, said)
        except units.UnitError:
            if "%" in said:
                raise
    mass = units.read_mass(said, bare_unit, decimal=decimal)
    return Much(MASS, mass.value, mass.unit, said)
