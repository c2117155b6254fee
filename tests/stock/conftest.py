import pytest

from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.harvest import actions as harvest
from growers.science import units


@pytest.fixture
def five_foot(hand):
    return harvest.add_length(**hand, label="5 ft", min_m=1.524, max_m=1.8288)


@pytest.fixture
def four_foot(hand):
    return harvest.add_length(**hand, label="4 ft", min_m=1.2192, max_m=1.524)


@pytest.fixture
def cut(hand, day):
    bed = beds.add_bed(**hand, name="Beck Side")
    planting = beds.plant(**hand, bed=bed, new_variety="Pellock", planted_year=2020)
    return harvest.cut(**hand, planting=planting, on=day("2025-12-28")).cut


@pytest.fixture
def other_cut(hand, day):
    bed = beds.add_bed(**hand, name="Top Carr")
    planting = beds.plant(**hand, bed=bed, new_variety="Merrow Red", planted_year=2020)
    return harvest.cut(**hand, planting=planting, on=day("2025-12-30")).cut


@pytest.fixture
def tie(hand, cut, five_foot, day):
    """Tie one bundle of a cut: tie(mass="6.1 kg", rods=100)."""

    def tie(*, cut=cut, on="2026-01-10", length_class=five_foot, mass=None, **more):
        mass = units.read_mass(mass) if mass else None
        return bundles.tie(**hand, cut=cut, on=day(on), length_class=length_class, mass=mass, **more)[0]

    return tie


@pytest.fixture
def bundle(tie):
    """6.1 kg of a hundred rods, tied 10 January 2026."""
    return tie(mass="6.1 kg", rods=100)
