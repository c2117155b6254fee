"""Situations 7 to 14 of a grower's year: what goes otherwise than planned at the tank. Hours by hand beside each."""

import pytest

from growers.bundles import actions as bundles
from growers.harvest import actions as harvest
from growers.science import units
from growers.soaking import actions, queries


@pytest.fixture
def read(hand, tank, utc):
    def read(at, text, **how):
        return actions.read_water(**hand, tank=tank, at=utc(at), temperature=units.read_temperature(text), **how)

    return read


@pytest.fixture
def bench(hand, utc):
    return lambda lift, result, at: actions.bench_result(**hand, lift=lift, at=utc(at), result=result)


def bounds_of(variety):
    return queries.bounds_for(variety, "brown")


def only(variety):
    [bound] = bounds_of(variety).soaks
    return bound


def days(bound):
    """(not ready after, ready by), to a thousandth of a day."""
    return tuple(each if each is None else round(each, 3) for each in (bound.lower_days, bound.upper_days))


# 7. The tank is topped up with warm water


def test_7_a_topped_up_soak_is_never_filed_at_its_first_temperature(batch, read, check, pellock):
    # In on the 2nd at 7:00. Two kettles at hour 30, the 3rd at 13:00: 9 °C to 16 °C. Read again at hour 100: 12 °C.
    read("2026-03-02 07:00", "9 C")
    read("2026-03-03 13:00", "16 C", how="topped")
    read("2026-03-06 11:00", "12 C")
    check(batch, "folds", "2026-03-06 11:00")
    water = only(pellock).water
    # Thirty hours at 9; of the seventy until it was read again, half nearer to 16 and half to 12:
    # (30 · 9 + 35 · 16 + 35 · 12) / 100 = 12.5
    assert water.celsius == pytest.approx(12.5)
    assert (water.coldest_c, water.warmest_c, water.topped, water.changed) == (9, 16, True, True)


def test_7_warm_water_says_nothing_of_the_hours_before_it(batch, read, check, pellock):
    # Out before the kettles: 9 °C all the time, though the topping is the nearer reading to its last hours.
    read("2026-03-02 07:00", "9 C")
    read("2026-03-03 13:00", "16 C", how="topped")
    check(batch, "folds", "2026-03-03 12:00")
    water = only(pellock).water
    assert (water.celsius, water.topped, water.changed) == (9, False, False)


def test_7_the_page_says_that_it_was_topped_up(pages, batch, read, check, pellock, clock):
    clock("2026-03-06 12:00")
    pages.keep("soaking:water", batch.tank.uid, temperature="9", at="2 Mar 7:00")
    pages.keep("soaking:water", batch.tank.uid, temperature="16", how="topped", at="3 Mar 13:00")
    check(batch, "folds", "2026-03-06 11:00")
    for text in (pages.text("soaking:batch", batch.uid), pages.text("soaking:variety", pellock.uid)):
        assert "on the mean, from 9 °C to 16 °C, topped up with warm" in text, text


# 8. A forgotten batch


def test_8_a_forgotten_batch_is_an_upper_bound_and_never_a_time(batch, check, lift, bench, pellock):
    check(batch, "slimy", "2026-03-13 07:00")
    lifted = lift(batch, at="2026-03-13 07:00", state="forgotten")
    # Rods soaked too long break again: that they cracked does not mean that eleven days were too short.
    bench(lifted, "cracked", "2026-03-13 09:00")
    bound = only(pellock)
    assert (bound.endpoint, days(bound)) == ("folds", (None, 11.0))


def test_8_bark_that_slips_is_past_ready(batch, check, pellock):
    check(batch, "cracks", "2026-03-05 07:00")
    check(batch, "slips", "2026-03-12 07:00")
    assert days(only(pellock)) == (3.0, 10.0)


def test_8_today_asks_after_it(batch, holding, utc):
    # The longest 5 ft rods are short of 6 ft: six days by the rule, forgotten past nine, on the 11th at 7:00.
    now = utc("2026-03-12 07:00")
    [due] = queries.due(holding, today=now.date(), now=now)
    assert (due.kind, due.urgent) == ("forgotten", True)


# 9. Ready at the first look


def test_9_ready_at_the_first_look_is_at_most_so_long(batch, check, pellock):
    check(batch, "folds", "2026-03-08 07:00")
    assert days(only(pellock)) == (None, 6.0)


# 10. Taken out not ready


def test_10_taken_out_not_ready_is_kept_as_longer_than_that(hand, batch, lift, bench, utc, pellock):
    lifted = lift(batch, at="2026-03-06 07:00", state="unready")
    twenty = units.read_hours("20 min")
    actions.steam(**hand, lift=lifted, at=utc("2026-03-06 08:00"), minutes=twenty, purpose="unready")
    # They worked, but by the steam: that says nothing of four days in the water.
    bench(lifted, "right", "2026-03-06 09:00")
    bound = only(pellock)
    assert (bound.endpoint, days(bound)) == ("folds", (4.0, None))


def test_10_a_steaming_is_kept_through_its_page(pages, batch, lift, clock, holding):
    from growers.soaking.models import Steam

    lifted = lift(batch, at="2026-03-06 07:00", state="unready")
    clock("2026-03-06 09:00")
    pages.keep("soaking:steam", lifted.uid, minutes="20", purpose="unready", at="8:00")
    steamed = Steam.objects.of(holding).get()
    assert (steamed.minutes, steamed.purpose, steamed.at.hour) == (20, "unready", 8)
    assert "steamed for 20 minutes" in pages.text("soaking:batch", batch.uid)
    assert "still in the water at that time" in pages.refused("soaking:steam", lifted.uid, at="5 Mar 8:00")


# 11. Too wet, not too dry


def test_11_rods_that_snap_wet_through_are_not_blamed_on_the_soak(batch, lift, bench, holding, pellock, utc):
    lifted = lift(batch, at="2026-03-07 07:00")
    bench(lifted, "too_wet", "2026-03-07 09:00")
    assert (bounds_of(pellock).soaks, bounds_of(pellock).left_out) == ((), {"nothing_said": 1})
    now = utc("2026-03-08 10:00")
    assert [due.sentence for due in queries.due(holding, today=now.date(), now=now)] == [
        "Try Pellock, 5 ft at the bench again"
    ]
    # Two more days of mellowing mend it: five days in the water were enough.
    bench(lifted, "right", "2026-03-09 09:00")
    bound = only(pellock)
    assert (bound.endpoint, days(bound), bound.contradicted) == ("bench", (None, 5.0), False)


def test_11_without_the_reason_the_crack_is_marked_and_what_mellowing_showed_stands(batch, lift, bench, pellock):
    lifted = lift(batch, at="2026-03-07 07:00")
    bench(lifted, "cracked", "2026-03-07 09:00")
    bench(lifted, "right", "2026-03-09 09:00")
    bound = only(pellock)
    assert (days(bound), bound.contradicted) == ((None, 5.0), True)


# 12. Dried out after soaking


def test_12_a_re_soak_is_linked_flagged_and_never_a_first_soak(hand, batch, lift, bench, tank, utc, pellock, holding):
    lifted = lift(batch, at="2026-03-07 07:00", wrap_in="sheet")
    two_hours = units.read_hours("2 h")
    damped = actions.redamp(
        **hand, lift=lifted, how="soaked", tank=tank, at=utc("2026-03-10 08:00"), hours=two_hours, note="wind"
    )
    assert (damped.lift.batch, damped.until_at) == (batch, utc("2026-03-10 10:00"))
    assert str(damped) == "re-soak: in Trough again, Tue 10 Mar 2026, 8:00"
    bench(lifted, "cracked", "2026-03-10 12:00")
    bench(lifted, "right", "2026-03-10 18:00")
    bounds = bounds_of(pellock)
    assert (bounds.soaks, bounds.left_out) == ((), {"re_soaked": 1})
    assert bounds.left_out_told == ["1 batch: dried out and soaked again before they were worked"]
    assert damped in [record for _when, record in queries.story_of(batch)]


def test_12_what_was_said_before_they_dried_out_still_counts(hand, batch, check, lift, bench, utc, pellock):
    check(batch, "cracks", "2026-03-05 07:00")
    check(batch, "folds", "2026-03-07 07:00")
    lifted = lift(batch, at="2026-03-07 08:00")
    bench(lifted, "right", "2026-03-08 08:00")
    actions.redamp(**hand, lift=lifted, how="dipped", at=utc("2026-03-10 08:00"))
    bench(lifted, "cracked", "2026-03-10 12:00")
    folds, right = bounds_of(pellock).soaks
    assert (days(folds), days(right)) == ((3.0, 5.0), (None, 5.042))  # five days and one hour
    assert not right.contradicted


def test_12_through_its_page(pages, batch, lift, tank, clock):
    lifted = lift(batch, at="2026-03-07 07:00", wrap_in="sheet")
    clock("2026-03-10 12:00")
    said = {"how": "soaked", "at": "8:00", "hours": "2 h"}
    assert "Which tank were they soaked in again?" in pages.refused("soaking:redamp", lifted.uid, **said)
    pages.keep("soaking:redamp", lifted.uid, **said, tank=tank.uid)
    assert "re-soak: in Trough again, Tue 10 Mar 2026, 8:00" in pages.text("soaking:batch", batch.uid)
    assert "Re-soak: in Trough again" in pages.text("soaking:tank")


# 13. Mixed lengths in one tank


def test_13_two_lengths_share_water_and_have_their_own_ends(hand, cut, day, put_in, lift, check, read, pellock):
    def tied(feet):
        length = harvest.add_length(**hand, label=f"{feet} ft", min_m=feet * 0.3048, max_m=(feet + 1) * 0.3048)
        return bundles.tie(**hand, cut=cut, on=day("2026-01-10"), length_class=length)[0]

    tub = actions.add_tank(**hand, name="Long tub")
    short = put_in("all", bundle=tied(4), tank=tub)
    long = put_in("all", bundle=tied(7), tank=tub)
    actions.read_water(**hand, tank=tub, at=short.in_at, temperature=units.read_temperature("8 C"))
    check(short, "folds", "2026-03-06 07:00")
    lift(short, at="2026-03-06 07:00")
    check(long, "cracks", "2026-03-06 07:00")
    check(long, "folds", "2026-03-10 07:00")
    first, second = bounds_of(pellock).soaks
    assert [(bound.label, days(bound), bound.water.celsius) for bound in (first, second)] == [
        ("4 ft", (None, 4.0), 8),
        ("7 ft", (4.0, 8.0), 8),
    ]
    assert (short.in_water_ppb, long.in_water_ppb) == (0, 1_000_000_000)


# 14. Two finishes, one tank


def test_14_buff_into_brown_water_is_warned_of_and_not_blocked(pages, hand, day, batch, tank, five_foot, clock):
    clock("2026-03-06 08:00")
    buff = bundles.buy_in(**hand, supplier="Orla Fenn", on=day("2026-01-20"), length_class=five_foot, type="buff")[0]
    said = {"much": "half", "tank": tank.uid, "moment": "now", "all_under": "on"}
    answer = pages.send("soaking:put_in", buff.uid, **said)
    assert answer.status_code == 422
    assert "Their water stains buff" in answer.content.decode()
    pages.keep("soaking:put_in", buff.uid, **said, sure=answer.context["form"].sure)
    assert "buff" in pages.text("soaking:tank")


def test_14_more_than_fits_is_asked_about_and_not_blocked(pages, hand, bundle, clock, holding):
    clock("2026-03-06 08:00")
    small = actions.add_tank(**hand, name="Small", room_bundles=1)
    pages.keep("soaking:put_in", bundle.uid, much="a third", tank=small.uid, moment="now", all_under="on")
    # The middle of 5 ft to 6 ft, 1.6764 m, is 1.1 times 5 ft: a third of that is in, 0.37, and a bundle more is 1.47.
    other = bundles.buy_in(**hand, supplier="Orla Fenn", on=bundle.tied_on, length_class=bundle.length_class)[0]
    said = {"much": "all", "tank": small.uid, "moment": "now", "all_under": "on"}
    answer = pages.send("soaking:put_in", other.uid, **said)
    assert "takes 1 bundle of 5 ft, and with these it would hold about 1.5" in answer.content.decode()
    pages.keep("soaking:put_in", other.uid, **said, sure=answer.context["form"].sure)


# Past it


def test_past_it_is_kept_and_asked_for_no_more(hand, batch, lift, day, holding, utc):
    lifted = lift(batch, at="2026-03-07 07:00", wrap_in="sheet")
    now = utc("2026-03-15 08:00")
    assert {due.kind for due in queries.due(holding, today=now.date(), now=now)} == {"unwrap", "use_up", "bench"}
    actions.unwrap(**hand, mellow=lifted.mellows.get(), ended_at=utc("2026-03-15 07:30"))
    actions.gone_over(**hand, lift=lifted, on=day("2026-03-15"), what="mould")
    [due] = queries.due(holding, today=now.date(), now=now)
    assert (due.kind, due.why) == ("clear", "past it, Sun 15 Mar 2026: mould")


def test_three_that_went_over_teach_how_long_such_rods_keep(hand, put_in, lift, day, holding, utc):
    for part, on in (("20 rods", "2026-03-12"), ("20 rods", "2026-03-16"), ("20 rods", "2026-03-14")):
        lifted = lift(put_in(part), at="2026-03-07 07:00")
        assert queries.keeping_by_type(holding)["brown"].days == 7
        actions.gone_over(**hand, lift=lifted, on=day(on))
    # Past it after 5, 9 and 7 days: the soonest stands, and no mean of them.
    keeping = queries.keeping_by_type(holding)["brown"]
    assert (keeping.days, keeping.own, keeping.gone_days) == (5, True, (5, 7, 9))
    lift(put_in("20 rods"), at="2026-03-20 07:00")
    assert queries.lifted_rods(holding)[-1].use_by_at == utc("2026-03-25 07:00")
    assert queries.keeping_by_type(holding)["white"].days == 2


def test_past_it_before_they_were_lifted_is_refused(pages, batch, lift, clock):
    lifted = lift(batch, at="2026-03-07 07:00")
    clock("2026-03-10 12:00")
    assert "were not lifted until" in pages.refused("soaking:gone_over", lifted.uid, on="6 Mar", what="sour")
    pages.keep("soaking:gone_over", lifted.uid, on="9 Mar", what="sour")
    assert "past it, Mon 9 Mar 2026: sour smell" in pages.text("soaking:batch", batch.uid)


# The lazy year, and ice


def test_iced_days_are_said(batch, read, check, pellock, pages):
    read("2026-03-02 07:00", "6 C")
    read("2026-03-04 07:00", "ice")
    read("2026-03-06 07:00", "6 C")
    check(batch, "folds", "2026-03-08 07:00")
    # From the 3rd at 7:00 to the 5th at 7:00 the ice is the nearest reading: two days of six.
    assert only(pellock).water.iced_days == pytest.approx(2)
    assert "ice on it for about 2 days" in pages.text("soaking:variety", pellock.uid)


def test_where_nothing_was_read_the_months_usual_water_is_said_as_such(batch, read, check, pellock, pages):
    read("2025-03-10 07:00", "6 C")
    read("2025-03-20 07:00", "10 C")
    check(batch, "folds", "2026-03-08 07:00")
    assert (only(pellock).water.celsius, only(pellock).water.how) == (8, "usual")
    assert "as usual in that month: not read then" in pages.text("soaking:variety", pellock.uid)
