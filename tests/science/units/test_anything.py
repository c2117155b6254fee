"""Whatever is typed, a reader gives a sound reading or a UnitError with a known code, never another error."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growers.science import units

READERS = {
    units.read_mass: (0, 2000),
    units.read_length: (0, 15),
    units.read_thickness: (0, 0.1),
    units.read_hours: (0, 9600),
    units.read_humidity: (0, 1),
    units.read_part: (0, 1),
    units.read_temperature: (-30, 60),
}
CODES = set(re.findall(r"^    ([a-z_]+) {2,}\S", units.UnitError.__doc__, flags=re.MULTILINE))

MARKS = [*"0123456789.,-–/'\"’”½¼²°%~:٣３ "]
WORDS = ["kg", "lb", "oz", "st", "ft", "in", "m", "cm", "F", "C", "h", "min", "deg", "third", "half", "a", "to", "and"]
MORE_WORDS = ["about", "cold", "rods", "per cent", " of it"]
PLAUSIBLE = st.lists(st.sampled_from(MARKS + WORDS + MORE_WORDS), max_size=8).map("".join)


def attempt(call):
    """What `call` gives and None, or None and its UnitError."""
    try:
        return call(), None
    except units.UnitError as error:
        return None, error


def check(reader, text, unit):
    low, high = READERS[reader]
    read, refused = attempt(lambda: reader(text, unit) if unit else reader(text))
    if refused:
        assert refused.code in CODES
        assert refused.params["kind"]
        return
    assert math.isfinite(read.value)
    assert low <= read.value <= high
    assert read.text == text.strip()
    assert read.unit in units.UNITS or read.unit in ("word", "part")


def test_the_table_of_codes_is_found():
    assert len(CODES) == 10


@pytest.mark.parametrize("reader", READERS, ids=lambda reader: reader.__name__)
@settings(max_examples=300)
@given(text=PLAUSIBLE | st.text(max_size=12))
def test_bare(reader, text):
    check(reader, text, None)


@pytest.mark.parametrize(
    ("reader", "unit"), [(units.read_mass, "lb"), (units.read_length, "ft"), (units.read_part, "%")]
)
@settings(max_examples=200)
@given(text=PLAUSIBLE)
def test_with_the_unit_of_the_holding(reader, unit, text):
    check(reader, text, unit)


@settings(max_examples=300)
@given(text=PLAUSIBLE | st.text(max_size=12))
def test_counts(text):
    count, refused = attempt(lambda: units.read_count(text))
    assert refused.code in CODES if refused else 0 <= count <= 10_000_000
