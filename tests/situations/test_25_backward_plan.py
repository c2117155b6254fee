"""Basket day is Saturday at nine: when does each kind go in?"""

from datetime import UTC, datetime, timedelta

import pytest

from growers.beds import actions as beds
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.soaking import actions as soaking
from growers.soaking.queries import ready_by
from tests import ground

SATURDAY = datetime(2026, 10, 3, 9, tzinfo=UTC)
DAY = timedelta(days=1)


def slow_soak(hand, bundle, tank, went_in, days):
    """Nearly ready on the last morning but one, folded on the last."""
    batch = soaking.put_in(
        **hand, bundle=bundle, tank=tank, moment=Moment(went_in, went_in, ""), much=read_much("half")
    )
    soaking.check_bend(**hand, batch=batch, at=went_in + (days - 1) * DAY, result="nearly")
    soaking.check_bend(**hand, batch=batch, at=went_in + days * DAY, result="folds")
    soaking.lift(**hand, batch=batch, moment=Moment(went_in + days * DAY, went_in + days * DAY, ""))


def test_25_counted_back_from_saturday(hand):
    cut = ground.cut(hand, ground.planted(hand, variety="Grey Tansel"))
    [bundle] = ground.tied(hand, cut, label="6 ft")
    tank = soaking.add_tank(**hand, name="Long trough")
    slow_soak(hand, bundle, tank, datetime(2026, 8, 1, 9, tzinfo=UTC), 11)
    slow, quick = cut.planting.variety, beds.add_variety(**hand, name="Little Quill")
    four, five, six = (ground.length(hand, label) for label in ("4 ft", "5 ft", "6 ft"))
    starts = ready_by(
        SATURDAY,
        [(five, "buff", None, "buff"), (four, "brown", quick, "quick"), (six, "brown", slow, "slow")],
    )
    assert [each.name for each in starts] == ["slow", "quick", "buff"]
    slow, quick, buff = starts
    # 6 to 7 ft: 6 to 7 days by the rule; not ready after 10 days stretches 7 to 10. Then 1 to 2 days wrapped.
    assert (slow.soak_days, slow.own) == (pytest.approx((6, 10)), 1)
    assert abs(slow.put_in[0] - (SATURDAY - 12 * DAY)) < timedelta(seconds=1)
    assert slow.put_in[1] == SATURDAY - 7 * DAY
    # 4 to 5 ft, never soaked here: the rule alone.
    assert (quick.soak_days, quick.own) == ((4, 5), 0)
    assert quick.put_in == (SATURDAY - 7 * DAY, SATURDAY - 5 * DAY)
    assert quick.lift == (SATURDAY - 2 * DAY, SATURDAY - 1 * DAY)
    # Buff: half an hour to half a day, then a night: the day before, in any case after it began.
    assert SATURDAY - timedelta(hours=27) < buff.put_in[0] < buff.put_in[1] < SATURDAY


def test_25_on_the_page(pages, hand, clock):
    clock("2026-09-20 09:00")
    six = ground.length(hand, "6 ft")
    text = pages.text("soaking:ready_by", at="3 Oct 10:00", length_1=six.uid, type_1="brown")
    # 10:00 by the clock of the shed; 8 to 9 days before: in from the 24th, an hour of which no change of clocks adds.
    assert "Thu 24 Sep 2026" in text
    assert "Sat 26 Sep 2026" in text
    assert "the rule alone" in text


def test_25_nonsense_is_asked_about(pages, hand, clock):
    clock("2026-09-20 09:00")
    ground.length(hand)
    text = pages.text("soaking:ready_by", at="soon", length_1="")
    assert "soon" in text
    assert "Choose one" in text
