import datetime as dt
from zoneinfo import ZoneInfo

import pytest

from growers.furniture.moments import Moment, read_moment, write_moment
from growers.furniture.refusals import Refusal

LONDON = ZoneInfo("Europe/London")
NOW = dt.datetime(2026, 11, 24, 9, 30, tzinfo=LONDON)  # a Tuesday


def read(text, now=NOW, zone=LONDON, **kwargs):
    return read_moment(text, zone=zone, now=now, **kwargs)


def written(instant):
    return instant.strftime("%Y-%m-%d %H:%M")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("now", "2026-11-24 09:30"),
        ("7:10", "2026-11-24 07:10"),
        ("7.10", "2026-11-24 07:10"),
        ("0710", "2026-11-24 07:10"),
        ("710", "2026-11-24 07:10"),
        ("7", "2026-11-24 07:00"),
        ("at 7", "2026-11-24 07:00"),
        ("7h10", "2026-11-24 07:10"),
        ("7 am", "2026-11-24 07:00"),
        ("7.10am", "2026-11-24 07:10"),
        ("yesterday 7:10", "2026-11-23 07:10"),
        ("7:10 yesterday", "2026-11-23 07:10"),
        ("yesterday at 7.10", "2026-11-23 07:10"),
        ("yesterday 0710", "2026-11-23 07:10"),
        ("yesterday 7pm", "2026-11-23 19:00"),
        ("yesterday 12 pm", "2026-11-23 12:00"),
        ("yesterday 12 am", "2026-11-23 00:00"),
        ("noon yesterday", "2026-11-23 12:00"),
        ("monday 19:05", "2026-11-23 19:05"),
        ("28 Dec 7:10", "2025-12-28 07:10"),
        ("28.12. 7.10", "2025-12-28 07:10"),
        ("28/12/25 7:10", "2025-12-28 07:10"),
        ("2026-11-23T19:05", "2026-11-23 19:05"),
        ("2026-11-23 19:05:59", "2026-11-23 19:05"),
        ("half an hour ago", "2026-11-24 09:00"),
        ("20 min ago", "2026-11-24 09:10"),
        ("2 hours ago", "2026-11-24 07:30"),
    ],
)
def test_exact_moments(typed, meant):
    moment = read(typed)
    assert moment.exact
    assert written(moment.at) == meant
    assert moment.text == typed


@pytest.mark.parametrize(
    ("typed", "at", "until"),
    [
        # A range never runs past now.
        ("this morning", "2026-11-24 06:00", "2026-11-24 09:30"),
        ("today", "2026-11-24 00:00", "2026-11-24 09:30"),
        ("yesterday", "2026-11-23 00:00", "2026-11-24 00:00"),
        ("yesterday morning", "2026-11-23 06:00", "2026-11-23 12:00"),
        ("monday evening", "2026-11-23 18:00", "2026-11-24 00:00"),
        ("last night", "2026-11-23 18:00", "2026-11-24 06:00"),
        ("about Sunday", "2026-11-22 00:00", "2026-11-23 00:00"),
        ("28 Dec 2025", "2025-12-28 00:00", "2025-12-29 00:00"),
        ("about 7:10", "2026-11-24 06:40", "2026-11-24 07:40"),
        ("about 7", "2026-11-24 06:30", "2026-11-24 07:30"),
        ("around 9.20", "2026-11-24 08:50", "2026-11-24 09:30"),
        ("between 7:00 and 8:30", "2026-11-24 07:00", "2026-11-24 08:30"),
        ("yesterday 22:00-2:00", "2026-11-23 22:00", "2026-11-24 02:00"),
    ],
)
def test_what_is_known_only_roughly_is_kept_as_a_range(typed, at, until):
    moment = read(typed)
    assert (written(moment.at), written(moment.until)) == (at, until)
    assert not moment.exact


def test_this_morning_said_before_six():
    early = NOW.replace(hour=5, minute=30)
    moment = read("this morning", now=early)
    assert (moment.at.hour, moment.until) == (0, early)


@pytest.mark.parametrize("typed", ["10:10", "7pm", "tomorrow 7:10", "this evening", "28 Nov 2026 7:10"])
def test_what_has_not_come_is_refused(typed):
    with pytest.raises(Refusal, match="has not come yet"):
        read(typed)


def test_a_clock_a_minute_fast_is_no_reason_to_refuse():
    assert read("9:31").at == NOW


def test_the_future_where_it_is_asked_for():
    moment = read("Saturday 10:00", future=True)
    assert written(moment.at) == "2026-11-28 10:00"


@pytest.mark.parametrize("typed", ["25:10", "7:70", "13 pm"])
def test_no_such_time_of_day(typed):
    with pytest.raises(Refusal, match="no such time of day"):
        read(typed)


@pytest.mark.parametrize("typed", ["", "bah", "sometime", "7:10 bah"])
def test_what_is_no_moment_is_refused_with_how_to_write_one(typed):
    with pytest.raises(Refusal, match="Write"):
        read(typed)


def test_a_time_that_the_clocks_leapt_over_is_refused():
    # In London the clocks went from 1:00 to 2:00 on Sunday 29 March 2026.
    with pytest.raises(Refusal, match=r"1:30 did not happen on Sun 29 Mar 2026.*Write 2:30"):
        read("29 Mar 1:30")


def test_of_an_hour_that_came_twice_the_first_is_taken():
    # On Sunday 25 October 2026 1:30 came at 0:30 and again at 1:30 UTC.
    assert read("25 Oct 1:30").at.astimezone(dt.UTC) == dt.datetime(2026, 10, 25, 0, 30, tzinfo=dt.UTC)


def test_hours_ago_are_hours_by_the_sun_not_by_the_clock():
    # 3:30 on the day of the leap is 2:30 UTC; three hours before it was 23:30 UTC, by the clock 23:30 the day before.
    after = dt.datetime(2026, 3, 29, 3, 30, tzinfo=LONDON)
    assert read("3 hours ago", now=after).at.astimezone(dt.UTC) == dt.datetime(2026, 3, 28, 23, 30, tzinfo=dt.UTC)


def test_a_day_of_the_holdings_zone_not_of_the_servers():
    auckland = ZoneInfo("Pacific/Auckland")
    now = dt.datetime(2026, 7, 14, 20, 0, tzinfo=dt.UTC)  # already 8:00 on the 15th there
    assert read("7:10", now=now, zone=auckland).at == dt.datetime(2026, 7, 15, 7, 10, tzinfo=auckland)


def test_a_day_on_which_the_clocks_change_has_its_own_length():
    moment = read("29 Mar")
    # 23 hours from midnight to midnight, reckoned in UTC.
    assert moment.until.astimezone(dt.UTC) - moment.at.astimezone(dt.UTC) == dt.timedelta(hours=23)


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("7:10", "Tue 24 Nov 2026, 7:10"),
        ("yesterday", "some time on Mon 23 Nov 2026"),
        ("this morning", "Tue 24 Nov 2026, between 6:00 and 9:30"),
        ("yesterday evening", "Mon 23 Nov 2026, between 18:00 and 24:00"),
        ("last night", "between Mon 23 Nov 2026, 18:00 and Tue 24 Nov 2026, 6:00"),
    ],
)
def test_written_back(typed, shown):
    assert write_moment(read(typed), LONDON) == shown


def test_an_instant_is_written_in_the_holdings_zone():
    assert write_moment(dt.datetime(2026, 7, 1, 6, 10, tzinfo=dt.UTC), LONDON) == "Wed 1 Jul 2026, 7:10"


def test_middle_of_a_range():
    moment = Moment(NOW, NOW + dt.timedelta(hours=2), "")
    assert moment.middle == NOW + dt.timedelta(hours=1)
