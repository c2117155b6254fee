from datetime import UTC, datetime, timedelta
from io import BytesIO

import pytest

from growers.drying import actions
from growers.drying.models import AirReading
from growers.drying.queries import store_now
from growers.furniture.refusals import Refusal
from growers.people.actions import put_back, strike_out
from tests.drying.conftest import day, instant

HEAD = "datetime,temp_c,rh_pct\n"
NOW = instant("2026-06-22 12:00")


@pytest.fixture
def read(book):
    def read(text, place=None):
        file = BytesIO(text if isinstance(text, bytes) else text.encode())
        file.name = "long-shed.csv"
        return actions.read_air_file(**book.hand, place=place or book.shed, file=file, now=NOW)

    return read


def refusal(read, text):
    with pytest.raises(Refusal) as refused:
        read(text)
    assert refused.value.field == "file"
    return refused.value.sentence


def readings(book):
    return AirReading.objects.of(book.hand["holding"]).order_by("at")


def hours(n, first="2026-05-01 00:00", row="{at},20,50\n"):
    start = datetime.fromisoformat(first)
    return HEAD + "".join(row.format(at=start + timedelta(hours=i)) for i in range(n))


def test_rows_are_kept_in_the_holdings_own_time(book, read):
    file = read(HEAD + "2026-01-31 14:00,4.5,87\n2026-06-01 14:00,15,60.5\n\n")
    assert (file.kept, file.skipped, file.name) == (2, 0, "long-shed.csv")
    winter, summer = readings(book)
    # London keeps GMT in January and an hour more in June.
    assert (winter.at, summer.at) == (instant("2026-01-31 14:00"), instant("2026-06-01 13:00"))
    assert (winter.temperature_c, winter.humidity, winter.how) == (4.5, pytest.approx(0.87), "logger")


def test_a_time_with_its_offset_is_taken_at_its_word(book, read):
    read(HEAD + "2026-06-01T14:00:00+02:00,15,60\n2026-06-01T14:00:00Z,15,60\n")
    assert [row.at for row in readings(book)] == [instant("2026-06-01 12:00"), instant("2026-06-01 14:00")]


def test_the_hour_that_the_clocks_leap_over_is_the_next_one(book, read):
    # 29 March 2026: from 01:00 GMT straight to 02:00 summer time.
    file = read(HEAD + "2026-03-29 00:30,5,80\n2026-03-29 01:30,5,80\n2026-03-29 02:30,5,80\n")
    assert file.kept == 3
    assert [row.at.hour for row in readings(book)] == [0, 1, 1]


def test_the_same_moment_is_skipped_not_doubled(book, read):
    read(hours(5))
    file = read(hours(8))
    assert (file.kept, file.skipped) == (3, 5)
    assert readings(book).count() == 8
    with pytest.raises(Refusal, match="in the book already"):
        read(hours(8))


def test_evidence_is_raised_once(book, read):
    read(hours(48))
    book.hand["holding"].refresh_from_db()
    assert book.hand["holding"].evidence_no == 1


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "first line must be datetime,temp_c,rh_pct"),
        (HEAD, "no readings in that file"),
        ("datetime,temp_f,rh_pct\n2026-01-31 14:00,40,87\n", "°F have to be turned into °C"),
        ("when,temp,rh\n", "it is “when,temp,rh”"),
        (HEAD + "2026-01-31 14:00,4.5,87\n2026-01-31 15:00,4.5\n", "Line 3, “2026-01-31 15:00,4.5”: three values"),
        (HEAD + "2026-01-31 14:00,4.5,87\n\n31/01/2026 15:00,4.5,88\n", "Line 4, “31/01/2026 15:00”: a time is wanted"),
        (HEAD + "2026-02-30 14:00,4.5,87\n", "Line 2, “2026-02-30 14:00”: a time is wanted"),
        (HEAD + "2026-01-31 14:00,,87\n", "Line 2, “”: a number is wanted"),
        (HEAD + "2026-01-31 14:00,4.5,nan\n", "Line 2, “nan”: a number is wanted"),
        (HEAD + "2026-01-31 14:00,4.5,104\n", "Line 2, “104”: air holds no more than 100 %"),
        (HEAD + "2026-01-31 14:00,4.5,0\n", "no air is as dry as that"),
        (HEAD + "2026-01-31 14:00,68,55\n", "Are these °F?"),
        (HEAD + "2026-01-31 14:00,40,55\n2026-01-31 15:00,41,55\n2026-01-31 16:00,30,55\n", "Are they °F?"),
        (HEAD + "2026-01-31 14:00,4,0.85\n2026-01-31 15:00,4,0.9\n", "per cent: 85, not 0.85"),
        (HEAD + "2026-06-22 14:00,15,60\n", "Line 2 has not come yet"),
        (b"\xff\xfe\x00d", "not a text file"),
    ],
)
def test_what_is_wrong_is_named_and_nothing_kept(book, read, text, sentence):
    assert sentence in refusal(read, text)
    assert not readings(book).exists()


def test_the_air_of_a_week_of_a_logger(book, read):
    read(hours(24 * 6))
    assert store_now(book.shed, day("2026-05-10")) is None
    read(hours(24 * 7))
    store = store_now(book.shed, day("2026-05-10"))
    assert (store.how, store.days, store.last_on) == ("logger", 7, day("2026-05-07"))
    # All hours alike: 20 °C and 50 %.
    assert store.moisture == pytest.approx(0.09271141, abs=1e-7)


def test_warm_hours_count_for_more(book, read):
    # Half the hours at 20 °C and 50 %, half at 0 °C and 85 %: 0.0927 and about 0.185, weighed by the paces of drying,
    # (2339 / 1228)^0.7 = 1.570 and (611 / 1228)^0.7 = 0.613: nearer the dry hours than their plain middle, 0.139.
    head, *rows = hours(24 * 8).splitlines()
    read("\n".join([head, *(r if n % 2 else r.replace("20,50", "0,85") for n, r in enumerate(rows))]))
    assert store_now(book.shed, day("2026-05-10")).moisture == pytest.approx(
        (1.570 * 0.0927 + 0.613 * 0.185) / 2.183, abs=0.001
    )


def test_a_file_is_taken_back_whole(book, read, wren):
    at = datetime(2026, 6, 22, 13, tzinfo=UTC)
    first = read(hours(5))
    strike_out(record=readings(book)[0], by=wren, reason="door open", at=at)
    file = read(hours(8, "2026-05-01 05:00"))
    strike_out(record=first, by=wren, reason="other shed", at=at)
    assert readings(book).count() == 8
    read(hours(2))
    put_back(record=first, by=wren)
    # Of its five, one had been struck out by itself and one has been read again since.
    assert readings(book).count() == 8 + 2 + 3
    strike_out(record=file, by=wren, reason="other shed", at=at)
    assert readings(book).count() == 5
    book.hand["holding"].refresh_from_db()
    assert book.hand["holding"].evidence_no == 7
