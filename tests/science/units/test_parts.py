from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from growers.science.units import PARTS, nearest_part, read_part, write_part
from tests.science.units.refusals import refusal


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("a third", Fraction(1, 3)),
        ("one third", Fraction(1, 3)),
        ("third", Fraction(1, 3)),
        ("half", Fraction(1, 2)),
        ("a half", Fraction(1, 2)),
        ("Half of it", Fraction(1, 2)),
        ("a quarter", Fraction(1, 4)),
        ("two thirds", Fraction(2, 3)),
        ("two-thirds", Fraction(2, 3)),
        ("three quarters", Fraction(3, 4)),
        ("a tenth", Fraction(1, 10)),
        ("hardly any", Fraction(1, 50)),
        ("all", Fraction(1)),
        ("the lot", Fraction(1)),
        ("about a third", Fraction(1, 3)),
        ("1/3", Fraction(1, 3)),
        ("½", Fraction(1, 2)),
        ("30 %", Fraction(3, 10)),
        ("30%", Fraction(3, 10)),
        ("30 percent", Fraction(3, 10)),
        ("30 per cent", Fraction(3, 10)),
        ("12,5 %", Fraction(1, 8)),
        ("0.3", Fraction(3, 10)),
        ("100 %", Fraction(1)),
    ],
)
def test_read(text, part):
    assert read_part(text).value == float(part)


def test_what_was_said_is_kept():
    assert (read_part("30 %").unit, read_part("a third").unit, read_part("1/3").unit) == ("%", "part", "part")
    assert read_part(" a third ").text == "a third"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "nothing"),
        ("0", "not_positive"),
        ("0 %", "not_positive"),
        ("-1/3", "not_positive"),
        ("150 %", "too_large"),
        ("3/2", "too_large"),
        ("30", "no_unit"),
        ("1", "ambiguous"),
        ("3 kg", "wrong_unit"),
        ("most", "not_understood"),
        ("four thirds", "not_understood"),
        ("1/0", "not_understood"),
        ("half of the rest", "not_understood"),  # not half of the whole
    ],
)
def test_refused(text, code):
    assert refusal(read_part, text).code == code


def test_a_bare_number_where_per_cent_are_usual():
    assert read_part("30", "%").value == 0.3
    error = refusal(read_part, "0.3", unit="%")
    assert (error.code, error.params["readings"]) == ("ambiguous", ("30 %", "0.3 %"))


@pytest.mark.parametrize(
    ("part", "words"),
    [
        (1 / 3, "a third"),
        (0.335, "a third"),
        (0.5, "half"),
        (1.0, "all"),
        (0.02, "hardly any"),
        (0.37, "37 %"),
        (0.374, "about 37 %"),
        (0.997, "99.7 %"),  # not all
        (0.9999, "about 99.9 %"),
        (0.004, "0.4 %"),
        (0.0, "0 %"),
    ],
)
def test_written(part, words):
    assert write_part(part) == words


def test_written_with_the_mark_of_the_language():
    assert write_part(0.997, decimal=",") == "99,7 %"


@pytest.mark.parametrize("part", [-0.1, 1.1, float("nan")])
def test_no_part(part):
    with pytest.raises(ValueError, match="from 0 to 1"):
        write_part(part)


@pytest.mark.parametrize("name", PARTS)
def test_every_name_is_read_and_written_as_itself(name):
    assert write_part(read_part(name).value) == name
    assert nearest_part(float(PARTS[name])) == name


@given(st.floats(min_value=0.0005, max_value=1))
@example(0.0150000001)
@example(0.985)
@example(0.9900001)
def test_what_is_written_is_read_back_within_half_a_hundredth(part):
    assert abs(read_part(write_part(part)).value - part) <= 0.005 + 1e-9
