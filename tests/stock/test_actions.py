"""What the grower says, turned into shares: every figure worked out by hand beside it."""

from datetime import UTC, datetime

import pytest

from growers.bundles.actions import correct_bundle
from growers.bundles.models import Taking
from growers.bundles.rules import WHOLE
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.people.actions import put_back, strike_out
from growers.science import units
from growers.stock import actions
from growers.stock.models import Count

SALE, GONE = Taking.Purpose.SALE, Taking.Purpose.GONE
APRIL = "2026-04-01"
NEXT_DAY = datetime(2026, 4, 2, tzinfo=UTC)


@pytest.fixture
def take(hand, day):
    def take(bundle, much, on=APRIL, left_weighs=None, **more):
        left_weighs = units.read_mass(left_weighs) if left_weighs else None
        more.setdefault("purpose", SALE)
        return actions.take_out(
            **hand, bundle=bundle, on=day(on), much=read_much(much), left_weighs=left_weighs, **more
        )

    return take


@pytest.fixture
def count(hand, day):
    def count(bundle, much, why, on=APRIL):
        said = {"rods": int(much.split()[0])} if "rods" in much else {"mass": units.read_mass(much)}
        return actions.count(**hand, bundle=bundle, on=day(on), why=why, **said)

    return count


def left(bundle):
    bundle.refresh_from_db()
    return bundle.left_ppb


def test_by_weight_from_the_weight_when_tied(take, bundle):
    taking = take(bundle, "2.3 kg")
    assert taking.share_ppb == 377_049_180  # 2.3 / 6.1 of 1e9
    assert left(bundle) == 622_950_820
    assert (taking.known, taking.reckoned_from_kg, taking.said_text) == ("tied", 6.1, "2.3 kg")


def test_by_weight_with_what_is_left_weighed_too(take, bundle):
    """Labelled 6.1 kg, weighs 5.9 by now: 2.3 kg go, 3.6 stay. 2.3 / 5.9 of it, whatever the label says."""
    taking = take(bundle, "2.3 kg", left_weighs="3.6 kg")
    assert taking.share_ppb == 389_830_508
    assert left(bundle) == 610_169_492
    assert taking.known == "together"


def test_pounds_and_kilograms_come_to_the_same(take, tie):
    in_pounds, in_kilograms = tie(mass="10 lb"), tie(mass="4.5359237 kg")
    take(in_pounds, "5 lb"), take(in_kilograms, "2.26796185 kg")
    assert left(in_pounds) == left(in_kilograms) == 500_000_000


def test_by_rods_from_the_rods_tied_and_then_from_the_rest(take, bundle):
    assert take(bundle, "40 rods").share_ppb == 400_000_000
    assert take(bundle, "60 rods").share_ppb == 600_000_000
    assert left(bundle) == 0


def test_a_part_is_of_what_is_left(take, bundle):
    assert take(bundle, "half").share_ppb == 500_000_000
    assert take(bundle, "a third").share_ppb == 166_666_667
    assert take(bundle, "the rest").share_ppb == 333_333_333
    assert left(bundle) == 0


def test_three_thirds_and_the_rest_leave_nothing_over_or_under(take, tie):
    bundle = tie()
    for _third in range(3):
        take(bundle, "a third")
    take(bundle, "the rest")
    assert left(bundle) == 0
    with pytest.raises(Refusal, match="Nothing is left"):
        take(bundle, "the rest")


@pytest.mark.parametrize(
    ("much", "sentence"),
    [("6.3 kg", "about 6.1 kg"), ("101 rods", "about 100 rods")],
)
def test_more_than_there_is_is_refused_and_nothing_is_written(take, bundle, much, sentence):
    with pytest.raises(Refusal, match=sentence) as refusal:
        take(bundle, much)
    assert refusal.value.field == "much"
    assert left(bundle) == WHOLE
    assert not Taking.objects.exists()


def test_a_scale_that_differs_by_a_hair_takes_the_rest(take, bundle):
    # 6.2 kg of a bundle of 6.1: within the 2 % by which scales and damp differ.
    assert take(bundle, "6.2 kg").share_ppb == WHOLE


def test_what_the_book_can_not_turn_into_a_share_is_asked_for_as_a_part(take, tie):
    bundle = tie()
    with pytest.raises(Refusal, match="has not been weighed"):
        take(bundle, "2 kg")
    with pytest.raises(Refusal, match="not in the book"):
        take(bundle, "20 rods")
    assert take(bundle, "a quarter").share_ppb == 250_000_000


def test_a_typical_weight_is_learnt_from_like_bundles(take, tie):
    for mass in ("5 kg", "5.4 kg", "6 kg"):
        tie(mass=mass)
    taking = take(tie(), "2.7 kg", on="2026-01-20")
    # The middle one of three weighs 5.4 kg: 2.7 of it is half.
    assert (taking.share_ppb, taking.known) == (500_000_000, "typical")


def test_before_it_was_tied_is_refused(take, bundle):
    with pytest.raises(Refusal, match="not tied until") as refusal:
        take(bundle, "half", on="2026-01-09")
    assert refusal.value.field == "on"


def test_striking_out_gives_back_and_putting_back_takes_again(take, bundle, wren, day, hand):
    taking = take(bundle, "half")
    strike_out(record=taking, by=wren, reason="wrong bundle", at=NEXT_DAY)
    assert left(bundle) == WHOLE
    put_back(record=taking, by=wren)
    assert left(bundle) == 500_000_000


def test_putting_back_is_refused_when_the_rods_went_elsewhere(take, bundle, wren):
    taking = take(bundle, "half")
    strike_out(record=taking, by=wren, reason="twice", at=NEXT_DAY)
    take(bundle, "three quarters")
    with pytest.raises(Refusal, match="only about 25 %"):
        put_back(record=taking, by=wren)
    taking.refresh_from_db()
    assert taking.struck_out_at


def test_correcting_a_taking_reckons_its_share_anew(take, bundle, hand, day):
    taking = take(bundle, "2.3 kg")
    actions.correct_taking(**hand, taking=taking, much=read_much("3.05 kg"), on=day(APRIL), why="misread")
    assert taking.share_ppb == 500_000_000
    assert left(bundle) == 500_000_000
    assert [old.said_text for old in taking.history.order_by("history_id")] == ["2.3 kg", "3.05 kg"]


@pytest.mark.parametrize(("purpose", "where"), [("sale", "with the sale"), ("soak", "with the batch")])
def test_the_day_of_rods_sold_or_soaked_is_corrected_where_it_is_told(take, bundle, hand, day, purpose, where):
    taking = take(bundle, "2.3 kg", purpose=purpose)
    with pytest.raises(Refusal, match=where):
        actions.correct_taking(**hand, taking=taking, much=read_much("2 kg"), on=day("2026-03-30"))


def test_drying_further_explains_a_lighter_weight(count, bundle, take):
    take(bundle, "half")
    counted = count(bundle, "1.6 kg", Count.Why.DRIED)
    assert left(bundle) == 500_000_000
    assert counted.book_said_kg == pytest.approx(3.05)
    # From now on what is left is known to weigh 1.6 kg: 0.8 kg is half of it.
    assert take(bundle, "0.8 kg", on="2026-04-02").share_ppb == 250_000_000


def test_taken_and_not_written_sets_the_ledger_right(count, bundle):
    # 6.1 kg by the book, 4.88 counted: four fifths.
    counted = count(bundle, "4.88 kg", Count.Why.UNWRITTEN)
    assert left(bundle) == 800_000_000
    assert counted.adjustment.share_ppb == 200_000_000


def test_rods_miscounted_in_a_whole_bundle_leave_it_whole(count, bundle, take):
    count(bundle, "96 rods", Count.Why.MISCOUNTED)
    assert left(bundle) == WHOLE
    assert take(bundle, "24 rods").share_ppb == 250_000_000


@pytest.mark.parametrize("why", [Count.Why.UNKNOWN, Count.Why.MISCOUNTED])
def test_nothing_left_is_counted_as_no_rods(count, bundle, why):
    count(bundle, "0 rods", why)
    assert left(bundle) == 0


def test_rods_that_turn_up_in_a_used_up_bundle(count, bundle, take):
    take(bundle, "the rest")
    count(bundle, "25 rods", Count.Why.MISCOUNTED)
    assert left(bundle) == 250_000_000


def test_rods_do_not_dry_away(count, bundle):
    with pytest.raises(Refusal, match="don't dry away"):
        count(bundle, "90 rods", Count.Why.DRIED)


def test_striking_out_a_count_takes_its_adjustment_with_it(count, bundle, wren):
    counted = count(bundle, "50 rods", Count.Why.UNWRITTEN)
    assert left(bundle) == 500_000_000
    strike_out(record=counted, by=wren, reason="other bundle", at=NEXT_DAY)
    assert left(bundle) == WHOLE


def test_what_is_promised_is_not_promised_or_taken_again(hand, day, bundle, take):
    promise = actions.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day(APRIL), much=read_much("60 rods"))
    assert promise.share_ppb == 600_000_000
    with pytest.raises(Refusal, match="Orla Fenn"):
        actions.promise(**hand, bundle=bundle, whom="Tam Birk", on=day(APRIL), much=read_much("50 rods"))
    with pytest.raises(Refusal, match="Orla Fenn"):
        take(bundle, "50 rods")
    taking = take(bundle, "60 rods", promise=promise)
    promise.refresh_from_db()
    assert promise.kept_by == taking
    assert take(bundle, "40 rods").share_ppb == 400_000_000


def test_the_rest_of_a_partly_promised_bundle_is_the_rest_that_is_free(hand, day, bundle):
    actions.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day(APRIL), much=read_much("60 rods"))
    second = actions.promise(**hand, bundle=bundle, whom="Tam Birk", on=day(APRIL), much=read_much("the rest"))
    assert second.share_ppb == 400_000_000
    with pytest.raises(Refusal, match="promised already"):
        actions.promise(**hand, bundle=bundle, whom="Ida Rushby", on=day(APRIL), much=read_much("1 rod"))


def test_a_released_promise_is_free_again(hand, day, bundle, take):
    promise = actions.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day(APRIL), much=read_much("the rest"))
    with pytest.raises(Refusal, match="promised until Wed 1 Apr 2026"):
        actions.release(**hand, promise=promise, on=day("2026-03-30"))
    actions.release(**hand, promise=promise, on=day("2026-04-03"))
    assert take(bundle, "the rest").share_ppb == WHOLE


def test_split_leaves_the_rest_under_the_old_tag(hand, day, bundle):
    making = actions.split(**hand, bundle=bundle, on=day(APRIL), much=read_much("a quarter"))
    child = making.bundles.get()
    assert left(bundle) == 750_000_000
    assert (child.left_ppb, child.length_class, child.origins.get().part_ppb) == (WHOLE, bundle.length_class, WHOLE)
    assert child.tag != bundle.tag


def test_tied_together_of_two_cuts_is_mixed_by_weight(hand, day, tie, cut, other_cut, five_foot):
    # 6 kg of one and 2 kg of the other: three quarters and one quarter.
    one, two = tie(mass="6 kg"), tie(cut=other_cut, mass="2 kg")
    making = actions.merge(**hand, bundles=[one, two], on=day(APRIL))
    origins = {origin.cut_id: origin.part_ppb for origin in making.bundles.get().origins.all()}
    assert origins == {cut.pk: 750_000_000, other_cut.pk: 250_000_000}
    assert left(one) == left(two) == 0


def test_regrading_by_weight_divides_by_what_came_out(hand, day, bundle, four_foot, five_foot):
    # 5.9 kg went in: 3.2 and 2.1 and 0.6 of rejects come out.
    making = actions.regrade(
        **hand,
        bundles=[bundle],
        on=day(APRIL),
        outs=[actions.Out(five_foot, read_much("3.2 kg")), actions.Out(four_foot, read_much("2.1 kg"))],
        rejects=read_much("0.6 kg"),
    )
    parts = [child.part_of_making_ppb for child in making.bundles.order_by("pk")]
    assert parts == [542_372_881, 355_932_204]  # 3.2/5.9 and 2.1/5.9, the odd part to the larger remainder
    assert making.rejects_ppb == 101_694_915  # 0.6/5.9
    assert sum(parts) + making.rejects_ppb == WHOLE


def test_regrading_by_parts_gives_the_rest_to_who_was_told_nothing(hand, day, bundle, four_foot, five_foot):
    making = actions.regrade(
        **hand,
        bundles=[bundle],
        on=day(APRIL),
        outs=[actions.Out(five_foot, read_much("60 %")), actions.Out(four_foot)],
        rejects=read_much("10 %"),
    )
    assert [child.part_of_making_ppb for child in making.bundles.order_by("pk")] == [600_000_000, 300_000_000]


@pytest.mark.parametrize("part", ["60 %", "20 %"])
def test_parts_that_do_not_make_the_whole_are_refused(hand, day, bundle, four_foot, five_foot, part):
    with pytest.raises(Refusal, match="come to"):
        actions.regrade(
            **hand,
            bundles=[bundle],
            on=day(APRIL),
            outs=[actions.Out(five_foot, read_much("60 %")), actions.Out(four_foot, read_much(part))],
        )
    assert left(bundle) == WHOLE


def test_made_into_white_loses_its_bark_and_starts_drying_again(hand, day, bundle, five_foot):
    making = actions.make_into(
        **hand,
        bundles=[bundle],
        on=day("2026-05-10"),
        type="white",
        outs=[actions.Out(five_foot, read_much("70 %"))],
        bark=read_much("25 %"),
        rejects=read_much("5 %"),
    )
    white = making.bundles.get()
    assert (white.type, making.bark_ppb, making.rejects_ppb) == ("white", 250_000_000, 50_000_000)
    assert (white.tied_on, white.started_moisture, white.dried_out_before_on) == (day("2026-05-10"), None, None)


def test_striking_out_a_making_gives_the_rods_back_and_its_bundles_go(hand, day, bundle, wren):
    making = actions.split(**hand, bundle=bundle, on=day(APRIL), much=read_much("half"))
    child = making.bundles.get()
    strike_out(record=making, by=wren, reason="not today", at=NEXT_DAY)
    child.refresh_from_db()
    assert left(bundle) == WHOLE
    assert child.struck_out_at
    put_back(record=making, by=wren)
    child.refresh_from_db()
    assert left(bundle) == 500_000_000
    assert child.struck_out_at is None


def test_a_making_whose_bundle_was_used_stands(hand, day, bundle, wren, take):
    making = actions.split(**hand, bundle=bundle, on=day(APRIL), much=read_much("half"))
    take(making.bundles.get(), "half")
    with pytest.raises(Refusal, match="can't be struck out while this stands on it: half taken out"):
        strike_out(record=making, by=wren, reason="not today", at=NEXT_DAY)
    assert left(bundle) == 500_000_000


def test_a_scale_that_read_light_is_set_right_for_a_span_and_back(hand, day, tie, wren):
    before, within = tie(mass="5 kg", on="2026-01-05"), tie(mass="4.8 kg", on="2026-01-12")
    # It read 4 % light: what weighed 5 kg showed 4.8.
    correction = actions.correct_scale(
        **hand, from_on=day("2026-01-10"), to_on=day("2026-01-20"), factor=1 / 0.96, why="read 4 % light"
    )
    before.refresh_from_db(), within.refresh_from_db()
    assert (before.tied_mass_kg, within.tied_mass_kg) == (5.0, pytest.approx(5.0))
    assert within.tied_mass_text == "4.8 kg"
    strike_out(record=correction, by=wren, reason="it was the other scale", at=NEXT_DAY)
    within.refresh_from_db()
    assert within.tied_mass_kg == pytest.approx(4.8)


def test_a_weight_typed_anew_is_set_right_with_its_scale(hand, day, tie, count):
    bundle = tie(mass="4.8 kg", on="2026-01-12")
    counted = count(bundle, "4.8 kg", Count.Why.AGREES, on="2026-01-15")
    span = {"from_on": day("2026-01-10"), "to_on": day("2026-01-20")}
    actions.correct_scale(**hand, **span, factor=1.25, why="read a fifth light")
    bundle.refresh_from_db(), counted.refresh_from_db()
    correct_bundle(**hand, bundle=bundle, mass=units.read_mass("4.4 kg"))
    assert (bundle.tied_mass_kg, bundle.tied_mass_text) == (pytest.approx(5.5), "4.4 kg")  # 4.4 x 1.25
    said = {"on": counted.on, "why": Count.Why.AGREES, "mass": units.read_mass("4 kg")}
    again = actions.correct_count(**hand, old=counted, struck_out_at=NEXT_DAY, **said)
    assert (again.mass_kg, again.mass_text, again.scale) == (pytest.approx(5), "4 kg", counted.scale)
    correct_bundle(**hand, bundle=bundle, clear_mass=True)
    assert (bundle.tied_mass_kg, bundle.tied_scale) == (None, None)
