"""Moisture against published tables and standards, and against a second derivation."""

from decimal import Decimal

import numpy as np
import pytest

from growers.science.moisture import (
    equilibrium_moisture,
    moisture_dry_basis,
    saturation_pressure,
    wet_from_dry_basis,
)
from tests.outside import published
from tests.outside.second_ways import hailwood_horrobin

CELLS = [
    (float(row["fahrenheit"]), int(humidity), float(percent))
    for row in published.rows("equilibrium_moisture.csv")
    for humidity, percent in row.items()
    if humidity != "fahrenheit"
]


def test_the_pin():
    # FPL-RN-0268's equation at 20 °C and 50 %, worked with full figures: 9.271141 % to 1e-6 of a point.
    assert 100 * equilibrium_moisture(20, 0.5) == pytest.approx(9.271141, abs=1e-6)


def test_the_whole_of_the_wood_handbooks_table():
    # Printed to 0.1: half of that, and 0.01 for the table's own smoothing.
    assert len(CELLS) == 12 * 19
    f, h, percent = np.array(CELLS).T
    ours = 100 * equilibrium_moisture((f - 32) / 1.8, h / 100)
    assert np.abs(ours - percent).max() <= 0.06


@pytest.mark.parametrize("humidity", [5, 35, 65, 95])
@pytest.mark.parametrize("temperature", [0, 12.5, 41])
def test_against_the_balance_of_hydrates_that_the_equation_was_derived_from(temperature, humidity):
    second = hailwood_horrobin(Decimal(str(temperature)), Decimal(humidity) / 100)
    assert equilibrium_moisture(temperature, humidity / 100) == pytest.approx(float(second), rel=1e-12)


def test_saturation_pressure_against_the_table():
    # Alduchov and Eskridge claim 0.4 % from -40 to 50 °C.
    for row in published.rows("vapour_pressure.csv"):
        pascal = 1000 * float(row["kilopascal"])
        assert saturation_pressure(float(row["celsius"])) == pytest.approx(pascal, rel=0.004)


def test_oven_drying_as_the_standards_reckon_it():
    # EN 13183-1: 100 (m1 - m0) / m0. A green rod of 21.4 g that dries to 10.7 g holds its own mass in water.
    assert moisture_dry_basis(21.4, 10.7) == pytest.approx(1.0)
    assert moisture_dry_basis(12.43, 11.0) == pytest.approx(0.13)  # 1.43 / 11
    # ISO 18134: water over the mass as received, so 1.43 / 12.43.
    assert wet_from_dry_basis(0.13) == pytest.approx(1.43 / 12.43)


def test_drying_loses_about_half_the_weight():
    # Common practice, no source: green at about 1.0 to shed-dry at about 0.16 leaves 1.16/2 = 58 %.
    assert 0.4 < 1 - (1 + equilibrium_moisture(10, 0.75)) / (1 + 1.0) < 0.5


def test_every_table_says_where_it_is_from():
    for table in published.FOLDER.glob("*.csv"):
        assert any("Source" in line for line in published.header(table.name)), table.name
