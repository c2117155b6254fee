"""Units against their legal definitions, and readings worked out by hand from them."""

from fractions import Fraction

import pytest

from growers.science import units
from tests.outside import published


@pytest.mark.parametrize("row", published.rows("units.csv"), ids=lambda row: row["unit"])
def test_a_unit_is_what_the_law_says_to_the_last_digit(row):
    assert units.to_si(1, row["unit"]) == Fraction(row["value"])


def test_every_unit_that_people_write_is_in_the_published_table():
    by_definition = {"kg", "m", "h", "C", "F"}
    assert {row["unit"] for row in published.rows("units.csv")} | by_definition == set(units.UNITS)


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("12 lb 3 oz", 5.528157009375),  # 12.1875 lb x 0.45359237
        ("12½ lb", 5.669904625),  # 12.5 x 0.45359237
        ("1 st 3 lb", 7.71107029),  # 17 lb x 0.45359237
        ("1 oz", 0.028349523125),  # 0.45359237 / 16
    ],
)
def test_masses_by_hand(text, kg):
    assert units.read_mass(text).value == kg


@pytest.mark.parametrize(
    ("text", "m"),
    [
        ("4'6\"", 1.3716),  # 54 in x 0.0254
        ("5'", 1.524),  # 5 x 0.3048
        ("9 ft", 2.7432),
        ('6"', 0.1524),
    ],
)
def test_lengths_by_hand(text, m):
    assert units.read_length(text).value == m


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(32, 0.0), (50, 10.0), (14, -10.0), (-22, -30.0), (86, 30.0), (98.6, 37.0)],  # (F - 32) x 5/9
)
def test_temperatures_by_hand(fahrenheit, celsius):
    assert units.read_temperature(f"{fahrenheit} °F").value == celsius


def test_where_the_two_scales_of_temperature_meet():
    assert units.to_si(-40, "F") == -40  # common knowledge: -40 °C is -40 °F
    assert units.from_si(100, "F") == 212  # water boils


def test_a_bolt_round_the_butt():
    # About 94 cm is "3 ft 1 in": 37 in x 2.54 cm = 93.98 cm.
    assert units.read_length("3 ft 1 in").value == pytest.approx(0.9398, abs=1e-12)
    assert units.write_length(0.94, "ft") == "3'1\""
