import pytest

from growers.furniture.writing import typed


@pytest.mark.parametrize(
    ("text", "unit", "shown"), [("12", "kg", "12 kg"), ("12 lb 3 oz", "lb", "12 lb 3 oz"), ("", "", "")]
)
def test_a_bare_number_is_shown_with_its_unit(text, unit, shown):
    assert typed(text, unit) == shown
