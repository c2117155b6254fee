from itertools import pairwise

import pytest

from growers.science.units import WATER_WORDS, Reading, read_temperature
from tests.science.units.refusals import refusal


@pytest.mark.parametrize(
    ("text", "celsius", "unit"),
    [
        ("50F", 10.0, "F"),
        ("50 °F", 10.0, "F"),
        ("50 ºF", 10.0, "F"),
        ("50 deg F", 10.0, "F"),
        ("50 degrees Fahrenheit", 10.0, "F"),
        ("-2 C", -2.0, "C"),
        ("−2 °C", -2.0, "C"),
        ("- 2 c", -2.0, "C"),
        ("10 °C", 10.0, "C"),
        ("10℃", 10.0, "C"),
        ("10,5 °C", 10.5, "C"),
        ("0 C", 0.0, "C"),
        ("about 8 C", 8.0, "C"),
    ],
)
def test_degrees(text, celsius, unit):
    assert read_temperature(text) == Reading(celsius, unit, text)


@pytest.mark.parametrize("text", ["50", "50°", "50 degrees"])
def test_a_bare_number_takes_the_unit_given(text):
    assert read_temperature(text, "F").value == 10.0
    assert read_temperature(text, "C").value == 50.0
    assert refusal(read_temperature, text).code == "no_unit"


@pytest.mark.parametrize(
    ("text", "low", "value", "high"),
    [
        ("8-10 C", 8, 9, 10),
        ("8 – 10 °C", 8, 9, 10),
        ("8 to 10 C", 8, 9, 10),
        ("-4 to -2 C", -4, -3, -2),
        ("-4--2 °C", -4, -3, -2),
        ("41 to 59 F", 5, 10, 15),
        ("8 °C to 10 °C", 8, 9, 10),
    ],
)
def test_a_range_is_kept_as_a_range(text, low, value, high):
    read = read_temperature(text)
    assert (read.low, read.value, read.high) == (low, value, high)


@pytest.mark.parametrize("text", ["10-8 C", "8-8 C", "8-", "- C", "8 C 3 C"])
def test_no_range(text):
    assert refusal(read_temperature, text).code == "not_understood"


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("ice", "ice"),
        ("Iced over", "ice"),
        ("ice-cold", "ice"),
        ("numbs the fingers", "numbs the fingers"),
        ("numb", "numbs the fingers"),
        ("COLD", "cold"),
        ("cool", "cool"),
        ("mild", "mild"),
    ],
)
def test_water_told_by_the_hand(text, word):
    band = WATER_WORDS[word]
    assert read_temperature(text) == Reading(band.value_c, "word", text, band.low_c, band.high_c)


def test_the_words_go_from_ice_to_mild_in_wide_bands_that_leave_no_gap():
    bands = list(WATER_WORDS.values())
    assert list(WATER_WORDS) == ["ice", "numbs the fingers", "cold", "cool", "mild"]
    assert all(band.low_c <= band.value_c <= band.high_c for band in bands)
    assert all(a.value_c < b.value_c and b.low_c <= a.high_c for a, b in pairwise(bands))


def test_air_is_not_told_by_words():
    assert refusal(read_temperature, "cold", words=False).code == "not_understood"
    assert refusal(read_temperature, "lovely").code == "not_understood"


@pytest.mark.parametrize(
    ("text", "code", "limit", "slip"),
    [
        ("68 C", "too_large", 60, "f_for_c"),  # 20 °C
        ("1000 C", "too_large", 60, None),
        ("180 F", "too_large", 60, None),  # 82 °C, and said to be °F
        ("-40 C", "too_small", -30, None),
        ("50 to 70 C", "too_large", 60, "f_for_c"),
    ],
)
def test_the_absurd_is_refused_with_the_likely_slip(text, code, limit, slip):
    error = refusal(read_temperature, text)
    assert (error.code, error.params["limit"], error.params["slip"]) == (code, limit, slip)
    if text == "68 C":
        assert error.params["meant"] == pytest.approx(20)


def test_a_mass_is_no_temperature():
    error = refusal(read_temperature, "3 kg")
    assert (error.code, error.params["came"]) == ("wrong_unit", "mass")
