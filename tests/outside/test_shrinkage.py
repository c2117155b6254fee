"""Shrinking against published figures for black willow."""

import pytest

from growers.science.moisture import equilibrium_moisture
from growers.science.shrinkage import (
    FIBRE_SATURATION,
    GREEN_TO_OVEN_DRY,
    SHRINK_LIMIT,
    moisture_at_limit,
    shrinkage,
    shrinkage_to_come,
)
from tests.outside import published

WILLOW = {row["direction"]: row for row in published.rows("black_willow_shrinkage.csv")}


def test_the_whole_shrinking_is_black_willows_along_the_rings():
    assert pytest.approx(float(WILLOW["tangential"]["0"])) == 100 * GREEN_TO_OVEN_DRY
    assert shrinkage(0) == GREEN_TO_OVEN_DRY


def test_wood_keeps_its_size_above_fibre_saturation():
    assert pytest.approx(0.30) == FIBRE_SATURATION  # Wood Handbook, chapter 4: about 30 %
    assert shrinkage(0.30) == 0
    assert shrinkage(1.1) == 0


@pytest.mark.parametrize("direction", ["tangential", "radial", "volumetric"])
def test_the_straight_line_fits_the_boards_measured_at_6_and_20_per_cent(direction):
    """The line says (30 - 6) / (30 - 20) = 2.4 times as much at 6 % as at 20 %; figures printed to 0.1."""
    at_6, at_20 = (float(WILLOW[direction][moisture]) for moisture in ("6", "20"))
    lowest, highest = (at_6 - 0.05) / (at_20 + 0.05), (at_6 + 0.05) / (at_20 - 0.05)
    assert lowest <= shrinkage(0.06) / shrinkage(0.20) <= highest


def test_by_hand():
    # 8.7 % x (30 - 16) / 30 = 4.06 %
    assert shrinkage(0.16) == pytest.approx(0.0406)
    # From 16 % to 9.271 % is 8.7 % x 6.729 / 30 = 1.951 %: just within the usual limit.
    room = equilibrium_moisture(20, 0.5)
    assert shrinkage_to_come(0.16, room) == pytest.approx(0.01951, abs=5e-6)
    # 9.271 % + 2 % x 30 / 8.7 = 16.168 %
    assert moisture_at_limit(SHRINK_LIMIT, room) == pytest.approx(0.16168, abs=5e-6)
