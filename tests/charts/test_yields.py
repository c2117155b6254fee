import json

import pandas as pd
import pytest

from growers.charts.yields import yields_figure

LABELS = {"bundles": "Bundles tied", "mass": "Came off green, %(unit)s"}


@pytest.fixture
def winters():
    return pd.DataFrame({"winter": ["2024/25", "2025/26"], "bundles": [9, 13], "kg": [float("nan"), 143.0]})


def test_the_bars_show_what_the_table_says(winters):
    bundles, weight = yields_figure(winters, "kg", LABELS).data
    assert list(bundles.x) == ["2024/25", "2025/26"]
    assert list(bundles.y) == [9, 13]
    # The first winter was not weighed: no bar, and no bar of nothing.
    assert list(weight.y) == [None, 143.0]


def test_weights_in_the_readers_unit(winters):
    figure = yields_figure(winters, "lb", LABELS)
    # 143 / 0.45359237 = 315.26.
    assert figure.data[1].y[1] == pytest.approx(315.3)
    assert figure.layout.yaxis2.title.text == "Came off green, lb"


def test_it_can_be_sent_as_plain_json(winters):
    sent = json.loads(json.dumps(yields_figure(winters, "kg", LABELS).to_plotly_json()))
    assert [trace["meta"] for trace in sent["data"]] == ["ink", "act"]


def test_where_nothing_was_weighed_the_bundles_stand_alone(winters):
    figure = yields_figure(winters.assign(kg=float("nan")), "kg", LABELS)
    assert [list(trace.y) for trace in figure.data] == [[9, 13]]
    assert figure.layout.xaxis.anchor == "y"
