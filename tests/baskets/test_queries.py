import pytest

from growers.baskets import actions, queries
from growers.furniture.much import read_much


def test_a_basket_tells_its_rods_back_to_the_cut(batch, lift, bundle, hand, shopper, cut, pellock):
    lift(batch)
    actions.use_rods(**hand, basket=shopper, batch=batch, much=read_much("half"))
    actions.use_unsoaked(**hand, basket=shopper, bundle=bundle, much=read_much("10 rods"))
    soaked, unsoaked = queries.rods_of(shopper)
    assert (soaked.bundle, soaked.ancestry.variety, soaked.name) == (bundle, pellock, "Pellock, 5 ft")
    assert [origin.cut for origin in soaked.ancestry.sources] == [cut]
    # Half of the half of 6 kg that was soaked, and 10 of 100 rods.
    assert soaked.kg == pytest.approx(1.5)
    assert unsoaked.kg == pytest.approx(0.6)
    assert queries.kg_of([soaked, unsoaked]) == pytest.approx(2.1)
    assert queries.kg_of([]) is None


def asked(holding, on):
    return [each.basket.name for each in queries.to_ask_after(holding, on)]


def test_asked_at_three_months_and_at_a_year(hand, shopper, holding, day):
    # Finished 12 March: 91 days on is 11 June, a year on 12 March 2027.
    assert asked(holding, day("2026-06-10")) == []
    assert asked(holding, day("2026-06-11")) == ["Shopper"]
    actions.stayed_tight(**hand, basket=shopper, on=day("2026-06-12"), result="tight")
    assert asked(holding, day("2027-03-11")) == []
    assert asked(holding, day("2027-03-12")) == ["Shopper"]
    actions.stayed_tight(**hand, basket=shopper, on=day("2027-03-01"), result="bit_loose")
    assert asked(holding, day("2027-03-12")) == []


def test_an_early_look_does_not_count_for_the_year(hand, shopper, holding, day):
    actions.stayed_tight(**hand, basket=shopper, on=day("2026-05-20"), result="tight")
    assert asked(holding, day("2026-06-11")) == []  # 22 days early is near enough
    assert asked(holding, day("2027-03-12")) == ["Shopper"]


def test_nobody_is_asked_for_ever(shopper, holding, day):
    assert asked(holding, day("2028-03-11")) == ["Shopper"]
    assert asked(holding, day("2028-03-12")) == []


def test_due_names_the_page(shopper, holding, day, utc):
    (due,) = queries.due(holding, today=day("2026-06-20"), now=utc("2026-06-20 08:00"))
    assert (due.page, due.args, due.when) == ("baskets:tight", (shopper.uid,), day("2026-06-11"))
