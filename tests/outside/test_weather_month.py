"""A month of real weather, hour by hour: our columns at once against a second way, one hour at a time.

The weather is the typical year of Greensboro, North Carolina, in the TMY3 format of the US National Renewable
Energy Laboratory, as it ships inside the pvlib package. Temperatures are written to 0.1 °C, humidity to 1 %.
"""

import csv
import importlib.util
from datetime import datetime, timedelta
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest

from growers.science.moisture import DAMPEST, daily_equilibrium, equilibrium_moisture, mean_equilibrium
from growers.science.vapour import saturation_pressure
from tests.outside.second_ways import hailwood_horrobin, murphy_koop

COLDEST_TABLED = Decimal(-10) / 9  # 30 °F


@pytest.fixture(scope="module")
def year():
    """Rows of (start of the hour, °C, dew point °C, humidity as a fraction), all as text or exact."""
    package = Path(importlib.util.find_spec("pvlib").submodule_search_locations[0])
    with open(package / "data" / "723170TYA.CSV", encoding="utf-8") as file:
        next(file)
        return [
            (
                # TMY3 names an hour by its end, and writes the last one 24:00.
                datetime.strptime(row["Date (MM/DD/YYYY)"], "%m/%d/%Y")  # noqa: DTZ007 - local standard time
                + timedelta(hours=int(row["Time (HH:MM)"][:2]) - 1),
                Decimal(row["Dry-bulb (C)"]),
                Decimal(row["Dew-point (C)"]),
                Decimal(row["RHum (%)"]) / 100,
            )
            for row in csv.DictReader(file)
        ]


def month_of(year, month):
    return [row for row in year if row[0].month == month]


def columns(rows):
    at, temperature, dew_point, humidity = zip(*rows, strict=True)
    return at, *(np.array(column, dtype=float) for column in (temperature, dew_point, humidity))


def settled(temperature, humidity):
    return float(hailwood_horrobin(max(temperature, COLDEST_TABLED), min(humidity, Decimal(str(DAMPEST)))))


@pytest.mark.parametrize(("month", "hours"), [(1, 744), (4, 720), (9, 720)])
def test_equilibrium_of_every_hour(year, month, hours):
    rows = month_of(year, month)
    assert len(rows) == hours
    _, temperature, _, humidity = columns(rows)
    second = [settled(t, h) for _, t, _, h in rows]
    np.testing.assert_allclose(equilibrium_moisture(temperature, humidity), second, rtol=1e-12)


def test_january_holds_the_hard_cases(year):
    """So that the test above is known to reach frost and saturated air."""
    rows = month_of(year, 1)
    assert sum(t < COLDEST_TABLED for _, t, _, _ in rows) > 50
    assert sum(h == 1 for *_, h in rows) > 5


def test_humidity_a_second_way_from_the_dew_point(year):
    """Murphy and Koop's pressure at the dew point over that of the air, against the station's hygrometer.

    Rounding allows 0.5 points for the humidity and 0.6 % of it for two temperatures: 1.1 points. An hour in a
    hundred may be left out: the file fills gaps from elsewhere, and a few hours do not agree with themselves.
    """
    _, temperature, dew_point, humidity = columns(month_of(year, 9))
    second = np.array([murphy_koop(d) / murphy_koop(t) for t, d in zip(temperature, dew_point, strict=True)])
    assert np.quantile(np.abs(second - humidity), 0.99) <= 0.011
    ours = saturation_pressure(dew_point) / saturation_pressure(temperature)
    assert np.abs(ours - second).max() < 0.001
    # What wood makes of it: 0.05 points of moisture between the two roads over the month.
    first = mean_equilibrium(temperature, humidity)
    assert mean_equilibrium(temperature, np.minimum(second, 1)) == pytest.approx(first, abs=0.0005)


@pytest.mark.parametrize("month", [1, 4, 9])
def test_the_mean_of_every_day_against_a_plain_loop(year, month):
    """Pace here is by Murphy and Koop's pressure, within 0.4 % of ours, so a mean is within 0.01 points."""
    rows = month_of(year, month)
    at, temperature, _, humidity = columns(rows)
    pull, weight, count = {}, {}, {}
    for hour, t, _, h in rows:
        pace = (murphy_koop(float(t)) / murphy_koop(10.0)) ** 0.7
        day = hour.date()
        pull[day] = pull.get(day, 0.0) + pace * settled(t, h)
        weight[day] = weight.get(day, 0.0) + pace
        count[day] = count.get(day, 0) + 1
    days = daily_equilibrium(at, temperature, humidity)
    assert [day.date() for day in days.index] == list(pull)
    assert days["hours"].tolist() == list(count.values()) == [24] * len(pull)
    np.testing.assert_allclose(days["moisture"], [pull[day] / weight[day] for day in pull], atol=1e-4, rtol=0)
    np.testing.assert_allclose(days["pace"], [weight[day] / 24 for day in pull], rtol=0.004)


def test_the_mean_air_would_mislead(year):
    """Why hours are weighed one by one: the equation bends, and in this April that is about a point."""
    _, temperature, _, humidity = columns(month_of(year, 4))
    hourly = mean_equilibrium(temperature, humidity)
    assert 0.005 < hourly - equilibrium_moisture(temperature.mean(), humidity.mean()) < 0.015
