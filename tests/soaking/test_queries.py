"""What the tank's records say; days worked out by hand beside each."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from growers.bundles import actions as bundles
from growers.furniture.much import read_much
from growers.people.actions import strike_out
from growers.science import units
from growers.soaking import actions, queries


@pytest.fixture
def read(hand, tank, utc):
    def read(at, text):
        return actions.read_water(**hand, tank=tank, at=utc(at), temperature=units.read_temperature(text))

    return read


@pytest.fixture
def bench(hand, utc):
    def bench(lift, result, at="2026-03-09 07:00"):
        return actions.bench_result(**hand, lift=lift, at=utc(at), result=result)

    return bench


def only(variety, type="brown"):
    bounds = queries.bounds_for(variety, type)
    assert len(bounds.soaks) == 1
    return bounds.soaks[0]


# The board


def test_the_board_shows_each_tank_with_what_is_in_it(batch, tank, hand, holding, read, check, utc):
    actions.add_tank(**hand, name="Bath")
    read("2026-03-02 08:00", "8 C")
    check(batch, "cracks", "2026-03-05 07:00")
    bath, trough = queries.board(holding, utc("2026-03-05 19:00"))
    assert (bath.tank.name, bath.batches, bath.reading) == ("Bath", (), None)
    assert trough.reading.temperature_c == 8
    (each,) = trough.batches
    assert each.name == "Pellock, 5 ft"
    assert each.days == pytest.approx(3.5)  # 2 March 7:00 to 5 March 19:00
    assert each.water.celsius == 8
    assert each.rule == pytest.approx((5, 6))
    assert each.last_check.result == "cracks"
    assert not each.folds
    assert each.first_look_at == utc("2026-03-06 07:00")  # 5 − 1 days
    assert each.lift_by_at == utc("2026-03-11 07:00")  # 1.5 × 6 = 9 days
    assert each.look_at == utc("2026-03-06 07:00")  # a day after the last look


def test_the_night_the_clocks_go_forward_is_an_hour_shorter(put_in, check, holding, pellock):
    london = ZoneInfo("Europe/London")
    batch = put_in(at="2026-03-28 12:00")
    noon = datetime(2026, 3, 29, 12, tzinfo=london)
    (each,) = queries.in_water(holding, noon)
    assert each.days == pytest.approx(23 / 24)
    check(batch, "folds", "2026-03-29 11:00")  # noon on the clock
    assert only(pellock).upper_days == pytest.approx(23 / 24)


def test_what_is_struck_out_or_lifted_is_not_on_the_board(put_in, lift, holding, wren, utc):
    lift(put_in("a third"))
    wrong = put_in("half")
    strike_out(record=wrong, by=wren, reason="wrong bundle", at=utc("2026-03-08 07:00"))
    assert queries.in_water(holding, utc("2026-03-09 07:00")) == []


def test_the_usual_water_of_the_month_where_nothing_was_read(batch, read, holding, utc):
    read("2025-03-10 07:00", "6 C")
    read("2025-03-20 07:00", "8-12 C")
    read("2025-07-20 07:00", "18 C")
    (each,) = queries.in_water(holding, utc("2026-03-05 19:00"))
    # March: (6 + 10) / 2 = 8; the band 6 to 12, widened by 2 at each end.
    assert (each.water.celsius, each.water.low_c, each.water.high_c, each.water.how) == (8, 4, 14, "usual")


def test_lifted_rods_with_the_day_they_keep_to(batch, lift, holding, utc):
    lift(batch, "half", at="2026-03-06 07:00", wrap_in="sheet")
    lift(batch, at="2026-03-08 07:00")
    (rods,) = queries.lifted_rods(holding)
    assert rods.part_out == 1
    assert rods.use_by_at == utc("2026-03-13 07:00")  # seven days from the older lift
    assert rods.mellow.wrap == "sheet"
    # The older half is used: what is left was lifted on the 8th.
    actions.use(batch, 500_000_000)
    (rods,) = queries.lifted_rods(holding)
    assert rods.use_by_at == utc("2026-03-15 07:00")
    actions.use(batch, 500_000_000)
    assert queries.lifted_rods(holding) == []


# Bounds


def test_ready_between_the_last_failed_check_and_the_first_fold(batch, check, pellock, read):
    read("2026-03-02 08:00", "8 C")
    check(batch, "cracks", "2026-03-05 07:00")
    check(batch, "nearly", "2026-03-06 19:00")
    check(batch, "folds", "2026-03-07 19:00")
    check(batch, "folds", "2026-03-08 07:00")
    bound = only(pellock)
    # In on the 2nd at 7:00: 4.5 days to the 6th 19:00, 5.5 days to the 7th 19:00.
    assert (bound.lower_days, bound.upper_days) == (pytest.approx(4.5), pytest.approx(5.5))
    assert (bound.endpoint, bound.water.celsius, bound.label, bound.contradicted) == ("folds", 8, "5 ft", False)
    assert bound.winters == ("2025/26",)


def test_folds_at_first_look_is_an_upper_bound_only(batch, check, pellock):
    check(batch, "folds", "2026-03-07 07:00")
    bound = only(pellock)
    assert (bound.lower_days, bound.upper_days) == (None, pytest.approx(5))


def test_lifted_unready_is_a_lower_bound_only(batch, lift, pellock):
    lift(batch, at="2026-03-07 07:00", state="unready")
    bound = only(pellock)
    assert (bound.lower_days, bound.upper_days, bound.endpoint) == (pytest.approx(5), None, "folds")


def test_the_lazy_record_is_a_whole_one(put_in, lift, bench, pellock):
    """In some time on the 2nd, out on the 7th at 7:00, right at the bench: ready within 5.3 days at most."""
    batch = put_in(at="2026-03-02 00:00", until="2026-03-03 00:00")
    bench(lift(batch, at="2026-03-07 07:00"), "right")
    bound = only(pellock)
    assert bound.endpoint == "bench"
    assert bound.lower_days is None
    assert bound.upper_days == pytest.approx(5 + 7 / 24)


def test_cracked_at_the_bench_counts_from_the_surest_time(put_in, lift, bench, pellock):
    batch = put_in(at="2026-03-02 00:00", until="2026-03-03 00:00")
    bench(lift(batch, at="2026-03-07 07:00"), "cracked")
    bound = only(pellock)
    # Surely in for 4 days and 7 hours.
    assert (bound.lower_days, bound.upper_days) == (pytest.approx(4 + 7 / 24), None)


def test_lifted_nearly_and_right_at_the_bench_is_two_endpoints(batch, check, lift, bench, pellock):
    check(batch, "cracks", "2026-03-05 07:00")
    bench(lift(batch, at="2026-03-06 07:00", state="nearly"), "right")
    folds, at_bench = queries.bounds_for(pellock, "brown").soaks
    assert (folds.endpoint, folds.lower_days, folds.upper_days) == ("folds", pytest.approx(4), None)
    assert (at_bench.endpoint, at_bench.lower_days, at_bench.upper_days) == ("bench", None, pytest.approx(4))
    assert queries.bounds_for(pellock, "brown").number == 1


def test_too_soft_is_past_ready_and_split_says_nothing_of_the_time(put_in, lift, bench, pellock):
    bench(lift(put_in("a third"), at="2026-03-09 07:00"), "too_soft")
    bench(lift(put_in("a third"), at="2026-03-09 07:00"), "split")
    bounds = queries.bounds_for(pellock, "brown")
    assert [bound.upper_days for bound in bounds.soaks] == [pytest.approx(7)]
    assert bounds.left_out == {"nothing_said": 1}


def test_a_check_that_broke_but_was_wet_through_says_nothing_against_readiness(batch, check, pellock):
    check(batch, "too_wet", "2026-03-08 07:00")
    assert queries.bounds_for(pellock, "brown").left_out == {"nothing_said": 1}


def test_a_crack_after_a_fold_is_marked(batch, check, pellock):
    check(batch, "folds", "2026-03-05 07:00")
    check(batch, "cracks", "2026-03-06 07:00")
    bound = only(pellock)
    assert (bound.lower_days, bound.upper_days, bound.contradicted) == (None, pytest.approx(3), True)


def test_the_thin_ones_lifted_first_speak_for_themselves(batch, check, lift, pellock):
    check(batch, "cracks", "2026-03-05 07:00")
    lift(batch, "a third", at="2026-03-06 07:00", which="the thin ones", state="ready")
    check(batch, "cracks", "2026-03-07 07:00")
    lift(batch, at="2026-03-08 07:00", state="ready")
    bounds = queries.bounds_for(pellock, "brown")
    # The thin ones between 3 and 4 days, the others between 5 and 6; one batch.
    days = [(bound.lower_days, bound.upper_days, bound.contradicted) for bound in bounds.soaks]
    assert days == [(pytest.approx(3), pytest.approx(4), False), (pytest.approx(5), pytest.approx(6), False)]
    assert bounds.number == 1


def test_what_is_left_out_is_counted(hand, put_in, check, bundle, five_foot, pellock, lift, day, holding, utc):
    check(put_in("10 rods"), "folds", "2026-03-07 07:00")
    check(put_in("10 rods", all_under=False), "folds", "2026-03-07 07:00")
    put_in("10 rods")
    lifted = put_in("10 rods")
    lift(lifted)
    again = actions.dry_again(**hand, batch=lifted, on=day("2026-03-20")).bundle
    check(put_in("half", at="2026-04-01 07:00", bundle=again), "folds", "2026-04-03 07:00")
    found = bundles.find(**hand, on=day("2026-03-01"), length_class=five_foot, likely_variety=pellock)
    check(put_in("half", bundle=found), "folds", "2026-03-07 07:00")
    bounds = queries.bounds_for(pellock, "brown")
    assert len(bounds.soaks) == 1
    assert bounds.left_out == {"not_under": 1, "nothing_said": 2, "soaked_before": 1, "unknown": 1}


def test_a_mixed_bundle_never_speaks_for_a_variety(hand, bundle, put_in, check, five_foot, pellock, day):
    strange = bundles.buy_in(
        **hand, supplier="Orla Fenn", on=day("2026-01-20"), length_class=five_foot, told_winter="2024/25"
    )[0]
    both = [
        bundles.WentIn(bundle=bundle, share_ppb=500_000_000, weight=1.0),
        bundles.WentIn(bundle=strange, share_ppb=500_000_000, weight=1.0),
    ]
    new = [bundles.NewBundle(part_ppb=1_000_000_000, length_class=five_foot)]
    making = bundles.make(**hand, what="merged", on=day("2026-02-01"), went_in=both, came_out=new)
    mixed = making.bundles.get()
    check(put_in("half", bundle=mixed), "folds", "2026-03-07 07:00")
    bounds = queries.bounds_for(pellock, "brown")
    assert (bounds.soaks, bounds.left_out) == ((), {"mixed": 1})


def test_types_are_never_mixed(batch, check, pellock):
    check(batch, "folds", "2026-03-07 07:00")
    assert queries.bounds_for(pellock, "white").soaks == ()


# What wants doing


def kinds(holding, now):
    return [each.kind for each in queries.due(holding, today=now.date(), now=now)]


def test_a_look_is_due_a_day_before_the_rule_and_then_daily(batch, holding, check, utc):
    # In on the 2nd, 5 ft: the first look on the 6th.
    assert kinds(holding, utc("2026-03-05 20:00")) == []
    assert kinds(holding, utc("2026-03-06 06:00")) == ["check"]
    check(batch, "cracks", "2026-03-06 07:00")
    assert kinds(holding, utc("2026-03-06 20:00")) == []
    assert kinds(holding, utc("2026-03-07 06:00")) == ["check"]
    check(batch, "folds", "2026-03-07 07:00")
    assert kinds(holding, utc("2026-03-07 08:00")) == ["lift"]


def test_a_batch_is_forgotten_past_one_and_a_half_times_the_rule(batch, holding, utc):
    # 6 ft at the longest: 9 days, to the 11th at 7:00.
    assert kinds(holding, utc("2026-03-11 06:00")) == ["check"]
    assert kinds(holding, utc("2026-03-11 08:00")) == ["forgotten"]


def test_ice_cold_water_forgets_nothing(batch, holding, read, utc):
    read("2026-03-03 07:00", "ice")
    (due,) = queries.due(holding, today=utc("2026-03-15 08:00").date(), now=utc("2026-03-15 08:00"))
    assert (due.kind, due.why) == ("check", "ice-cold: look when it thaws")


def test_wraps_bench_and_the_last_workable_day(batch, lift, bench, holding, hand, utc):
    lifted = lift(batch, at="2026-03-07 07:00", wrap_in="sheet")
    assert kinds(holding, utc("2026-03-07 20:00")) == []
    assert kinds(holding, utc("2026-03-08 08:00")) == ["unwrap"]
    actions.unwrap(**hand, mellow=lifted.mellows.get(), ended_at=utc("2026-03-08 19:00"))
    # Two days after lifting: how was it?
    assert kinds(holding, utc("2026-03-09 08:00")) == ["bench"]
    bench(lifted, "right")
    assert kinds(holding, utc("2026-03-12 08:00")) == []
    # Workable for 7 days, to the 14th at 7:00; asked the day before.
    assert kinds(holding, utc("2026-03-13 08:00")) == ["use_up"]
    (due,) = queries.due(holding, today=utc("2026-03-15 08:00").date(), now=utc("2026-03-15 08:00"))
    assert "Still workable? Pellock, 5 ft" in due.sentence


def test_nobody_is_asked_for_ever_what_became_of_lifted_rods(batch, lift, holding, utc, pages, clock):
    lift(batch, at="2026-03-07 07:00", wrap_in="sheet")
    # Workable to the 14th at 7:00; asked after for thirty days more, to 13 April at 7:00.
    assert kinds(holding, utc("2026-04-13 06:00")) == ["unwrap", "use_up"]
    assert kinds(holding, utc("2026-04-13 08:00")) == []
    clock("2026-04-13 08:00")
    assert "1 more, lifted long ago: nobody wrote what became of it" in pages.text("soaking:tank")


# Asked before it is kept


def test_doubts_of_a_tank(hand, bundle, tank, holding, put_in, five_foot, day):
    trough = actions.add_tank(**hand, name="Short", greatest_length=units.read_length("1.6 m"))
    # 5 ft rods run from 1.524 to 1.829 m.
    ((field, sentence),) = queries.doubts_of_putting_in(bundle, trough)
    assert field == "tank"
    assert "run to 6'" in sentence
    assert list(queries.doubts_of_putting_in(bundle, tank)) == []
    put_in()
    white = bundles.buy_in(**hand, supplier="Orla Fenn", on=day("2026-01-20"), length_class=five_foot, type="white")[0]
    ((field, sentence),) = queries.doubts_of_putting_in(white, tank)
    assert "last used for brown rods" in sentence


def test_rods_longer_than_the_tank_are_asked_about(hand, bundle, tank):
    bath = actions.add_tank(**hand, name="Bath", what="bath", greatest_length=units.read_length("1.5 m"))
    ((field, sentence),) = queries.doubts_of_putting_in(bundle, bath)
    assert field == "tank"
    assert "takes rods up to 4'11" in sentence  # 1.5 m is 4 ft 11.06 in
    assert "won't be all under the water" in sentence


def test_more_than_fits_is_asked_about(hand, bundle, put_in, day):
    small = actions.add_tank(**hand, name="Small", room_bundles=1)

    def asked(much):
        return list(queries.doubts_of_putting_in(bundle, small, read_much(much), day("2026-03-02")))

    # The middle of 5 ft to 6 ft is 1.6764 m, so a whole bundle takes the room of 1.6764 / 1.524 = 1.1 of 5 ft.
    assert asked("all") == []
    put_in("half", tank=small)
    assert asked("a third") == []  # 0.55 + 0.5 / 3 × 1.1 = 0.73
    assert asked("25 rods") == []  # 0.55 + 0.275
    put_in("the rest", tank=small, at="2026-03-02 08:00")
    other = bundles.buy_in(**hand, supplier="Orla Fenn", on=day("2026-01-20"), length_class=bundle.length_class)[0]
    ((field, sentence),) = queries.doubts_of_putting_in(other, small, read_much("a third"), day("2026-03-02"))
    # 1.1 + 0.37 = 1.47
    assert (field, "takes 1 bundle of 5 ft, and with these it would hold about 1.5" in sentence) == ("tank", True)
    # How many rods a bundle has that nobody counted is not in the book: then nothing is asked.
    assert list(queries.doubts_of_putting_in(other, small, read_much("40 rods"), day("2026-03-02"))) == []


def test_the_same_check_by_another_within_half_an_hour(batch, check, hand, tam, wren, utc):
    check(batch, "cracks", "2026-03-05 07:00")
    assert queries.same_check_by_another(batch, at=utc("2026-03-05 07:29"), result="cracks", by=tam)
    assert not queries.same_check_by_another(batch, at=utc("2026-03-05 07:31"), result="cracks", by=tam)
    assert not queries.same_check_by_another(batch, at=utc("2026-03-05 07:04"), result="folds", by=tam)
    assert not queries.same_check_by_another(batch, at=utc("2026-03-05 07:04"), result="cracks", by=wren)


def test_the_board_asks_as_often_for_many_batches_as_for_one(put_in, holding, utc, django_assert_max_num_queries):
    for _each in range(6):
        put_in("5 rods")
    with django_assert_max_num_queries(8):
        assert len(queries.in_water(holding, utc("2026-03-05 19:00"))) == 6
