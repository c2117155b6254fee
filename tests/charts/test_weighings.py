import json
from datetime import date

import pandas as pd
import pytest

from growers.charts.weighings import weighings_figure

LABELS = {"mass": "The whole bundle, %(unit)s", "moisture": "Moisture, %", "limit": "dry enough"}


@pytest.fixture
def history():
    gap = float("nan")
    return pd.DataFrame(
        {
            "on": [date(2026, 1, 20), date(2026, 6, 1), date(2026, 6, 3), date(2026, 6, 22)],
            "whole_kg": [8.0, gap, 5.8, 5.6],
            "wet": [False, False, True, False],
            "moisture": [gap, 0.16, 0.16, 0.12],
            "moisture_low": [gap, 0.147, 0.147, 0.106],
            "moisture_high": [gap, 0.173, 0.173, 0.134],
        }
    )


def test_the_figure_shows_what_the_table_says(history):
    weight, upper, lower, moisture, limit = weighings_figure(history, "kg", 0.1617, LABELS).data
    assert list(weight.x) == ["2026-01-20", "2026-06-03", "2026-06-22"]
    assert list(weight.y) == [8.0, 5.8, 5.6]
    # Weighed wet: an open ring.
    assert list(weight.marker.symbol) == ["circle", "circle-open", "circle"]
    assert list(moisture.x) == ["2026-06-01", "2026-06-03", "2026-06-22"]
    assert list(moisture.y) == [16.0, 16.0, 12.0]
    assert (list(upper.y), list(lower.y)) == ([17.3, 17.3, 13.4], [14.7, 14.7, 10.6])
    assert lower.fill == "tonexty"
    assert (list(limit.x), list(limit.y)) == (["2026-01-20", "2026-06-22"], [16.2, 16.2])


def test_weights_in_the_readers_unit(history):
    figure = weighings_figure(history, "lb", 0.1617, LABELS)
    # 8 / 0.45359237.
    assert figure.data[0].y[0] == pytest.approx(17.637)
    assert figure.layout.yaxis.title.text == "The whole bundle, lb"


def test_over_a_few_days_the_axis_marks_days(history):
    few, whole = history.iloc[1:3], history
    assert weighings_figure(few, "kg", 0.1617, LABELS).layout.xaxis.range == ("2026-05-31", "2026-06-15")
    assert weighings_figure(whole, "kg", 0.1617, LABELS).layout.xaxis.range is None


def test_it_can_be_sent_as_plain_json(history):
    sent = json.loads(json.dumps(weighings_figure(history, "kg", 0.1617, LABELS).to_plotly_json()))
    assert sent["data"][3]["meta"] == "act"


def test_of_nothing_it_is_an_empty_figure(history):
    assert [len(trace.x) for trace in weighings_figure(history.iloc[:0], "kg", 0.1617, LABELS).data] == [0, 0, 0, 0, 0]
