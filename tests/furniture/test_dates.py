import datetime as dt

import pytest
from django.utils.translation import override

from growers.furniture.dates import read_day, write_day
from growers.furniture.refusals import Refusal

TODAY = dt.date(2026, 11, 24)  # a Tuesday


def read(text, **kwargs):
    return read_day(text, today=TODAY, **kwargs)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("today", "2026-11-24"),
        (" Today. ", "2026-11-24"),
        ("now", "2026-11-24"),
        ("yesterday", "2026-11-23"),
        ("the day before yesterday", "2026-11-22"),
        ("3 days ago", "2026-11-21"),
        ("a week ago", "2026-11-17"),
        ("two weeks ago", "2026-11-10"),
        # The latest such day not after today: today is a Tuesday.
        ("Tuesday", "2026-11-24"),
        ("last tuesday", "2026-11-17"),
        ("wed", "2026-11-18"),
        ("on Monday", "2026-11-23"),
        # Without a year, the latest not after today.
        ("28 Dec", "2025-12-28"),
        ("24 Nov", "2026-11-24"),
        ("25 nov", "2025-11-25"),
        ("28th of December", "2025-12-28"),
        ("Dec 28", "2025-12-28"),
        ("28dec", "2025-12-28"),
        ("dec28", "2025-12-28"),
        ("28 December 2025", "2025-12-28"),
        ("sept 3, 2024", "2024-09-03"),
        ("28 Dec '25", "2025-12-28"),
        ("28/12/2025", "2025-12-28"),
        ("28.12.25", "2025-12-28"),
        ("28-12-25", "2025-12-28"),
        ("28.12.", "2025-12-28"),
        ("4/1/26", "2026-01-04"),
        ("12-28", "2025-12-28"),
        ("2025-12-28", "2025-12-28"),
        ("２８/１２/２０２５", "2025-12-28"),
        ("14/3/97", "1997-03-14"),
        ("the 3rd", "2026-11-03"),
        ("28", "2026-10-28"),
        # No 31st in November, and today's is not yet: October's.
        ("31st", "2026-10-31"),
        # 2024 was the last leap year.
        ("29 Feb", "2024-02-29"),
        ("Tue 24 Nov 2026", "2026-11-24"),
    ],
)
def test_days_as_people_write_them(typed, meant):
    assert read(typed).isoformat() == meant


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("tomorrow", "2026-11-25"),
        ("Saturday", "2026-11-28"),
        ("tuesday", "2026-11-24"),
        ("next tuesday", "2026-12-01"),
        ("28 Dec", "2026-12-28"),
        ("3 Feb", "2027-02-03"),
        ("the 3rd", "2026-12-03"),
        ("yesterday", "2026-11-23"),
        ("last friday", "2026-11-20"),
    ],
)
def test_where_the_future_is_allowed_days_lean_forward(typed, meant):
    assert read(typed, future=True).isoformat() == meant


@pytest.mark.parametrize(
    "typed", ["", "  ", "bah", "soon", "28 Dec Jan", "1/2/3/4", "28 28 Dec", "12:30", "28 Dec 25 9", "0", "99"]
)
def test_what_is_no_day_is_refused_with_how_to_write_one(typed):
    with pytest.raises(Refusal, match="28/12/2025"):
        read(typed)


@pytest.mark.parametrize("typed", ["28 Nov 2026", "Sat 28 Nov 2026", "28/11/2026", "tomorrow", "next monday"])
def test_the_future_is_refused_naming_the_day(typed):
    with pytest.raises(Refusal, match=r"2026 has not come yet\."):
        read(typed)


def test_refusals_say_what_is_wrong():
    with pytest.raises(Refusal, match="no such day as 31/2/2026"):
        read("31/2/26")
    with pytest.raises(Refusal, match="23 Nov 2026 is a Monday"):
        read("Tue 23 Nov 2026")
    with pytest.raises(Refusal, match="too long ago"):
        read("28/12/1802")
    with pytest.raises(Refusal, match="too long ago"):
        read("999999999 days ago")


def test_american_readers_write_the_month_first():
    with override("en-us"):
        assert read("4/1/26") == dt.date(2026, 4, 1)
        assert read("28/12/25") == dt.date(2025, 12, 28)
    assert read("4/1/26") == dt.date(2026, 1, 4)


def test_months_and_weekdays_of_the_readers_language():
    with override("de"):
        assert read("28. Dezember 2025") == dt.date(2025, 12, 28)
        assert read("Montag") == dt.date(2026, 11, 23)
        assert read("3 Okt") == dt.date(2026, 10, 3)


def test_every_written_day_is_read_back():
    for days in range(0, 800, 7):
        day = TODAY - dt.timedelta(days=days)
        assert read(write_day(day)) == day


def test_written_with_weekday():
    assert write_day(TODAY) == "Tue 24 Nov 2026"
