from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from growers.soaking import rules


def at(text, zone=UTC):
    return datetime.fromisoformat(text).replace(tzinfo=zone)


def test_a_change_of_the_clocks_adds_no_hour():
    london = ZoneInfo("Europe/London")
    # On 29 March 2026 the clocks went forward at 1:00: noon to noon on the wall is 23 hours.
    assert rules.elapsed(at("2026-03-28 12:00", london), at("2026-03-29 12:00", london)) == timedelta(hours=23)
    # On 25 October they go back: 25 hours.
    assert rules.days(at("2026-10-24 12:00", london), at("2026-10-25 12:00", london)) == pytest.approx(25 / 24)


def test_the_rule_is_a_day_for_each_foot_of_the_length_class():
    assert rules.rule_days("brown", 1.524, 1.8288) == pytest.approx((5, 6))  # 5 ft to 6 ft
    assert rules.rule_days("brown", 2.7432, None) == pytest.approx((9, 9))  # 9 ft and more
    assert rules.rule_days("steamed", 1.524, 1.8288) == pytest.approx((2.5, 6))
    assert rules.rule_days("white", 1.524, 1.8288) == pytest.approx((0.5 / 24, 0.5))


def test_the_first_look_is_a_day_before_the_rule():
    assert rules.first_look_days("brown", (5, 6)) == 4
    # Of rods under 2 ft, half the rule: a day before it would be at once.
    assert rules.first_look_days("brown", (1, 2)) == 0.5


def test_one_reading_speaks_for_a_whole_soak():
    reading = (at("2026-03-01 07:00"), 8.0, 5.0, 11.0)
    water = rules.mean_over([reading], at("2026-03-02 07:00"), at("2026-03-07 07:00"))
    assert (water.celsius, water.low_c, water.high_c, water.readings) == (8, 5, 11, 1)


def test_each_reading_speaks_for_the_time_nearest_to_it():
    # In from day 2 to day 6. Readings on day 2 (6 °C) and day 8 (12 °C): their edge is day 5.
    # Three days at 6 and one at 12: (3·6 + 1·12) / 4 = 7.5.
    readings = [(at("2026-03-02"), 6.0, 6.0, 6.0), (at("2026-03-08"), 12.0, 10.0, 14.0)]
    water = rules.mean_over(readings, at("2026-03-02"), at("2026-03-06"))
    assert water.celsius == pytest.approx(7.5)
    assert water.low_c == pytest.approx(7.0)  # (3·6 + 10) / 4
    assert water.high_c == pytest.approx(8.0)  # (3·6 + 14) / 4


def test_a_reading_three_weeks_off_says_nothing():
    reading = (at("2026-02-01"), 4.0, 4.0, 4.0)
    assert rules.mean_over([reading], at("2026-03-02"), at("2026-03-06")) is None


def test_readings_long_before_the_last_near_one_do_not_count():
    readings = [(at("2026-02-28"), 5.0, 5.0, 5.0), (at("2026-03-01"), 9.0, 9.0, 9.0)]
    water = rules.mean_over(readings, at("2026-03-02"), at("2026-03-06"))
    assert (water.celsius, water.readings) == (9, 1)


def test_a_moment_is_as_warm_as_the_nearest_reading():
    readings = [(at("2026-03-01"), 5.0, 5.0, 5.0), (at("2026-03-06"), 9.0, 9.0, 9.0)]
    assert rules.mean_over(readings, at("2026-03-02"), at("2026-03-02")).celsius == 5


def test_the_oldest_rods_still_there_if_the_older_are_used_first():
    lifts = [("first", 300), ("second", 400), ("third", 300)]
    assert rules.oldest_still_there(lifts, 1000) == "first"
    assert rules.oldest_still_there(lifts, 700) == "second"
    assert rules.oldest_still_there(lifts, 301) == "second"
    assert rules.oldest_still_there(lifts, 300) == "third"
    assert rules.oldest_still_there(lifts, 0) is None
