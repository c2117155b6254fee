from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from django.utils.translation import override

from growers.furniture import fields as f
from growers.science.units import Reading


def refusal(field, text):
    with pytest.raises(ValidationError) as refused:
        field.clean(text)
    return refused.value.messages[0]


@pytest.mark.parametrize(
    ("typed", "kg", "echo"),
    [
        ("3.2 kg", 3.2, "3.2 kg"),
        ("3,2 kg", 3.2, "3.2 kg"),
        ("3.2", 3.2, "3.2 kg"),
        ("800 g", 0.8, "800 g = 0.8 kg"),
        # 12 lb 3 oz is 12.1875 lb of 0.45359237 kg.
        ("12 lb 3 oz", 12.1875 * 0.45359237, "12 lb 3 oz = 5.53 kg"),
        ("  12½ lb ", 12.5 * 0.45359237, "12 lb 8 oz = 5.67 kg"),
    ],
)
def test_a_weight_in_any_unit(bound, typed, kg, echo):
    field = bound(f.MassField())
    reading = field.clean(typed)
    assert reading.value == pytest.approx(kg, rel=1e-12)
    assert reading.text == typed.strip()
    assert field.echo(reading) == echo


def test_a_bare_number_is_in_the_holdings_unit_unless_the_field_has_its_own(bound):
    assert bound(f.MassField(), mass_unit="lb").clean("2").value == pytest.approx(0.90718474)
    assert bound(f.MassField(unit="g"), mass_unit="lb").clean("250").value == pytest.approx(0.25)
    assert bound(f.LengthField(), length_unit="cm").clean("152").value == pytest.approx(1.52)
    assert bound(f.LengthField()).clean("5").value == pytest.approx(1.524)
    assert bound(f.TemperatureField(), temperature_unit="F").clean("50").value == pytest.approx(10)


def test_what_was_typed_stands_beside_the_holdings_own_unit(bound):
    field = bound(f.MassField(), mass_unit="lb")
    # 3.2 kg is 7.0548 lb, 7 lb and 0.88 oz.
    assert field.echo(field.clean("3.2 kg")) == "3.2 kg = 7 lb 1 oz"
    assert field.echo(field.clean("7 lb 1 oz")) == "7 lb 1 oz = 3.2 kg"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("3 m", "“3 m” is a length; a weight is wanted, such as 3.2 kg or 7 lb 1 oz."),
        ("heavy", "“heavy” is not a weight we can read. Write it like 3.2 kg or 7 lb 1 oz."),
        ("1,234 kg", "“1,234 kg” could be 1.234 kg or 1234 kg. Write the one you mean."),
        ("0 kg", "“0 kg” is not more than nothing. Write a weight such as 3.2 kg or 7 lb 1 oz."),
        ("12 lb 18 oz", "“12 lb 18 oz”: 18 oz is more than one lb. Look at the figures."),
        ("", "Write a weight, such as 3.2 kg or 7 lb 1 oz."),
        ("  ", "Write a weight, such as 3.2 kg or 7 lb 1 oz."),
    ],
)
def test_a_refusal_says_what_is_wrong_and_what_would_be_right(bound, typed, says):
    assert refusal(bound(f.MassField()), typed) == says


def test_a_slip_far_off_is_named(bound):
    # 2500 "kg" is beyond any trailer of willow; as pounds it is 1134 kg.
    assert "Did you mean 2500 lb?" in refusal(bound(f.MassField()), "2500")
    assert "Did you mean 90 °F?" in refusal(bound(f.TemperatureField()), "90")


def test_nothing_optional_is_demanded(bound):
    for kind in (f.MassField, f.LengthField, f.TemperatureField, f.PartField, f.CountField, f.DayField, f.MoneyField):
        field = bound(kind(required=False))
        assert field.clean("") is None
        assert field.echo(None) == ""


def test_numbers_as_the_reader_writes_them(bound):
    with override("de"):
        field = bound(f.MassField())
        assert field.echo(field.clean("3,25")) == "3,25 kg"


@pytest.mark.parametrize(
    ("typed", "value", "low", "high", "echo"),
    [
        ("50F", 10, None, None, "50 °F = 10 °C"),
        ("8 °C", 8, None, None, "8 °C"),
        ("cold", 8, 5, 11, "cold: about 8 °C, from 5 °C to 11 °C"),
        ("8-10 C", 9, 8, 10, "8 °C to 10 °C"),
    ],
)
def test_water_by_thermometer_or_by_hand(bound, typed, value, low, high, echo):
    field = bound(f.TemperatureField())
    reading = field.clean(typed)
    assert (reading.value, reading.low, reading.high) == (pytest.approx(value), low, high)
    assert field.echo(reading) == echo


def test_words_only_where_they_are_wanted(bound):
    assert "not a temperature" in refusal(bound(f.TemperatureField(words=False)), "cold")
    assert refusal(bound(f.TemperatureField()), "tepid") == (
        "“tepid” is no temperature the book knows. "
        "Write a figure such as 8 °C, or one of “ice”, “numbs the fingers”, “cold”, “cool”, “mild”."
    )
    assert "such as" in refusal(bound(f.TemperatureField()), "8 lb")


@pytest.mark.parametrize(
    ("typed", "value", "echo"),
    [
        ("half", 0.5, "half = 50 %"),
        ("a third", 1 / 3, "a third = 33.3 %"),
        ("1/3", 1 / 3, "a third = 33.3 %"),
        ("30 %", 0.3, "30 %"),
        ("30", 0.3, "30 %"),
        ("all", 1.0, "all = 100 %"),
    ],
)
def test_a_part(bound, typed, value, echo):
    field = bound(f.PartField())
    reading = field.clean(typed)
    assert reading.value == pytest.approx(value)
    assert field.echo(reading) == echo


def test_a_part_that_could_be_two_things_is_asked_about(bound):
    assert "30 % or 0.3 %" in refusal(bound(f.PartField()), "0.3")
    assert "at most" in refusal(bound(f.PartField()), "120 %") or "the most" in refusal(bound(f.PartField()), "120 %")


def test_air_thickness_and_hours(bound):
    assert bound(f.HumidityField()).clean("85").value == pytest.approx(0.85)
    assert bound(f.ThicknessField()).clean("9").value == pytest.approx(0.009)
    hours = bound(f.HoursField())
    assert hours.clean("1 h 30").value == pytest.approx(1.5)
    assert hours.echo(hours.clean("90 min")) == "1 h 30 min"


def test_counts(bound):
    field = bound(f.CountField(likely=(1, 300)))
    assert field.clean("1,200") == 1200
    assert field.clean("40 rods") == 40
    assert refusal(field, "0") == "At least 1 is wanted."
    assert "not a whole number" in refusal(field, "2.5")
    assert "is a weight; a number is wanted" in refusal(field, "12 kg")
    assert bound(f.CountField(least=0)).clean("none") == 0
    assert refusal(bound(f.CountField(most=40)), "41") == "41 is too many: at most 40."
    assert field.doubt(1200) == "1,200 is far from what is usual here, 1 to 300. Is it right?"
    assert field.doubt(40) is None


@pytest.mark.parametrize(
    ("typed", "amount"),
    [
        ("12.50", "12.50"),
        ("12,50", "12.50"),
        ("£12", "12.00"),
        ("1,250", "1250.00"),
        ("1.250,5", "1250.50"),
        ("12.50 GBP", "12.50"),
        ("0", "0.00"),
    ],
)
def test_money(bound, typed, amount):
    field = bound(f.MoneyField())
    assert field.clean(typed) == Decimal(amount)
    assert field.echo(Decimal("1250")) == "1,250.00 GBP"


def test_money_refused(bound):
    assert "12.50" in refusal(bound(f.MoneyField()), "dear")
    assert "not below nothing" in refusal(bound(f.MoneyField()), "-3")
    assert "more than nothing" in refusal(bound(f.MoneyField(free=False)), "0")


def test_a_year_alone(bound):
    field = bound(f.YearField())
    assert field.clean("2019") == 2019
    assert field.clean("19") == 2019
    assert field.clean("’97") == 1997
    assert refusal(field, "2031") == "2031 has not come yet."
    assert "not a year" in refusal(field, "219")
    assert bound(f.YearField(future=True)).clean("2031") == 2031


def test_a_moment_shown_again_reads_the_same_on_any_later_day(bound, book):
    import datetime as dt

    field = bound(f.MomentField())
    for typed in ("yesterday 7:10", "this morning", "yesterday", "last night", "yesterday evening", "about 7:10"):
        moment = field.clean(typed)
        field.bind(**book | {"now": book["now"] + dt.timedelta(days=9), "today": book["today"] + dt.timedelta(days=9)})
        again = field.clean(field.prepare_value(moment))
        assert (again.at, again.until) == (moment.at, moment.until), typed
        field.bind(**book)


def test_values_shown_in_a_form_are_in_the_holdings_units(bound):
    assert bound(f.LengthField()).prepare_value(1.524) == "5'"
    assert bound(f.MassField(), mass_unit="lb").prepare_value(0.90718474) == "2 lb"
    assert bound(f.MassField()).prepare_value(Reading(5.528, "lb", "12 lb 3 oz")) == "12 lb 3 oz"
    assert bound(f.MoneyField()).prepare_value(Decimal("12.5")) == "12.50"


def test_a_figure_far_from_likely_is_questioned_with_the_slip(bound):
    field = bound(f.MassField(likely=(0.5, 25)))
    doubt = lambda text: field.doubt(field.clean(text))  # noqa: E731
    assert doubt("6.1") is None
    # 61 lb would be 27.7 kg, still too heavy; a tenth is not.
    assert doubt("61") == "61 kg is far from what is usual here. Did you mean 6.1 kg?"
    # 40 kg as pounds is 18.1 kg.
    assert doubt("40") == "40 kg is far from what is usual here. Did you mean 40 lb?"
    field = bound(f.LengthField(likely=(0.6, 3.5)))
    # 6 m as feet is 1.83 m.
    assert field.doubt(field.clean("6 m")) == "6 m is far from what is usual here. Did you mean 6'?"


def test_what_cannot_be_a_slip_is_questioned_with_what_is_usual(bound):
    field = bound(f.MassField(likely=(5, 6)))
    assert field.doubt(field.clean("8 kg")) == "8 kg is far from what is usual here, 5 kg to 6 kg. Is it right?"
