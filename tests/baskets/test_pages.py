from uuid import uuid4

import pytest

from growers.baskets import actions
from growers.baskets.models import Basket, Pattern, RodsUsed, StayedTight
from growers.baskets.views import CORRECTIONS
from growers.furniture.much import read_much
from growers.people import actions as people
from growers.people.models import Membership
from tests.soaking.test_pages import as_shown


@pytest.fixture(autouse=True)
def in_june(clock):
    clock("2026-06-20 08:00")


def test_an_empty_book_says_what_a_basket_is_good_for(pages):
    assert "No basket is in the book yet" in pages.text("baskets:baskets")
    assert "No pattern is in the book yet" in pages.text("baskets:patterns")


def test_a_pattern_and_a_basket_of_it(pages, holding):
    pages.keep("baskets:add_pattern", name="Round shopper")
    pattern = Pattern.objects.of(holding).get()
    assert "Round shopper" in pages.text("baskets:patterns")
    pages.keep("baskets:add", name="Shopper for Orla Fenn", made_on="yesterday", pattern=pattern.uid)
    basket = Basket.objects.of(holding).get()
    assert (basket.pattern, basket.made_on.isoformat()) == (pattern, "2026-06-19")
    assert "Shopper for Orla Fenn" in pages.text("baskets:baskets")


def test_soaked_rods_go_in_and_the_story_leads_to_the_bed(pages, batch, lift, shopper, holding, bundle):
    lift(batch)
    assert "Pellock, 5 ft" in pages.text("baskets:use", shopper.uid)
    pages.keep("baskets:use", shopper.uid, batch=batch.uid, much="half", part_of_basket="stakes")
    assert RodsUsed.objects.of(holding).get().part_of_batch_ppb == 500_000_000
    story = pages.text("baskets:basket", shopper.uid)
    for words in (
        "Pellock, 5 ft",
        bundle.tag_shown,
        "Trough",
        "Beck Side",
        "half of the batch",
        "about 1.5 kg",
        "stakes",
    ):
        assert words in story
    answer = pages.send("baskets:use", shopper.uid, batch=batch.uid, much="80 rods")
    assert answer.status_code == 422
    assert "Say a part" in str(answer.context["form"].errors["much"])


def test_nothing_out_of_the_water_is_said(pages, batch, shopper):
    assert "Nothing is out of the water and unused" in pages.text("baskets:use", shopper.uid)


def test_from_the_tank_into_a_new_basket(pages, batch, lift, holding):
    lift(batch)
    said = {"much": "the rest", "made_on": "20 Mar 2026"}
    answer = pages.send("baskets:use_batch", batch.uid, **said)
    assert "Choose the basket" in str(answer.context["form"].errors["basket"])
    pages.keep("baskets:use_batch", batch.uid, **said, new_basket="Bread basket")
    assert RodsUsed.objects.of(holding).get().basket.name == "Bread basket"


def test_unsoaked_rods_by_their_tag(pages, bundle, shopper, holding):
    wrong = ("1" if bundle.tag[0] != "1" else "2") + bundle.tag[1:]
    answer = pages.send("baskets:use_unsoaked", shopper.uid, bundle=wrong, much="20 rods")
    assert f"Did you mean {bundle.tag_shown}" in str(answer.context["form"].errors["bundle"])
    pages.keep("baskets:use_unsoaked", shopper.uid, bundle=bundle.tag_shown, much="20 rods")
    assert RodsUsed.objects.of(holding).get().taking.share_ppb == 200_000_000
    assert "worked without soaking" in pages.text("baskets:basket", shopper.uid)


def test_one_tap_says_whether_it_stayed_tight(pages, shopper, holding):
    assert "Have these stayed tight?" in pages.text("baskets:baskets")
    for again in (False, True):
        answer = pages.send("baskets:tight", shopper.uid, result="bit_loose", on="today")
        assert answer.status_code == (422 if again else 302)
    assert StayedTight.objects.of(holding).get().result == "bit_loose"
    listed = pages.text("baskets:baskets")
    assert "a bit loose" in listed
    assert "Have these stayed tight?" not in listed


@pytest.fixture
def one_of_each(hand, batch, lift, shopper, day):
    lift(batch)
    records = (
        shopper,
        (pattern := actions.add_pattern(**hand, name="Round shopper")),
        actions.add_part(**hand, pattern=pattern, name="Stakes", rods=24, thickness="pencil"),
        actions.use_rods(**hand, basket=shopper, batch=batch, much=read_much("a third")),
        actions.stayed_tight(**hand, basket=shopper, on=day("2026-06-12"), result="tight"),
    )
    return {record.kind: record for record in records}


@pytest.mark.parametrize("kind", CORRECTIONS)
def test_a_correction_untouched_changes_nothing(pages, one_of_each, kind):
    record = one_of_each[kind]
    before = type(record).objects.filter(pk=record.pk).values().get()
    address = pages.address(f"baskets:correct_{kind}", record.uid)
    answer = pages.client.post(address, as_shown(pages.client.get(address).context["form"]))
    assert answer.status_code == 302, answer.context["form"].errors
    assert type(record).objects.filter(pk=record.pk).values().get() == before


def of_records(one_of_each, batch):
    yield from ((name, one_of_each["basket"]) for name in ("basket", "use", "use_unsoaked", "tight"))
    yield "use_batch", batch
    yield from ((name, one_of_each["pattern"]) for name in ("pattern", "add_part"))
    yield from ((f"correct_{kind}", record) for kind, record in one_of_each.items())


def test_another_holdings_records_are_not_there(one_of_each, batch, pages, other, ida):
    elsewhere = type(pages)(type(pages.client)(), other.slug)
    elsewhere.client.force_login(ida)
    for name, record in of_records(one_of_each, batch):
        assert pages.client.get(pages.address(f"baskets:{name}", record.uid)).status_code == 200, name
        assert elsewhere.client.get(elsewhere.address(f"baskets:{name}", record.uid)).status_code == 404, name


def test_a_reader_may_look_but_not_write(one_of_each, batch, pages, holding, ida):
    people.join(holding=holding, user=ida, role=Membership.Role.READER)
    pages.client.force_login(ida)
    assert "A new basket" not in pages.text("baskets:baskets")
    for name, record in of_records(one_of_each, batch):
        if name in ("basket", "pattern"):
            continue
        answer = pages.client.post(pages.address(f"baskets:{name}", record.uid), {"client_id": str(uuid4())})
        assert answer.status_code == 403, name


def test_a_pattern_has_parts_and_a_basket_says_what_went_in_as_what(pages, put_in, lift, five_foot, holding, clock):
    from growers.baskets.models import PatternPart

    pages.keep("baskets:add_pattern", name="Round shopper")
    pattern = Pattern.objects.of(holding).get()
    like = {"length_class": five_foot.uid, "thickness": "pencil"}
    pages.keep("baskets:add_part", pattern.uid, name="stakes", rods="24", **like)
    pages.keep("baskets:add_part", pattern.uid, name="weavers", rods="40")
    pages.keep("baskets:add_part", pattern.uid, name="handle")
    assert "a part of that name already" in pages.refused("baskets:add_part", pattern.uid, name="Stakes")
    text = pages.text("baskets:pattern", pattern.uid)
    assert "stakes 24 5 ft pencil" in text
    assert "None yet" in text
    assert PatternPart.objects.of(holding).count() == 3

    pages.keep("baskets:add", name="Market shopper", made_on="12 Mar 2026", pattern=pattern.uid)
    basket = Basket.objects.of(holding).get()
    batch = put_in("50 rods")
    lift(batch)
    form = pages.open("baskets:use", basket.uid).context["form"]
    assert tuple(form.fields["part_of_basket"].chips) == ("stakes", "weavers", "handle")
    # By rods, by weight, and all the rest of the batch; 50 of 100 rods are 3 of 6 kg.
    pages.keep("baskets:use", basket.uid, batch=batch.uid, much="20 rods", part_of_basket="Stakes")
    pages.keep("baskets:use", basket.uid, batch=batch.uid, much="0.24 kg", part_of_basket="stakes")
    pages.keep("baskets:use", basket.uid, batch=batch.uid, much="all", part_of_basket="weavers")
    text = pages.text("baskets:basket", basket.uid)
    # 20 rods and 0.24 / 3 of 50, which are 4; the other 26 are weavers.
    assert "stakes 24 rods, 5 ft, pencil about 24 rods" in text
    assert "weavers 40 rods about 26 rods" in text
    assert "handle – nothing written" in text
    assert "about 3 kg of dry rods" in pages.text("baskets:pattern", pattern.uid)
