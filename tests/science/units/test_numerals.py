"""Numbers as people write them, whatever they measure."""

import pytest

from growers.science.units import read_mass
from tests.science.units.refusals import refusal


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("3.2 kg", 3.2),
        ("3,2 kg", 3.2),
        (".5 kg", 0.5),
        ("½ kg", 0.5),
        ("12½ kg", 12.5),
        ("12 ½ kg", 12.5),
        ("3 1/2 kg", 3.5),
        ("3 1 / 2 kg", 3.5),
        ("3 1⁄2 kg", 3.5),
        ("¾ kg", 0.75),
        ("1/8 kg", 0.125),
        ("0,125 kg", 0.125),  # a lone nought before the mark: no thousands
        ("3.215 kg", 3.215),  # a kitchen scale
        ("1.234,5 kg", 1234.5),
        ("1,234.5 kg", 1234.5),
        ("1 234,5 kg", 1234.5),
        ("1\u202f234 kg", 1234.0),
        ("1.234.567 g", 1234.567),
        ("３．２ ｋｇ", 3.2),  # full-width
        ("٣٫٢ kg", 3.2),  # Arabic-Indic digits and decimal mark
        ("१२ kg", 12.0),  # Devanagari
        ("\u200e3.2\u00a0kg\u200f", 3.2),  # marks of direction, a space that does not break
        ("+3.2 kg", 3.2),
        ("about 3.2 kg", 3.2),
        ("~3.2 kg", 3.2),
        ("3 ㎏", 3.0),
    ],
)
def test_read(text, kg):
    assert read_mass(text).value == kg


@pytest.mark.parametrize(
    ("text", "decimal", "readings"),
    [
        ("1,234 kg", ".", ("1.234 kg", "1234 kg")),
        ("12,500 kg", ".", ("12.5 kg", "12500 kg")),
        ("1,000 kg", ".", ("1.0 kg", "1000 kg")),
        ("1.234 kg", ",", ("1,234 kg", "1234 kg")),
    ],
)
def test_one_mark_before_three_digits_can_mean_two_things(text, decimal, readings):
    error = refusal(read_mass, text, decimal=decimal)
    assert (error.code, error.params["readings"]) == ("ambiguous", readings)


@pytest.mark.parametrize("reading", ["1.234 kg", "1234 kg"])
def test_each_reading_offered_is_read_without_question(reading):
    assert read_mass(reading).value in (1.234, 1234.0)


def test_the_mark_of_the_readers_language_settles_it():
    assert read_mass("1,234 kg", decimal=",").value == 1.234
    assert read_mass("1.234 kg", decimal=".").value == 1.234


@pytest.mark.parametrize(
    "text",
    [
        "kg",
        "much",
        "nan",
        "inf kg",
        "-inf",
        "∞ kg",
        "1e3 kg",
        "0x10 kg",
        "3..2 kg",
        "1,23,4 kg",
        "1.23.4 kg",
        "1,234.5.6 kg",
        "1/0 kg",
        "5² kg",  # not 52
        "③ kg",
        "3 kg 3 kg",
        "3 kg?",
        "4-6 kg",
        "3 4 kg",
        "9" * 61 + " kg",
        "<b>3</b> kg",
    ],
)
def test_not_understood(text):
    assert refusal(read_mass, text).code == "not_understood"


@pytest.mark.parametrize("text", ["", "   ", None])
def test_nothing(text):
    assert refusal(read_mass, text).code == "nothing"
