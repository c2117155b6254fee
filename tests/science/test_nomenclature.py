"""Names of science and the page that gives each its one meaning."""

import inspect
from pathlib import Path

import pytest

from growers.science import moisture, shrinkage, vapour
from growers.science.units import UNITS, WATER_WORDS

PAGE = (Path(__file__).parents[2] / "docs/reference/nomenclature.md").read_text(encoding="utf-8")
# What the functions of numpy would call them too.
PLAIN = {"at", "weights"}


FUNCTIONS = [
    function
    for module in (moisture, shrinkage, vapour)
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
]


@pytest.mark.parametrize("function", FUNCTIONS, ids=lambda function: function.__name__)
def test_every_argument_is_explained_there_and_in_the_docstring(function):
    for name in inspect.signature(function).parameters:
        assert name in PLAIN or f"`{name}`" in PAGE
        assert name in function.__doc__
    assert all(section in function.__doc__ for section in ("Parameters\n", "Returns\n", "Raises\n"))


@pytest.mark.parametrize(("word", "band"), list(WATER_WORDS.items()))
def test_the_bands_of_the_words_for_water_are_those_of_the_code(word, band):
    assert f"{word} {band.low_c:g} to {band.high_c:g}" in PAGE


def test_every_unit_can_be_seen_typed():
    typed = {"kg": "3.2 kg", "°C": "10 °C", "F": "50F", "in": "6 in", "st": "1 st", "mm": "9 mm", "d": "2 days"}
    for unit in UNITS:
        assert typed.get(unit, unit) in PAGE
