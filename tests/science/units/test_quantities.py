"""Masses, lengths, thicknesses, hours, humidities and counts as people write them."""

import pytest

from growers.science.units import (
    Reading,
    read_count,
    read_hours,
    read_humidity,
    read_length,
    read_mass,
    read_thickness,
)
from tests.science.units.refusals import refusal


@pytest.mark.parametrize(
    ("text", "kg", "unit"),
    [
        ("12 lb 3 oz", 5.528157009375, "lb"),  # (12 + 3/16) x 0.45359237
        ("12lb3oz", 5.528157009375, "lb"),
        ("12 lb 3", 5.528157009375, "lb"),
        ("12 lbs. 3 oz.", 5.528157009375, "lb"),
        ("12 lb, 3 oz", 5.528157009375, "lb"),
        ("12 pounds and 3 ounces", 5.528157009375, "lb"),
        ("12 LB 3 OZ", 5.528157009375, "lb"),
        ("1 st 3 lb", 7.71107029, "st"),  # 17 x 0.45359237
        ("1 stone 3", 7.71107029, "st"),
        ("8 oz", 0.226796185, "oz"),
        ("800 g", 0.8, "g"),
        ("3 kg 200 g", 3.2, "kg"),
        ("3.2 kilos", 3.2, "kg"),
    ],
)
def test_masses(text, kg, unit):
    assert read_mass(text) == Reading(kg, unit, text)


def test_a_bare_number_takes_the_unit_given():
    assert read_mass("7", "lb") == Reading(3.17514659, "lb", "7")  # 7 x 0.45359237
    assert read_mass(" 7 ", "kg") == Reading(7.0, "kg", "7")
    assert read_mass("7 kg", "lb").value == 7.0


def test_a_bare_number_of_no_unit_is_asked_about():
    error = refusal(read_mass, "7")
    assert (error.code, error.params["number"], error.params["units"]) == ("no_unit", 7.0, ("kg", "lb"))


@pytest.mark.parametrize(
    ("text", "m", "unit"),
    [
        ("5'", 1.524, "ft"),
        ("4'6\"", 1.3716, "ft"),  # 54 x 0.0254
        ("4’6”", 1.3716, "ft"),
        ("4′ 6″", 1.3716, "ft"),
        ("4'6''", 1.3716, "ft"),
        ("4'-6\"", 1.3716, "ft"),
        ("4'6", 1.3716, "ft"),
        ("4 ft 6 in", 1.3716, "ft"),
        ("4ft6", 1.3716, "ft"),
        ("4 feet 6 inches", 1.3716, "ft"),
        ("4'6½\"", 1.3843, "ft"),  # 54.5 x 0.0254
        ("4½ ft", 1.3716, "ft"),
        ("54 in", 1.3716, "in"),
        ("1.52 m", 1.52, "m"),
        ("1,52 m", 1.52, "m"),
        ("152cm", 1.52, "cm"),
        ("1 m 52 cm", 1.52, "m"),
        ("1520 mm", 1.52, "mm"),
    ],
)
def test_lengths(text, m, unit):
    assert read_length(text) == Reading(m, unit, text)


def test_a_bare_4_6_is_feet_and_tenths():
    assert read_length("4.6", "ft").value == 1.40208  # 4.6 x 0.3048


@pytest.mark.parametrize(("text", "m"), [("9", 0.009), ("9 mm", 0.009), ("1 cm", 0.01), ('3/8"', 0.009525)])
def test_thicknesses_are_in_millimetres_unless_said(text, m):
    assert read_thickness(text).value == m


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("8", 8),
        ("8 h", 8),
        ("1 h 30", 1.5),
        ("1h30", 1.5),
        ("1h 30m", 1.5),
        ("1:30", 1.5),
        ("90 min", 1.5),
        ("90 m", 1.5),
        ("1½ hours", 1.5),
        ("2 days", 48),
        ("2 d 4 h", 52),
        ("2 days 4", 52),
    ],
)
def test_hours(text, hours):
    assert read_hours(text).value == hours


@pytest.mark.parametrize(
    "text", ["85 %", "85%", "85", "85 percent", "85 per cent", "85 % RH", "85 %rh", "８５％", "85 % humidity"]
)
def test_humidity(text):
    assert read_humidity(text) == Reading(0.85, "%", text)


@pytest.mark.parametrize(("text", "readings"), [("0.85", ("85 %", "0.85 %")), ("1", ("100 %", "1 %"))])
def test_a_bare_fraction_of_humidity_can_mean_two_things(text, readings):
    error = refusal(read_humidity, text)
    assert (error.code, error.params["readings"]) == ("ambiguous", readings)


@pytest.mark.parametrize("text", ["101", "850 %"])
def test_air_holds_no_more_than_all(text):
    assert refusal(read_humidity, text).code == "too_large"


@pytest.mark.parametrize(
    ("text", "count"),
    [("12", 12), ("1,200", 1200), ("1.200", 1200), ("1 200", 1200), ("40 rods", 40), ("3 x", 3), ("0", 0)],
)
def test_counts(text, count):
    assert read_count(text) == count
    assert isinstance(read_count(text), int)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("1.5", "not_whole"),
        ("2½", "not_whole"),
        ("-3", "not_positive"),
        ("12 kg", "wrong_unit"),
        ("a few", "not_understood"),
        ("12 or 13", "not_understood"),
        ("20000000", "too_large"),
    ],
)
def test_counts_refused(text, code):
    assert refusal(read_count, text).code == code


def test_a_count_of_at_least_one():
    assert refusal(read_count, "0", least=1).params["least"] == 1


@pytest.mark.parametrize(
    ("reader", "text", "expected", "came", "unit"),
    [
        (read_mass, "3 m", "mass", "length", "m"),
        (read_mass, "5'", "mass", "length", "ft"),
        (read_mass, "30 %", "mass", "part", "%"),
        (read_mass, "12 lb 3 in", "mass", "length", "in"),
        (read_length, "3 kg", "length", "mass", "kg"),
        (read_thickness, "9 g", "length", "mass", "g"),
        (read_hours, "10 °C", "time", "temperature", "C"),
        (read_humidity, "12 °C", "part", "temperature", "C"),
    ],
)
def test_the_wrong_kind_of_unit_says_what_came_and_what_was_wanted(reader, text, expected, came, unit):
    error = refusal(reader, text)
    said = error.params
    assert (error.code, said["expected"], said["came"], said["unit"]) == ("wrong_unit", expected, came, unit)


@pytest.mark.parametrize("reader", [read_mass, read_length, read_thickness, read_hours])
@pytest.mark.parametrize("number", ["0", "-3", "−3", "0.0", "-0"])
def test_nothing_and_less_than_nothing(reader, number):
    unit = {"read_mass": "kg", "read_length": "m", "read_thickness": "mm", "read_hours": "h"}[reader.__name__]
    assert refusal(reader, f"{number} {unit}").code == "not_positive"


@pytest.mark.parametrize(
    ("reader", "text", "limit", "slip", "meant"),
    [
        (read_mass, "5000 kg", 2000, "g_for_kg", 5.0),
        (read_mass, "9999999999999999999999 lb", 2000, None, None),
        (read_length, "152 m", 15, "cm_for_m", 1.52),
        (read_length, "60 ft", 15, "in_for_ft", 1.524),
        (read_thickness, "150 mm", 0.1, "tenfold", 0.015),
        (read_hours, "999999", 9600, None, None),
    ],
)
def test_the_absurd_is_refused_with_the_likely_slip(reader, text, limit, slip, meant):
    error = refusal(reader, text)
    assert (error.code, error.params["limit"], error.params["slip"]) == ("too_large", limit, slip)
    assert error.params["meant"] == (meant if meant is None else pytest.approx(meant))


@pytest.mark.parametrize(
    ("reader", "text", "part", "unit"),
    [(read_mass, "12 lb 18 oz", "18 oz", "lb"), (read_length, "5'14", "14", "ft"), (read_hours, "1 h 75", "75", "h")],
)
def test_a_small_unit_that_holds_more_than_the_large_one(reader, text, part, unit):
    error = refusal(reader, text)
    assert (error.code, error.params["part"], error.params["unit"]) == ("too_many", part, unit)


@pytest.mark.parametrize("text", ["3 oz 12 lb", "4.5 lb 3 oz", "3 kg 200", "12 lb 12 lb", "12 lb -3 oz"])
def test_pairs_that_do_not_go_together(text):
    assert refusal(read_mass, text).code == "not_understood"
