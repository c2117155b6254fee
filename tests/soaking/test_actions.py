"""Into the water and out of it: every part worked out by hand beside it."""

from datetime import UTC, datetime

import pytest

from growers.bundles.models import Bundle, Taking
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, put_back, strike_out
from growers.science import units
from growers.soaking import actions
from growers.soaking.actions import NotThere
from growers.soaking.models import Batch, BenchResult, BendCheck, Lift, Mellow, WaterReading

WHOLE = 1_000_000_000
THIRD = 333_333_333
LATER = datetime(2026, 6, 1, tzinfo=UTC)


def counters(batch):
    batch.refresh_from_db()
    return batch.in_water_ppb, batch.left_ppb


def strike(record, by, **more):
    return strike_out(record=record, by=by, reason="wrong", at=LATER, **more)


# Tanks and water


def test_a_tank_of_the_same_name_is_refused(hand, tank):
    with pytest.raises(Refusal, match="a tank of that name already"):
        actions.add_tank(**hand, name="  TROUGH ")


def test_a_word_for_the_water_keeps_its_band(hand, tank, utc):
    reading = actions.read_water(
        **hand, tank=tank, at=utc("2026-03-02 07:00"), temperature=units.read_temperature("cold")
    )
    # "cold" is 8 °C, somewhere from 5 to 11.
    assert (reading.temperature_c, reading.low_c, reading.high_c, reading.how) == (8, 5, 11, "word")


def test_a_measured_reading_is_its_own_band(hand, tank, utc):
    reading = actions.read_water(
        **hand, tank=tank, at=utc("2026-03-02 07:00"), temperature=units.read_temperature("50 F")
    )
    assert (reading.temperature_c, reading.low_c, reading.high_c, reading.how) == (10, 10, 10, "measured")
    assert (reading.temperature_text, reading.temperature_unit) == ("50 F", "F")


def test_ice_is_told_apart(hand, tank, utc):
    reading = actions.read_water(
        **hand, tank=tank, at=utc("2026-01-12 07:00"), temperature=units.read_temperature("ice")
    )
    assert reading.how == "ice"


def test_like_last_time_takes_the_reading_before(hand, tank, utc):
    for at, text in [("2026-03-01 07:00", "7 C"), ("2026-03-08 07:00", "9 C"), ("2026-03-20 07:00", "12 C")]:
        actions.read_water(**hand, tank=tank, at=utc(at), temperature=units.read_temperature(text))
    same = actions.read_water(**hand, tank=tank, at=utc("2026-03-10 07:00"), temperature="like last time")
    assert (same.temperature_c, same.how) == (9, "same")


def test_like_last_time_of_a_tank_never_read_is_refused(hand, tank, utc):
    with pytest.raises(Refusal, match="Nobody has read the water of “Trough”") as refused:
        actions.read_water(**hand, tank=tank, at=utc("2026-03-10 07:00"), temperature="like last time")
    assert refused.value.field == "temperature"


def test_water_hotter_than_any_soak_is_refused(hand, tank, utc):
    hot = units.Reading(80.0, "C", "80 C")
    with pytest.raises(Refusal, match="between ice and 60"):
        actions.read_water(**hand, tank=tank, at=utc("2026-03-10 07:00"), temperature=hot)


def test_a_reading_like_last_time_stays_one_when_its_hour_is_corrected(hand, tank, utc):
    actions.read_water(**hand, tank=tank, at=utc("2026-03-01 07:00"), temperature=units.read_temperature("7 C"))
    same = actions.read_water(**hand, tank=tank, at=utc("2026-03-10 07:00"), temperature="like last time")
    again = units.read_temperature(same.temperature_text)
    actions.correct_waterreading(**hand, waterreading=same, at=utc("2026-03-10 08:00"), temperature=again)
    assert (same.how, same.at) == ("same", utc("2026-03-10 08:00"))
    other = units.read_temperature("9 C")
    actions.correct_waterreading(**hand, waterreading=same, at=utc("2026-03-10 08:00"), temperature=other)
    assert (same.how, same.temperature_c) == ("measured", 9)


# Putting in


def test_putting_in_takes_out_of_the_bundle(batch, bundle, day):
    taking = batch.taking
    assert (taking.purpose, taking.share_ppb, taking.on) == ("soak", 500_000_000, day("2026-03-02"))
    assert taking.at == batch.in_at == batch.in_until_at
    bundle.refresh_from_db()
    assert bundle.left_ppb == 500_000_000
    assert counters(batch) == (WHOLE, WHOLE)


def test_by_rods_and_by_weight(put_in):
    # 25 of 100 rods; then 1.5 of 6 kg.
    assert put_in("25 rods").taking.share_ppb == 250_000_000
    assert put_in("1.5 kg").taking.share_ppb == 250_000_000


def test_put_in_about_tuesday_is_kept_as_a_range(put_in):
    batch = put_in(at="2026-03-03 00:00", until="2026-03-04 00:00")
    assert (batch.in_at.day, batch.in_until_at.day) == (3, 4)
    assert batch.taking.at is None


def test_more_than_is_left_is_refused_and_nothing_is_kept(put_in, holding):
    put_in("half")
    with pytest.raises(Refusal):
        put_in("60 rods")
    assert Batch.objects.of(holding).count() == Taking.objects.of(holding).count() == 1


def test_rods_longer_than_the_tank_are_never_all_under(hand, put_in):
    bath = actions.add_tank(**hand, name="Bath", what="bath", greatest_length=units.read_length("1.5 m"))
    assert put_in(tank=bath).all_under is False  # the shortest 5 ft rod is 1.524 m
    longer = actions.add_tank(**hand, name="Long", greatest_length=units.read_length("1.55 m"))
    assert put_in("a third", tank=longer).all_under is True


def test_in_before_the_bundle_was_tied_is_refused(put_in):
    with pytest.raises(Refusal, match="was not tied until") as refused:
        put_in(at="2026-01-09 12:00")
    assert refused.value.field == "moment"


def test_the_water_may_be_told_while_putting_in(put_in, tank, holding):
    put_in(water=units.read_temperature("numbs the fingers"))
    reading = WaterReading.objects.of(holding).get()
    assert (reading.tank, reading.temperature_c) == (tank, 4)
    assert put_in("rest", at="2026-03-04 07:00", water="like last time")
    assert WaterReading.objects.of(holding).filter(how="same").get().temperature_c == 4


def test_like_last_time_unknown_is_said_beside_the_water(put_in, holding):
    with pytest.raises(Refusal) as refused:
        put_in(water="like last time")
    assert refused.value.field == "water"
    assert not Batch.objects.of(holding).exists()


def test_a_batch_put_in_wrongly_gives_the_rods_back(batch, bundle, wren):
    strike(batch, wren)
    bundle.refresh_from_db()
    assert bundle.left_ppb == WHOLE
    put_back(record=batch, by=wren)
    bundle.refresh_from_db()
    assert bundle.left_ppb == 500_000_000


def test_correcting_when_it_went_in_moves_the_taking(hand, batch, tank, moment, day):
    actions.correct_batch(**hand, batch=batch, moment=moment("2026-03-01 18:00"), tank=tank)
    batch.refresh_from_db()
    batch.taking.refresh_from_db()
    assert (batch.in_at.day, batch.taking.on) == (1, day("2026-03-01"))


def test_a_batch_cannot_go_in_after_it_was_looked_at(hand, batch, tank, moment, check):
    check(batch, "cracks", "2026-03-05 07:00")
    with pytest.raises(Refusal, match="looked at or lifted before then"):
        actions.correct_batch(**hand, batch=batch, moment=moment("2026-03-06 07:00"), tank=tank)


# Bend checks


def test_a_check_before_the_water_is_refused(batch, check):
    with pytest.raises(Refusal, match="not in the water yet") as refused:
        check(batch, "folds", "2026-03-02 06:59")
    assert refused.value.field == "at"


def test_a_check_after_all_is_lifted_is_refused_but_a_late_entry_is_not(batch, check, lift):
    lift(batch, at="2026-03-07 07:00")
    with pytest.raises(Refusal, match="out of the water by then"):
        check(batch, "folds", "2026-03-07 08:00")
    assert check(batch, "nearly", "2026-03-06 07:00").result == "nearly"


def test_the_same_check_twice_is_refused(batch, check, holding):
    check(batch, "cracks", "2026-03-05 07:00")
    with pytest.raises(Refusal, match="in the book already"):
        check(batch, "cracks", "2026-03-05 07:00")
    assert BendCheck.objects.of(holding).count() == 1


# Lifting, in parts: a part is of what is still in the water


def test_a_third_then_half_of_the_rest_then_the_rest(batch, lift, holding):
    # A third of 1e9 is 333 333 333; half of the 666 666 667 left is 333 333 333.5, to the even: 333 333 334.
    assert lift(batch, "a third", which="the thin ones").part_ppb == THIRD
    assert counters(batch) == (666_666_667, WHOLE)
    assert lift(batch, "half", at="2026-03-08 07:00").part_ppb == 333_333_334
    assert lift(batch, at="2026-03-09 07:00").part_ppb == 333_333_333
    assert counters(batch) == (0, WHOLE)
    assert sum(each.part_ppb for each in Lift.objects.of(holding)) == WHOLE


def test_lifting_when_nothing_is_in_the_water_is_refused(batch, lift):
    lift(batch)
    with pytest.raises(Refusal, match="lifted already") as refused:
        lift(batch, "half", at="2026-03-08 07:00")
    assert refused.value.field == "part"


def test_a_draw_beyond_what_is_there_changes_nothing(batch, lift):
    lift(batch, "a third")
    with pytest.raises(NotThere, match="about 67 %"):
        actions.draw(batch, in_water=666_666_668)
    assert counters(batch) == (666_666_667, WHOLE)


def test_lifting_before_it_went_in_is_refused(batch, lift):
    with pytest.raises(Refusal, match="not in the water yet"):
        lift(batch, at="2026-03-01 07:00")


def test_all_lifted_before_a_check_in_the_water_is_refused(batch, lift, check):
    check(batch, "cracks", "2026-03-08 07:00")
    with pytest.raises(Refusal, match="made in the water after that time"):
        lift(batch, at="2026-03-07 07:00")
    assert lift(batch, "half", at="2026-03-07 07:00").part_ppb == 500_000_000


def test_a_lift_struck_out_goes_back_into_the_water(batch, lift, wren):
    lifted = lift(batch, "a third")
    strike(lifted, wren)
    assert counters(batch) == (WHOLE, WHOLE)
    put_back(record=lifted, by=wren)
    assert counters(batch) == (666_666_667, WHOLE)


def test_a_corrected_part_moves_only_the_difference(hand, batch, lift, moment):
    lifted = lift(batch, "a third")
    actions.correct_lift(**hand, lift=lifted, moment=moment("2026-03-07 07:00"), part=units.read_part("half"))
    assert counters(batch) == (500_000_000, WHOLE)


def test_a_lift_whose_rods_are_used_cannot_be_struck_out(hand, batch, lift, wren, day):
    lifted = lift(batch, "half")
    actions.spoil(**hand, batch=batch, on=day("2026-03-12"), cause="slimy")
    with pytest.raises(Refusal, match="Strike that out first"):
        strike(lifted, wren)
    assert counters(batch) == (500_000_000, 500_000_000)


def test_a_batch_takes_its_checks_and_lifts_with_it_and_brings_them_back(
    hand, batch, bundle, lift, check, wren, utc, holding
):
    check(batch, "nearly", "2026-03-06 07:00")
    lifted = lift(batch, wrap_in="sheet")
    actions.bench_result(**hand, lift=lifted, at=utc("2026-03-08 07:00"), result="right")
    strike(batch, wren)
    for model in (Batch, BendCheck, Lift, Mellow, BenchResult, Taking):
        assert not model.objects.of(holding).exists()
    put_back(record=batch, by=wren)
    for model in (Batch, BendCheck, Lift, Mellow, BenchResult, Taking):
        assert model.objects.of(holding).count() == 1
    assert counters(batch) == (0, WHOLE)


# Wrapped, and at the bench


def test_wrapped_at_once_and_unwrapped(hand, batch, lift, utc, holding):
    lifted = lift(batch, wrap_in="hessian")
    mellow = Mellow.objects.of(holding).get()
    assert (mellow.lift, mellow.wrap, mellow.began_at) == (lifted, "hessian", utc("2026-03-07 07:00"))
    actions.unwrap(**hand, mellow=mellow, ended_at=utc("2026-03-08 19:00"))
    with pytest.raises(Refusal, match="unwrapped already"):
        actions.unwrap(**hand, mellow=mellow, ended_at=utc("2026-03-09 19:00"))


def test_wrapped_twice_or_backwards_is_refused(hand, batch, lift, utc):
    lifted = lift(batch, wrap_in="")
    with pytest.raises(Refusal, match="wrapped already"):
        actions.wrap(**hand, lift=lifted, began_at=utc("2026-03-07 09:00"))
    with pytest.raises(Refusal, match="unwrapped before they were wrapped"):
        actions.unwrap(**hand, mellow=lifted.mellows.get(), ended_at=utc("2026-03-06 19:00"))


def test_at_the_bench_before_lifting_is_refused(hand, batch, lift, utc):
    lifted = lift(batch)
    with pytest.raises(Refusal, match="still in the water"):
        actions.bench_result(**hand, lift=lifted, at=utc("2026-03-06 07:00"), result="right")


def test_corrections_keep_the_order_of_things(hand, batch, lift, check, utc, moment, day):
    looked = check(batch, "nearly", "2026-03-06 07:00")
    lifted = lift(batch, wrap_in="sheet")
    bench = actions.bench_result(**hand, lift=lifted, at=utc("2026-03-09 07:00"), result="right")
    with pytest.raises(Refusal, match="wrapped or worked before then"):
        actions.correct_lift(**hand, lift=lifted, moment=moment("2026-03-08 07:00"), part=None)
    with pytest.raises(Refusal, match="made in the water after"):
        actions.correct_lift(**hand, lift=lifted, moment=moment("2026-03-05 07:00"), part=None)
    with pytest.raises(Refusal, match="out of the water by then"):
        actions.correct_bendcheck(**hand, bendcheck=looked, at=utc("2026-03-08 07:00"), result="folds")
    with pytest.raises(Refusal, match="still in the water"):
        actions.correct_mellow(**hand, mellow=lifted.mellows.get(), began_at=utc("2026-03-06 07:00"))
    with pytest.raises(Refusal, match="still in the water"):
        actions.correct_benchresult(**hand, benchresult=bench, at=utc("2026-03-06 07:00"), result="right")
    dried = actions.dry_again(**hand, batch=batch, on=day("2026-03-20"))
    with pytest.raises(Refusal, match="lifted until"):
        actions.correct_driedagain(**hand, driedagain=dried, on=day("2026-03-06"))
    actions.correct_driedagain(**hand, driedagain=dried, on=day("2026-03-21"), part=units.read_part("half"))
    dried.bundle.refresh_from_db()
    assert (dried.bundle.tied_on, counters(batch)) == (day("2026-03-21"), (0, 500_000_000))


def test_a_whole_soak_in_one_go(hand, bundle, tank, moment, holding):
    batch = actions.whole_soak(
        **hand,
        bundle=bundle,
        tank=tank,
        went_in=moment("2026-03-02 00:00", "2026-03-03 00:00"),
        came_out=moment("2026-03-07 07:00"),
        result="right",
        much=read_much("the rest"),
        water=units.read_temperature("cool"),
    )
    assert counters(batch) == (0, WHOLE)
    assert Lift.objects.of(holding).get().part_ppb == WHOLE
    assert BenchResult.objects.of(holding).get().result == "right"
    bundle.refresh_from_db()
    assert bundle.left_ppb == 0


@pytest.mark.parametrize(
    ("went_in", "came_out"),
    [
        (("2026-03-07 07:00",), ("2026-03-02 07:00",)),
        # “Tuesday” and “Monday”: the one day ends at the instant at which the other begins.
        (("2026-03-03 00:00", "2026-03-04 00:00"), ("2026-03-02 00:00", "2026-03-03 00:00")),
    ],
)
def test_a_whole_soak_out_before_in_keeps_nothing(hand, bundle, tank, moment, holding, went_in, came_out):
    with pytest.raises(Refusal, match="come out before") as refused:
        actions.whole_soak(
            **hand,
            bundle=bundle,
            tank=tank,
            went_in=moment(*went_in),
            came_out=moment(*came_out),
            result="right",
            much=read_much("half"),
        )
    assert refused.value.field == "came_out"
    assert not Batch.objects.of(holding).exists()


# What is out: used, dried again, spoiled


def test_lifted_a_third_used_half_of_what_is_out(batch, lift, day):
    lift(batch, "a third")
    # Half of 333 333 333 is 166 666 666.5, to the even 166 666 666.
    part = actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("half"))
    assert part == 166_666_666
    actions.use(batch, part)
    # In the water 666 666 667; left 1e9 − 166 666 666; out and unused 166 666 667.
    assert counters(batch) == (666_666_667, 833_333_334)
    assert batch.out_ppb == 166_666_667
    assert actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("the rest")) == 166_666_667
    with pytest.raises(NotThere, match="about 17 %"):
        actions.use(batch, 166_666_668)


def test_two_who_looked_at_the_same_moment_cannot_use_more_than_there_is(batch, lift, holding):
    lift(batch)
    one, other = (Batch.objects.of(holding).get() for _each in range(2))
    actions.use(one, 600_000_000)
    with pytest.raises(NotThere):
        actions.use(other, 600_000_000)
    assert counters(batch) == (0, 400_000_000)


def test_nothing_in_the_water_can_be_used(batch, day):
    with pytest.raises(NotThere, match="Lift some first"):
        actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("half"))
    with pytest.raises(NotThere):
        actions.use(batch, 1)


def test_rods_and_weights_are_of_what_went_in(put_in, lift, day):
    batch = put_in("25 rods")
    lift(batch)
    # 10 of 25 rods; 25 rods of 100 are 1.5 of 6 kg, so 0.6 kg is as much.
    assert actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("10 rods")) == 400_000_000
    assert actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("0.6 kg")) == 400_000_000
    with pytest.raises(NotThere):
        actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("26 rods"))


def test_rods_of_a_batch_never_counted_are_asked_for_as_a_part(batch, lift, day):
    lift(batch)
    with pytest.raises(Refusal, match="Say a part") as refused:
        actions.part_to_use(batch, on=day("2026-03-09"), much=read_much("10 rods"))
    assert refused.value.field == "much"


def test_used_before_lifting_is_refused(batch, lift, day):
    lift(batch)
    with pytest.raises(Refusal, match="lifted until"):
        actions.part_to_use(batch, on=day("2026-03-06"), much=read_much("half"))


def test_dried_again_is_a_bundle_of_its_own(hand, batch, bundle, lift, day, wren, holding):
    lift(batch, "half")
    dried = actions.dry_again(**hand, batch=batch, on=day("2026-03-20"), part=units.read_part("half"))
    # Half of the half that is out.
    assert dried.part_ppb == 250_000_000
    assert counters(batch) == (500_000_000, 750_000_000)
    new = dried.bundle
    assert (new.made, new.soaked_before, new.dried_from, new.tied_on) == (
        "dried_again",
        True,
        bundle,
        day("2026-03-20"),
    )
    strike(dried, wren)
    assert counters(batch) == (500_000_000, WHOLE)
    assert not Bundle.objects.of(holding).filter(pk=new.pk).exists()
    put_back(record=dried, by=wren)
    assert counters(batch) == (500_000_000, 750_000_000)
    assert Bundle.objects.of(holding).filter(pk=new.pk).exists()


def test_a_batch_of_rods_dried_again_is_soaked_before(hand, batch, lift, put_in, day):
    lift(batch)
    dried = actions.dry_again(**hand, batch=batch, on=day("2026-03-20"))
    assert put_in("rest", at="2026-04-02 07:00", bundle=dried.bundle).soaked_before
    assert not batch.soaked_before


def test_spoiled_rods_and_their_correction(hand, batch, lift, day, wren):
    lift(batch)
    spoiled = actions.spoil(
        **hand, batch=batch, on=day("2026-03-20"), cause="black spots", part=units.read_part("a tenth")
    )
    assert counters(batch) == (0, 900_000_000)
    actions.correct_spoiled(
        **hand, spoiled=spoiled, on=day("2026-03-20"), cause="black spots", part=units.read_part("a quarter")
    )
    assert counters(batch) == (0, 750_000_000)
    strike(spoiled, wren)
    assert counters(batch) == (0, WHOLE)


def test_correcting_a_note_leaves_the_parts_alone(hand, batch, lift, wren):
    lifted = lift(batch, "a third")
    correct(record=lifted, by=wren, note="the thin ones")
    assert counters(batch) == (666_666_667, WHOLE)


def test_another_holdings_tank_is_refused(put_in, other, ida):
    elsewhere = actions.add_tank(holding=other, by=ida, name="Trough")
    with pytest.raises(Refusal, match="not in this book"):
        put_in(tank=elsewhere)
