"""The invented book: whole, sound, and never ahead of its day."""

import datetime

import pytest

from growers.baskets.models import Basket
from growers.beds.models import Variety
from growers.bundles.models import Bundle, ScaleCorrection
from growers.customers.models import Complaint, Order, Waiting
from growers.drying.models import Word
from growers.exchange.actions import Story, load_demo
from growers.exchange.queries import doctor
from growers.harvest.models import Cut
from growers.people.models import Holding, Record
from growers.people.queries import kinds
from growers.people.rules import winter_of
from growers.soaking.models import Batch, BenchResult, BendCheck, Lift


@pytest.mark.django_db
@pytest.mark.parametrize("today", ["2026-11-25", "2027-07-15"])
def test_the_book_is_sound_whatever_the_day(today):
    today = datetime.date.fromisoformat(today)
    load_demo(today)
    holding = Holding.objects.get()
    assert holding.invented
    assert doctor() == []
    assert 8 <= Variety.objects.of(holding).count() <= 12
    assert Bundle.objects.of(holding).count() >= 140
    assert Batch.objects.of(holding).count() >= 60
    assert Basket.objects.of(holding).count() >= 15
    winters = {winter_of(cut.first_on, 7) for cut in Cut.objects.of(holding)}
    assert len(winters) == 3  # two whole ones and a third begun
    assert set(BendCheck.objects.values_list("result", flat=True)) >= {"cracks", "nearly", "folds", "slimy"}
    assert set(BenchResult.objects.values_list("result", flat=True)) >= {"right", "cracked"}
    assert set(Lift.objects.values_list("state", flat=True)) >= {"ready", "unready", "forgotten"}
    for kind in (ScaleCorrection, Complaint, Order, Waiting):
        assert kind.objects.of(holding).exists()
    assert Word.objects.of(holding).filter(says="musty").exists()
    assert not told_ahead(holding, today)


def told_ahead(holding, today):
    """Records of a day that has not come."""
    return [
        record
        for model in kinds(Record).values()
        if "on" in {field.name for field in model._meta.fields}
        for record in model.objects.of(holding).filter(on__gt=today)
    ]


@pytest.mark.django_db
def test_made_twice_it_is_the_same_book():
    day = datetime.date(2026, 11, 25)
    first = load_demo(day)
    bundles = Bundle.objects.count()
    assert load_demo(day) == first
    assert Bundle.objects.count() == bundles


def test_a_step_that_has_not_come_is_left_out_with_what_stands_on_it(hand, wren):
    story = Story(hand["holding"], wren, datetime.date(2026, 11, 25))
    story.tell(
        [
            {"do": "beds.add_bed", "as": "Beck Side", "name": "Beck Side"},
            {"do": "beds.plant", "as": "it", "bed": "@Beck Side", "new_variety": "Pellock", "planted_year": 2019},
            {"do": "harvest.cut", "as": "come", "planting": "@it", "on": "next-01-04"},
            {"do": "harvest.cut", "as": "to come", "planting": "@it", "on": "next-12-28"},
            {"do": "harvest.green_out", "cut": "@to come.cut", "on": "next-01-05", "what": "sets", "where": "sold"},
        ],
        "a test",
    )
    assert [cut.first_on for cut in Cut.objects.all()] == [datetime.date(2026, 1, 4)]


def test_a_step_that_can_not_be_read_says_where_it_stands(hand, wren):
    story = Story(hand["holding"], wren, datetime.date(2026, 11, 25))
    with pytest.raises(ValueError, match="no day of a story") as trouble:
        story.tell([{"do": "beds.grub_out", "on": "28 December"}], "a chapter")
    assert "in a chapter, step 1" in trouble.value.__notes__[0]
