"""Complaints, and rods that come back."""

import pytest

from growers.bundles.models import Bundle
from growers.customers import actions
from growers.customers.models import Complaint, Returned
from growers.customers.queries import part_out
from growers.exchange.queries import doctor
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.people import actions as people
from growers.science import units


@pytest.fixture
def sold(sell, orla):
    """2 of the 6 kg, a third, sold to Orla Fenn on 1 February 2026."""
    return sell("2 kg", customer=orla)


@pytest.fixture
def bring_back(hand, sold, day):
    def bring_back(much, on="2026-02-10", **more):
        return actions.bring_back(**hand, line=sold, on=day(on), much=read_much(much, "kg"), **more)

    return bring_back


@pytest.mark.parametrize(
    ("much", "part_ppb", "mass_kg", "rods"),
    [("the rest", 1_000_000_000, None, None), ("half", 500_000_000, None, None), ("0.5 kg", 250_000_000, 0.5, None)],
)
def test_what_comes_back_is_a_part_of_what_was_sold(bring_back, much, part_ppb, mass_kg, rods, bundle):
    back = bring_back(much)
    assert (back.part_ppb, back.bundle.tied_mass_kg, back.bundle.tied_rods) == (part_ppb, mass_kg, rods)
    assert (back.bundle.dried_from, back.bundle.left_ppb, back.bundle.soaked_before) == (bundle, 1_000_000_000, False)
    # What was sold stays sold: two thirds are left.
    bundle.refresh_from_db()
    assert bundle.left_ppb == 666_666_667
    assert doctor() == []


def test_more_than_was_sold_does_not_come_back(bring_back, sold):
    bring_back("1.5 kg")
    assert part_out(sold) == 250_000_000
    with pytest.raises(Refusal, match="more than was sold"):
        bring_back("0.6 kg")
    # A fiftieth more is the scale's: 0.51 kg of the half kilo that is out is all of it.
    assert bring_back("0.51 kg").part_ppb == 250_000_000
    with pytest.raises(Refusal, match="come back already"):
        bring_back("the rest")


def test_rods_come_back_by_the_count_where_they_were_sold_by_the_count(hand, sell, day):
    line = sell("20 rods")
    back = actions.bring_back(**hand, line=line, on=day("2026-02-10"), much=read_much("5 rods"))
    assert (back.part_ppb, back.bundle.tied_rods) == (250_000_000, 5)


def test_what_was_not_counted_comes_back_as_a_part(bring_back):
    with pytest.raises(Refusal, match="not in the book that way"):
        bring_back("5 rods")


def test_nothing_comes_back_before_it_was_sold(bring_back):
    with pytest.raises(Refusal, match="not sold until"):
        bring_back("half", on="2026-01-31")


def test_rods_that_were_soaked_are_marked_and_keep_their_dried_out_day(hand, bring_back, oven, bundle, day):
    assert bring_back("half", soaked=True).bundle.soaked_before


def test_a_return_struck_out_takes_its_bundle_along_and_comes_back_with_it(bring_back, sold, wren, utc, hand):
    back = bring_back("the rest")
    people.strike_out(record=back, by=wren, reason="not hers", at=utc("2026-02-11 12:00"))
    assert part_out(sold) == 1_000_000_000
    assert not Bundle.objects.of(hand["holding"]).filter(made="returned").exists()
    other = bring_back("half", on="2026-02-12")
    with pytest.raises(Refusal, match="More would have come back"):
        people.put_back(record=back, by=wren)
    people.strike_out(record=other, by=wren, reason="not hers", at=utc("2026-02-12 12:00"))
    people.put_back(record=back, by=wren)
    assert Bundle.objects.of(hand["holding"]).filter(made="returned").get() == back.bundle
    assert doctor() == []


def test_correcting_what_came_back(hand, bring_back, sold, day):
    first, second = bring_back("half"), bring_back("half")
    part = units.read_part("three quarters")
    with pytest.raises(Refusal, match="More would have come back"):
        actions.correct_returned(**hand, returned=second, on=day("2026-02-11"), part=part)
    first.refresh_from_db()
    actions.correct_returned(**hand, returned=first, on=day("2026-02-11"), part=units.read_part("a tenth"))
    first.bundle.refresh_from_db()
    assert (first.part_ppb, first.bundle.tied_on) == (100_000_000, day("2026-02-11"))
    assert doctor() == []


def test_the_bundles_day_is_the_day_it_came_back(hand, bring_back, day):
    from growers.bundles.actions import correct_bundle

    back = bring_back("half")
    correct_bundle(**hand, bundle=back.bundle, tied_on=day("2026-02-12"))
    back.refresh_from_db()
    assert back.on == day("2026-02-12")
    with pytest.raises(Refusal, match="not sold until"):
        correct_bundle(**hand, bundle=back.bundle, tied_on=day("2026-01-31"))


def test_a_sale_is_not_moved_past_what_followed_it(hand, sold, bring_back, day):
    bring_back("half")
    with pytest.raises(Refusal, match="already"):
        actions.correct_sale(**hand, sale=sold.sale, customer=sold.sale.customer, on=day("2026-02-11"))


def test_a_complaint_comes_after_the_sale_and_its_answer_after_that(hand, sold, bundle, day):
    with pytest.raises(Refusal, match="not sold until"):
        actions.complain(**hand, line=sold, on=day("2026-01-31"), what="mould")
    with pytest.raises(Refusal, match="not tied until"):
        actions.complain(**hand, bundle=bundle, on=day("2026-01-09"), what="mould")
    complaint = actions.complain(**hand, line=sold, on=day("2026-02-10"), what="mould")
    with pytest.raises(Refusal, match="did not complain until"):
        actions.answer_complaint(**hand, complaint=complaint, on=day("2026-02-09"), answer="Send them back.")


def test_water_told_in_a_word_is_kept_as_a_band(hand, sold, day):
    water = units.read_temperature("cold")
    complaint = actions.complain(**hand, line=sold, on=day("2026-02-10"), what="brittle", water=water)
    assert complaint.water_low_c == water.low < complaint.water_c < water.high == complaint.water_high_c
    assert complaint.water_text == "cold"


def test_a_sale_complained_of_is_not_struck_out_unasked(hand, sold, wren, day, utc):
    actions.complain(**hand, line=sold, on=day("2026-02-10"), what="brittle")
    with pytest.raises(Refusal, match="can't be struck out"):
        people.strike_out(record=sold, by=wren, reason="wrong", at=utc("2026-02-11 12:00"))
    assert Complaint.objects.count() == 1
    assert not Returned.objects.exists()
