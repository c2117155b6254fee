import pytest
from django.core.exceptions import ValidationError

from growers.furniture.fields import MuchField
from growers.furniture.much import MASS, PART, REST, RODS


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
    ],
)
def test_how_much_as_the_grower_says_it(bound, typed, how, value, echo):
    field = bound(MuchField())
    much = field.clean(typed)
    assert much.how == how
    assert much.value == (None if value is None else pytest.approx(value))
    assert much.text == typed
    assert field.echo(much) == echo


@pytest.mark.parametrize("typed", ["", "some", "3 m", "0 rods", "120 %", "-2 kg", "2.5 rods"])
def test_what_is_no_amount_is_refused_with_a_sentence(bound, typed):
    with pytest.raises(ValidationError) as refused:
        bound(MuchField()).clean(typed)
    sentence = refused.value.messages[0]
    assert sentence[0] in "“S"
    assert sentence.endswith(".")
