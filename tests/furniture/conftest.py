import datetime as dt
from types import SimpleNamespace
from zoneinfo import ZoneInfo

import pytest

LONDON = ZoneInfo("Europe/London")


def carr(**changes):
    """Hallow Carr as the furniture sees it: no more than its units, zone and name."""
    settings = {
        "name": "Hallow Carr",
        "slug": "hallow-carr",
        "zone": "Europe/London",
        "mass_unit": "kg",
        "length_unit": "ft",
        "temperature_unit": "C",
        "currency": "GBP",
        "invented": True,
    }
    return SimpleNamespace(**settings | changes)


@pytest.fixture
def book():
    """A Tuesday morning at Hallow Carr."""
    now = dt.datetime(2026, 11, 24, 9, 30, tzinfo=LONDON)
    return {"holding": carr(), "today": now.date(), "now": now}


@pytest.fixture
def bound(book):
    """A field that stands in that book."""

    def bind(field, **changes):
        field.bind(**book | ({"holding": carr(**changes)} if changes else {}))
        return field

    return bind
