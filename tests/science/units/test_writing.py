"""Writing, and reading back what was written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growers.science.units import (
    from_si,
    read_hours,
    read_humidity,
    read_length,
    read_mass,
    read_temperature,
    read_thickness,
    to_si,
    write_hours,
    write_humidity,
    write_length,
    write_mass,
    write_number,
    write_temperature,
    write_thickness,
)


@pytest.mark.parametrize(
    ("kg", "unit", "written"),
    [
        (5.528157009375, "kg", "5.53 kg"),
        (3.2, "kg", "3.2 kg"),
        (12.35, "kg", "12.35 kg"),
        (0.125, "kg", "0.125 kg"),
        (0.9996, "kg", "1 kg"),
        (123.45, "kg", "123.5 kg"),
        (20.0, "kg", "20 kg"),
        (0.0, "kg", "0 kg"),
        (0.8, "g", "800 g"),
        (0.0124, "g", "12.4 g"),
        (5.528157009375, "lb", "12 lb 3 oz"),
        (5.44310844, "lb", "12 lb"),
        (0.36854380, "lb", "13 oz"),
        (0.45330, "lb", "1 lb"),  # 15.99 oz, not "0 lb 16 oz"
        (0.0, "lb", "0 oz"),
        (7.71107029, "st", "1 st 3 lb"),
        (6.35029318, "st", "1 st"),
        (0.226796185, "oz", "8 oz"),
    ],
)
def test_masses(kg, unit, written):
    assert write_mass(kg, unit) == written


@pytest.mark.parametrize(
    ("m", "unit", "written"),
    [
        (1.524, "ft", "5'"),
        (1.3716, "ft", "4'6\""),
        (1.3843, "ft", "4'6½\""),
        (0.1524, "ft", '6"'),
        (0.0127, "ft", '½"'),
        (1.8287, "ft", "6'"),  # 5 ft 11.996 in
        (1.3716, "in", '54"'),
        (1.3716, "cm", "137 cm"),
        (1.3716, "m", "1.37 m"),
        (1.5, "m", "1.5 m"),
        (1.3716, "mm", "1372 mm"),
    ],
)
def test_lengths(m, unit, written):
    assert write_length(m, unit) == written


@pytest.mark.parametrize(
    ("c", "unit", "written"),
    [(10, "C", "10 °C"), (10, "F", "50 °F"), (-2, "C", "−2 °C"), (-0.01, "C", "0 °C"), (8.25, "F", "46.9 °F")],
)
def test_temperatures(c, unit, written):
    assert write_temperature(c, unit) == written


@pytest.mark.parametrize(
    ("hours", "written"),
    [(0.75, "45 min"), (1, "1 h"), (1.5, "1 h 30 min"), (30, "30 h"), (48, "2 d"), (52, "2 d 4 h"), (0, "0 min")],
)
def test_hours(hours, written):
    assert write_hours(hours) == written


def test_the_rest():
    assert write_humidity(0.85) == "85 %"
    assert write_humidity(0.8549) == "85.5 %"
    assert write_thickness(0.009) == "9 mm"
    assert write_thickness(0.0094, "cm") == "0.94 cm"
    assert write_number(-0.04, 1) == "0"
    assert write_number(1200, 0) == "1200"


def test_the_mark_of_the_language():
    assert write_mass(3.2, "kg", decimal=",") == "3,2 kg"
    assert write_length(1.37, "m", decimal=",") == "1,37 m"
    assert write_temperature(-2.5, "C", decimal=",") == "−2,5 °C"


@pytest.mark.parametrize(
    ("writer", "unit"),
    [(write_mass, "m"), (write_length, "kg"), (write_temperature, "%"), (write_thickness, "kg"), (write_mass, "")],
)
def test_a_unit_of_something_else_is_a_mistake_in_the_program(writer, unit):
    with pytest.raises(ValueError, match="is no unit of"):
        writer(1.0, unit)


TYPED = [
    (read_mass, write_mass, ["12 lb 3 oz", "13 oz", "1 st 3 lb", "3.2 kg", "12.35 kg", "0.125 kg", "800 g", "8 oz"]),
    (read_length, write_length, ["5'", "4'6\"", "4'6½\"", "1.52 m", "152 cm", "1520 mm"]),
    (read_temperature, write_temperature, ["50 °F", "46.4 °F", "−2 °C", "10.5 °C"]),
    (read_thickness, write_thickness, ["9 mm", "9.5 mm", "1.25 cm"]),
]


@pytest.mark.parametrize(("reader", "writer", "text"), [(r, w, text) for r, w, texts in TYPED for text in texts])
def test_what_was_typed_comes_back_as_it_was_typed(reader, writer, text):
    read = reader(text)
    assert writer(read.value, read.unit) == text


ANY_MASS = st.floats(min_value=0.002, max_value=1999)
ANY_LENGTH = st.floats(min_value=0.01, max_value=14.9)
DECIMAL = st.sampled_from(".,")


@given(ANY_MASS, st.sampled_from(["kg", "g", "lb", "st", "oz"]), DECIMAL)
def test_masses_are_read_back_within_half_a_step(kg, unit, decimal):
    steps = {"kg": 0.001 if kg < 0.9995 else 0.01 if kg < 99.995 else 0.1, "g": 0.001}
    back = read_mass(write_mass(kg, unit, decimal=decimal), decimal=decimal).value
    assert abs(back - kg) <= 0.5 * steps.get(unit, 0.0283495232) * (1 + 1e-9)


@given(ANY_LENGTH, st.sampled_from(["ft", "in", "m", "cm", "mm"]), DECIMAL)
def test_lengths_are_read_back_within_half_a_step(m, unit, decimal):
    step = {"ft": 0.0127, "in": 0.0127, "m": 0.01, "cm": 0.01, "mm": 0.001}[unit]
    back = read_length(write_length(m, unit, decimal=decimal), decimal=decimal).value
    assert abs(back - m) <= 0.5 * step * (1 + 1e-9)


@given(st.floats(min_value=-29.9, max_value=59.9), st.sampled_from("CF"), DECIMAL)
def test_temperatures_are_read_back_within_half_a_step(c, unit, decimal):
    back = read_temperature(write_temperature(c, unit, decimal=decimal), decimal=decimal).value
    assert abs(back - c) <= 0.05 * (1 + 1e-9)


@given(st.floats(min_value=0.001, max_value=1), DECIMAL)
def test_humidities_are_read_back_within_half_a_step(fraction, decimal):
    back = read_humidity(write_humidity(fraction, decimal=decimal), decimal=decimal).value
    assert abs(back - fraction) <= 0.0005 * (1 + 1e-9)


@given(st.floats(min_value=0.01, max_value=9599))
def test_hours_are_read_back_within_half_a_step(hours):
    back = read_hours(write_hours(hours)).value
    assert abs(back - hours) <= (0.5 if hours > 47.9 else 0.5 / 60) * (1 + 1e-9)


@given(ANY_MASS, st.sampled_from(["kg", "g", "lb", "st", "oz"]))
def test_writing_again_what_was_read_changes_nothing(kg, unit):
    once = write_mass(kg, unit)
    assert write_mass(read_mass(once).value, unit) == once


@given(st.fractions(min_value=0, max_value=1000, max_denominator=1000), st.sampled_from(["lb", "ft", "F", "st"]))
def test_there_and_back_is_exact(amount, unit):
    assert from_si(to_si(amount, unit), unit) == amount
