"""Texts that were once read as something else, or broke the page that read them."""

from datetime import UTC, date, datetime
from types import SimpleNamespace
from zoneinfo import ZoneInfo

import pytest
from django.core.exceptions import ValidationError

from growers.bundles.queries import near_tags
from growers.furniture.dates import read_day
from growers.furniture.fields import MoneyField
from growers.furniture.moments import read_moment
from growers.furniture.refusals import Refusal

TODAY = date(2026, 8, 20)


@pytest.mark.parametrize("text", ["9" * 10_000, "-1", "−1", "9" * 5000 + " days ago", "12 " + "x" * 10_000])
def test_no_such_text_is_a_day(text):
    with pytest.raises(Refusal) as refused:
        read_day(text, today=TODAY)
    assert len(refused.value.sentence) < 200


@pytest.mark.parametrize("text", ["9" * 10_000, "9" * 5000 + " hours ago", "7:10 " + "x" * 10_000])
def test_no_such_text_is_a_moment(text):
    with pytest.raises(Refusal) as refused:
        read_moment(text, zone=ZoneInfo("Europe/London"), now=datetime(2026, 8, 20, 12, tzinfo=UTC))
    assert len(refused.value.sentence) < 200


def money(text):
    field = MoneyField()
    field.bind(holding=SimpleNamespace(currency="GBP"), today=TODAY, now=None)
    return field.clean(text)


@pytest.mark.parametrize(
    "text", ["12 lb 3 oz", "1e999", "12€50", "3²", "1 20", "12 EUR", "1,234 kg", "9" * 10_000, "-1"]
)
def test_no_such_text_is_money(text):
    with pytest.raises(ValidationError):
        money(text)


@pytest.mark.parametrize(
    ("text", "amount"),
    [("£12.50", "12.50"), ("12,5 gbp", "12.50"), ("1 200", "1200"), ("1.200,50", "1200.50"), ("٣", "3")],
)
def test_money_is_read_with_its_sign(text, amount):
    assert str(money(text)) == f"{float(amount):.2f}"


def test_a_page_of_figures_is_near_no_tag(mine):
    assert near_tags(mine, "4" * 10_000) == []
