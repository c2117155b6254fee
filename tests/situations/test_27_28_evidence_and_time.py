"""Situations 27 and 28: thin evidence is said to be thin; a record typed late, the clocks, and two people."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from growers.soaking import queries
from growers.soaking.models import BendCheck
from tests.pages import Pages

LONDON = ZoneInfo("Europe/London")


# 27. Thin evidence


def test_27_two_soaks_are_said_to_be_too_few_and_give_no_average(pages, put_in, check, pellock):
    check(put_in("a third"), "folds", "2026-03-07 07:00")
    check(put_in("a third"), "folds", "2026-03-10 07:00")
    text = pages.text("soaking:variety", pellock.uid)
    assert "Only 2 soaks say anything: too few to go by. The rule stands until there are more." in text
    # 5 and 8 days stand as they were; their mean of 6.5 nowhere, nor in hours.
    assert "– 5 d folds in the tank" in text
    assert "– 8 d folds in the tank" in text
    assert "6.5" not in text
    assert "6 d 12 h" not in text


def test_27_three_are_not_called_thin(pages, put_in, check, pellock):
    for day in ("07", "08", "09"):
        check(put_in("20 rods"), "folds", f"2026-03-{day} 07:00")
    text = pages.text("soaking:variety", pellock.uid)
    assert "too few to go by" not in text
    assert "3 first soaks say something" in text
    assert "5 to 6 days" in text  # the rule beside


# 28. Typed late, the clocks, and two people


def test_28_a_check_made_at_seven_and_typed_at_nine_in_the_evening(pages, batch, pellock, clock, holding):
    clock("2026-03-07 21:00")
    pages.keep("soaking:check", batch.uid, result="folds", at="7:00")
    made = BendCheck.objects.of(holding).get()
    assert made.at == datetime(2026, 3, 7, 7, tzinfo=UTC)
    [bound] = queries.bounds_for(pellock, "brown").soaks
    assert bound.upper_days == pytest.approx(5)  # from the 2nd at 7:00, not to when it was typed


@pytest.mark.parametrize(("hours", "late"), [(0.5, False), (14, True), (24 * 200, False)])
def test_28_what_was_typed_the_same_evening_says_so(batch, check, hours, late):
    made = check(batch, "folds", "2026-03-07 07:00")
    made.created_at = made.at + timedelta(hours=hours)
    assert made.written_late is late


@pytest.mark.parametrize(
    ("went_in", "looked", "hours"),
    [
        # Noon to noon over the night of 29 March 2026, when one o'clock became two; and of 25 October, when two
        # became one.
        ((2026, 3, 28, 12), (2026, 3, 29, 12), 23),
        ((2026, 10, 24, 12), (2026, 10, 25, 12), 25),
    ],
)
def test_28_the_clocks_add_no_hour_and_take_none(pages, bundle, tank, pellock, clock, holding, went_in, looked, hours):
    first, second = (datetime(*each, tzinfo=LONDON).astimezone(UTC) for each in (went_in, looked))
    clock(f"{first:%Y-%m-%d %H:%M}")
    pages.keep("soaking:put_in", bundle.uid, much="half", tank=tank.uid, moment="12:00", all_under="on")
    clock(f"{second:%Y-%m-%d %H:%M}")
    [made] = queries.in_water(holding, second)
    pages.keep("soaking:check", made.batch.uid, result="folds", at="12:00")
    assert made.hours == pytest.approx(hours)
    [bound] = queries.bounds_for(pellock, "brown").soaks
    assert bound.upper_hours == pytest.approx(hours)


def test_28_the_same_check_by_two_is_asked_about_and_not_doubled(pages, batch, tam, client, holding, clock):
    clock("2026-03-07 21:00")
    pages.keep("soaking:check", batch.uid, result="nearly", at="7:00")
    his = Pages(type(client)(), holding.slug)
    his.client.force_login(tam)
    said = {"result": "nearly", "at": "7:15"}
    answer = his.send("soaking:check", batch.uid, **said)
    assert answer.status_code == 422
    assert "wren wrote “nearly” at 7:00. Is this another look?" in answer.content.decode()
    assert BendCheck.objects.of(holding).count() == 1
    # If it was another look, one tap keeps it.
    his.keep("soaking:check", batch.uid, **said, sure=answer.context["form"].sure)
    assert BendCheck.objects.of(holding).count() == 2


def test_28_in_some_time_on_tuesday_is_kept_as_a_range(pages, bundle, tank, pellock, clock, holding):
    clock("2026-03-09 12:00")  # a Monday
    pages.keep(
        "soaking:whole_soak",
        bundle.uid,
        much="half",
        tank=tank.uid,
        went_in="about Tuesday",
        came_out="Sunday 8:00",
        result="right",
        all_under="on",
    )
    [bound] = queries.bounds_for(pellock, "brown").soaks
    made = bound.batch
    assert (made.in_at, made.in_until_at) == (datetime(2026, 3, 3, tzinfo=UTC), datetime(2026, 3, 4, tzinfo=UTC))
    # Ready at most from the first minute of Tuesday the 3rd to Sunday the 8th at 8:00: five days and eight hours.
    assert bound.upper_hours == pytest.approx(128)
    assert bound.lower_days is None
