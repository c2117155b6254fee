"""Tell me when it is dry."""

import pytest

from growers.beds import actions as beds
from growers.customers import actions
from growers.customers.queries import due, fit_bundles, waiting_now, waiting_of
from growers.drying import actions as drying
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.stock import actions as stock
from tests import ground


@pytest.fixture
def waiting(hand, orla, pellock, day):
    return actions.wait_for(**hand, customer=orla, variety=pellock, on=day("2026-02-01"))


@pytest.fixture
def dry(hand, bundle, day):
    """The bundle called dry by the grower on 1 August, and judged."""
    drying.give_word(**hand, of=bundle, on=day("2026-08-01"), says="dry")
    drying.judge_stale(hand["holding"], day("2026-08-02"))


def told(holding, day, now):
    return [each for each in due(holding, today=day("2026-08-02"), now=now) if each.kind == "tell_waiting"]


def test_somebody_is_told_once_it_is_dry_and_free(hand, waiting, bundle, day, now):
    holding = hand["holding"]
    drying.judge_stale(holding, day("2026-02-01"))
    assert told(holding, day, now) == []
    drying.give_word(**hand, of=bundle, on=day("2026-08-01"), says="dry")
    drying.judge_stale(holding, day("2026-08-02"))
    [tell] = told(holding, day, now)
    assert tell.sentence == "Tell Orla Fenn: Pellock is there"
    assert (tell.page, tell.args, tell.tag) == ("customers:told", (waiting.uid,), bundle.tag)
    actions.told(**hand, waiting=waiting, on=day("2026-08-02"))
    assert told(holding, day, now) == []
    with pytest.raises(Refusal, match="were told on"):
        actions.told(**hand, waiting=waiting, on=day("2026-08-03"))


def test_what_is_all_promised_is_nothing_to_tell_of(hand, waiting, bundle, dry, day):
    assert [each.bundle for each in fit_bundles(hand["holding"])] == [bundle]
    stock.promise(**hand, bundle=bundle, whom="Tam Birk", on=day("2026-08-02"), much=read_much("the rest"))
    assert fit_bundles(hand["holding"]) == []


def test_rods_soaked_before_are_not_told_of(hand, bundle, sell, dry, day):
    sold = sell("half", on="2026-08-02")
    back = actions.bring_back(**hand, line=sold, on=day("2026-08-03"), much=read_much("the rest"), soaked=True)
    drying.give_word(**hand, of=back.bundle, on=day("2026-08-03"), says="dry")
    drying.judge_stale(hand["holding"], day("2026-08-03"))
    assert [each.bundle for each in fit_bundles(hand["holding"])] == [bundle]


@pytest.mark.parametrize(
    ("wants", "fits"),
    [
        ({}, True),
        ({"length_class": "5 ft"}, True),
        ({"length_class": "4 ft"}, False),
        ({"type": "brown"}, True),
        ({"type": "white"}, False),
        ({"variety": "Merrow Red"}, False),
    ],
)
def test_only_for_what_they_wait_for(hand, orla, bundle, dry, day, wants, fits):
    if "length_class" in wants:
        wants = {"length_class": ground.length(hand, wants["length_class"])}
    if "variety" in wants:
        wants = {"variety": beds.add_variety(**hand, name=wants["variety"])}
    actions.wait_for(**hand, customer=orla, on=day("2026-02-01"), **wants)
    [found] = waiting_now(hand["holding"], waiting_of(hand["holding"]))
    assert [each.bundle for each in found.fit] == ([bundle] if fits else [])


def test_mixed_rods_are_no_answer_to_one_variety(hand, waiting, bundle, dry, day):
    other = ground.tied(hand, ground.cut(hand, ground.planted(hand, "Merrow Red")), on=day("2026-01-12"))[0]
    mixed = stock.merge(**hand, bundles=[bundle, other], on=day("2026-08-02")).bundles.get()
    drying.give_word(**hand, of=mixed, on=day("2026-08-02"), says="dry")
    drying.judge_stale(hand["holding"], day("2026-08-02"))
    [found] = waiting_now(hand["holding"], waiting_of(hand["holding"]))
    assert found.fit == ()


def test_the_same_wish_is_written_once(hand, waiting, orla, pellock, day):
    with pytest.raises(Refusal, match="waits for that already"):
        actions.wait_for(**hand, customer=orla, variety=pellock, on=day("2026-02-03"))
    actions.wait_for(**hand, customer=orla, variety=pellock, type="white", on=day("2026-02-03"))


def test_a_name_is_wanted(hand, day):
    with pytest.raises(Refusal, match="write a new name"):
        actions.wait_for(**hand, on=day("2026-02-03"))


def test_the_number_of_questions_to_the_database_does_not_grow(
    hand, orla, pellock, bundle, cut, dry, day, django_assert_num_queries
):
    holding = hand["holding"]
    for n in range(3):
        actions.wait_for(**hand, new_customer=f"Weaver {n}", variety=pellock, on=day("2026-02-01"))
        ground.tied(hand, cut, on=day("2026-01-12"))
        drying.judge_stale(holding, day("2026-08-02"))
        # Who waits; the bundles; their answers; what they are of; what of them is promised.
        with django_assert_num_queries(5):
            waiting_now(holding, waiting_of(holding))
