import pytest
from django.core.exceptions import ValidationError

from growers.furniture.fields import MuchField, WantedField
from growers.furniture.much import BUNDLES, MASS, PART, REST, RODS


@pytest.mark.parametrize(
    ("typed", "how", "value", "echo"),
    [
        ("2.3 kg", MASS, 2.3, "2.3 kg"),
        ("0.5", MASS, 0.5, "0.5 kg"),
        ("1", MASS, 1.0, "1 kg"),
        # 4 lb 2 oz is 4.125 lb of 0.45359237 kg, 1.871 kg.
        ("4 lb 2 oz", MASS, 4.125 * 0.45359237, "1.87 kg"),
        ("40 rods", RODS, 40, "40 rods"),
        ("1,200 rods", RODS, 1200, "1,200 rods"),
        ("a third", PART, 1 / 3, "a third"),
        ("½", PART, 0.5, "half"),
        ("30 %", PART, 0.3, "30 %"),
        ("the rest", REST, None, "all the rest"),
        ("All", REST, None, "all the rest"),
        # Of one bundle, one bundle is all there is.
        ("1 bundle", REST, None, "all the rest"),
    ],
)
def test_how_much_as_the_grower_says_it(bound, typed, how, value, echo):
    field = bound(MuchField())
    much = field.clean(typed)
    assert much.how == how
    assert much.value == (None if value is None else pytest.approx(value))
    assert much.text == typed
    assert field.echo(much) == echo


@pytest.mark.parametrize("typed", ["", "some", "3 m", "0 rods", "120 %", "-2 kg", "2.5 rods", "2 bundles"])
def test_what_is_no_amount_is_refused_with_a_sentence(bound, typed):
    with pytest.raises(ValidationError) as refused:
        bound(MuchField()).clean(typed)
    sentence = refused.value.messages[0]
    assert sentence[0] in "“ST"
    assert sentence.endswith(".")


@pytest.mark.parametrize(
    ("typed", "how", "value", "echo"),
    [
        ("2 bundles", BUNDLES, 2, "2 bundles"),
        ("1 bolt", BUNDLES, 1, "1 bundle"),
        ("3 kg", MASS, 3.0, "3 kg"),
        ("66 rods", RODS, 66, "66 rods"),
        ("3 pieces", RODS, 3, "3 rods"),
    ],
)
def test_how_much_is_wanted_before_it_is_known_of_which_bundle(bound, typed, how, value, echo):
    field = bound(WantedField())
    much = field.clean(typed)
    assert (much.how, much.value, much.text, field.echo(much)) == (how, pytest.approx(value), typed, echo)


@pytest.mark.parametrize("typed", ["half", "the rest", "30 %", "1½ bundles", "some"])
def test_a_part_of_nothing_yet_is_refused_with_a_sentence(bound, typed):
    with pytest.raises(ValidationError) as refused:
        bound(WantedField()).clean(typed)
    assert refused.value.messages[0].endswith(".")
