import pytest

from growers.bundles.models import Adjustment, Bundle
from growers.exchange.queries import doctor
from growers.science.units import read_mass
from growers.stock import actions as stock
from growers.stock.queries import what_is_left
from growers.trace.fates import fates_of
from growers.trace.flow import EACH, flow_of, line_of, roots_of
from tests import ground


def test_21_store_loss(hand, holding, pages, day, clock):
    """100 kg in March, semi-dry; 63 kg in July, nothing sold: that is drying, with its day, and nothing missing."""
    clock("2026-07-10 12:00")
    this = ground.cut(hand, ground.planted(hand))
    for bundle in ground.tied(hand, this, how_many=10, on=day("2026-03-01"), mass=read_mass("10 kg")):
        stock.count(**hand, bundle=bundle, on=day("2026-07-10"), why="dried", mass=read_mass("6.3 kg"))
    bundles = list(Bundle.objects.of(holding).select_related("length_class", "holding"))
    assert not Adjustment.objects.of(holding).exists()
    assert sum(what_is_left(bundle, day("2026-07-10")).kg for bundle in bundles) == pytest.approx(63)
    assert [bundle.left for bundle in bundles] == [1.0] * 10
    ends, _ways = fates_of(holding)
    whole = line_of(flow_of(roots_of(holding, "2025/26"), ends), EACH)
    # All ten are still there, and weighed 100 kg as tied.
    assert [(cell.label, cell.worth, cell.kg) for cell in whole.cells if cell.worth] == [
        ("still in the shed", "10", pytest.approx(100))
    ]
    text = pages.text("trace:bundle", bundles[0].uid)
    assert "Tied: graded from a cut, 10 kg" in text
    assert "Counted: 6.3 kg left; air-dried further" in text
    assert doctor(holding) == []
