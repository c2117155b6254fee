"""Baskets and their rods: every part worked out by hand beside it."""

from datetime import UTC, datetime

import pytest

from growers.baskets import actions
from growers.baskets.models import Basket, RodsUsed
from growers.bundles.models import Taking
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.people.actions import put_back, strike_out
from growers.soaking import actions as soaking
from growers.soaking.actions import NotThere
from growers.stock import actions as stock

WHOLE = 1_000_000_000
LATER = datetime(2026, 6, 1, tzinfo=UTC)


@pytest.fixture
def use(hand, shopper):
    def use(batch, much, **more):
        more = {"basket": shopper} | more
        used = actions.use_rods(**hand, batch=batch, much=read_much(much), **more)
        batch.refresh_from_db()
        return used

    return use


def strike(record, by):
    return strike_out(record=record, by=by, reason="wrong", at=LATER)


def test_two_baskets_share_what_is_out(batch, lift, use, hand, day):
    lift(batch, "half")
    # Out: 500 000 000. A third of it is 166 666 666.7, then the rest: 333 333 333.
    assert use(batch, "a third").part_of_batch_ppb == 166_666_667
    other = actions.make_basket(**hand, name="Log basket", made_on=day("2026-03-13"))
    assert use(batch, "the rest", basket=other).part_of_batch_ppb == 333_333_333
    assert (batch.in_water_ppb, batch.left_ppb) == (500_000_000, 500_000_000)
    with pytest.raises(NotThere, match="Lift some first"):
        use(batch, "half")


def test_rods_by_number(put_in, lift, use):
    batch = put_in("60 rods")
    lift(batch)
    used = use(batch, "24 rods", part_of_basket="stakes")
    assert used.part_of_batch_ppb == 400_000_000  # 24 of 60
    assert (used.said_how, used.said_text, used.part_of_basket) == ("rods", "24 rods", "stakes")


def test_a_basket_finished_before_the_rods_were_lifted_is_refused(batch, lift, use, hand, day):
    lift(batch)
    early = actions.make_basket(**hand, name="Early", made_on=day("2026-03-06"))
    with pytest.raises(Refusal, match="lifted until"):
        use(batch, "half", basket=early)


def test_struck_out_rods_are_there_again(batch, lift, use, wren):
    lift(batch)
    used = use(batch, "half")
    strike(used, wren)
    batch.refresh_from_db()
    assert batch.left_ppb == WHOLE
    put_back(record=used, by=wren)
    batch.refresh_from_db()
    assert batch.left_ppb == 500_000_000


def test_put_back_is_refused_where_the_rods_went_elsewhere(batch, lift, use, wren):
    lift(batch)
    used = use(batch, "half")
    strike(used, wren)
    use(batch, "the rest")
    with pytest.raises(NotThere):
        put_back(record=used, by=wren)
    used.refresh_from_db()
    assert used.struck_out_at == LATER


def test_a_corrected_amount_draws_only_the_difference(batch, lift, use, hand):
    lift(batch)
    use(batch, "a quarter")
    used = use(batch, "a third")  # of 750 000 000
    assert used.part_of_batch_ppb == 250_000_000
    actions.correct_rodsused(**hand, rodsused=used, much=read_much("half"))
    # Half of the 500 000 000 left and its own 250 000 000.
    assert used.part_of_batch_ppb == 375_000_000
    batch.refresh_from_db()
    assert batch.left_ppb == 375_000_000
    actions.correct_rodsused(**hand, rodsused=used, part_of_basket="border")
    assert (used.part_of_batch_ppb, used.part_of_basket) == (375_000_000, "border")


def test_unsoaked_rods_come_straight_out_of_the_bundle(hand, shopper, bundle, wren, day, holding):
    used = actions.use_unsoaked(**hand, basket=shopper, bundle=bundle, much=read_much("20 rods"))
    assert (used.taking.purpose, used.taking.share_ppb, used.taking.on) == ("work", 200_000_000, day("2026-03-12"))
    actions.correct_rodsused(**hand, rodsused=used, much=read_much("30 rods"))
    bundle.refresh_from_db()
    assert (used.said_text, bundle.left_ppb) == ("30 rods", 700_000_000)
    strike(used, wren)
    bundle.refresh_from_db()
    assert bundle.left_ppb == WHOLE
    assert not Taking.objects.of(holding).exists()


def test_a_basket_struck_out_gives_all_its_rods_back_and_takes_them_again(
    batch, bundle, lift, use, hand, shopper, wren, holding
):
    lift(batch)
    use(batch, "half")
    actions.use_unsoaked(**hand, basket=shopper, bundle=bundle, much=read_much("the rest"))
    strike(shopper, wren)
    batch.refresh_from_db()
    bundle.refresh_from_db()
    assert (batch.left_ppb, bundle.left_ppb) == (WHOLE, 500_000_000)
    put_back(record=shopper, by=wren)
    batch.refresh_from_db()
    bundle.refresh_from_db()
    assert (batch.left_ppb, bundle.left_ppb) == (500_000_000, 0)
    assert RodsUsed.objects.of(holding).count() == 2


def test_a_lift_or_batch_with_rods_in_a_basket_cannot_be_struck_out(batch, lift, use, wren):
    lifted = lift(batch)
    use(batch, "half")
    for record in (lifted, batch):
        with pytest.raises(Refusal):
            strike(record, wren)
    batch.refresh_from_db()
    assert (batch.in_water_ppb, batch.left_ppb, batch.struck_out_at) == (0, 500_000_000, None)


def test_from_the_tank_into_a_new_basket(batch, lift, hand, day, holding):
    lift(batch)
    used = actions.use_batch(
        **hand, batch=batch, much=read_much("half"), new_basket=" Bread  basket ", made_on=day("2026-03-13")
    )
    assert (used.basket.name, used.basket.made_on) == ("Bread basket", day("2026-03-13"))
    with pytest.raises(Refusal, match="Choose the basket"):
        actions.use_batch(**hand, batch=batch, much=read_much("half"))
    assert Basket.objects.of(holding).count() == 1


def test_a_look_before_the_basket_was_made_or_twice_a_day_is_refused(hand, shopper, day):
    with pytest.raises(Refusal, match="not made until"):
        actions.stayed_tight(**hand, basket=shopper, on=day("2026-03-11"), result="tight")
    actions.stayed_tight(**hand, basket=shopper, on=day("2026-06-12"), result="tight")
    with pytest.raises(Refusal, match="looked at that day already"):
        actions.stayed_tight(**hand, basket=shopper, on=day("2026-06-12"), result="loose")


def test_a_basket_cannot_be_finished_after_it_was_looked_at(hand, shopper, day):
    actions.stayed_tight(**hand, basket=shopper, on=day("2026-06-12"), result="tight")
    with pytest.raises(Refusal, match="made after that"):
        actions.correct_basket(**hand, basket=shopper, name="Shopper", made_on=day("2026-06-13"))


def test_a_baskets_day_moves_its_unsoaked_rods_and_waits_for_the_soaked_ones(
    hand, day, batch, bundle, lift, use, shopper, moment
):
    lifted = lift(batch)  # 7 March
    use(batch, "half")
    used = actions.use_unsoaked(**hand, basket=shopper, bundle=bundle, much=read_much("20 rods"))
    actions.correct_basket(**hand, basket=shopper, name="Shopper", made_on=day("2026-03-10"))
    used.taking.refresh_from_db()
    assert used.taking.on == day("2026-03-10")
    with pytest.raises(Refusal, match="None of these rods was lifted until") as refused:
        actions.correct_basket(**hand, basket=shopper, name="Shopper", made_on=day("2026-03-06"))
    assert refused.value.field == "made_on"
    with pytest.raises(Refusal, match="None of these rods was lifted until"):
        soaking.correct_lift(**hand, lift=lifted, moment=moment("2026-03-11 07:00"), part=None)
    with pytest.raises(Refusal, match="corrected with the basket"):
        stock.correct_taking(**hand, taking=used.taking, much=read_much("20 rods"), on=day("2026-03-09"))


def test_a_lift_stays_while_rods_of_it_were_woven_before_the_next(batch, lift, use, wren):
    first = lift(batch, "half")
    use(batch, "half")
    lift(batch, at="2026-03-20 07:00")
    with pytest.raises(Refusal):
        strike(first, wren)


def test_patterns_of_one_name_are_one(hand):
    actions.add_pattern(**hand, name="Round shopper")
    with pytest.raises(Refusal, match="a pattern of that name already"):
        actions.add_pattern(**hand, name="round  SHOPPER")
