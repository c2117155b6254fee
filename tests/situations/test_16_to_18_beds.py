"""Beds that are not alike every winter: what is cut from them stays told rightly."""

from datetime import date

import pytest

from growers.beds import actions as beds
from growers.bundles.queries import ancestry_of
from growers.harvest import actions as harvest
from growers.harvest.models import Cut
from growers.science.units import read_mass
from growers.trace.crops import crops_of, lines_by
from tests import ground


@pytest.fixture(autouse=True)
def next_spring(clock):
    clock("2029-03-20 12:00")


def weighed_off(hand, planting, winters):
    """Cut in each winter, and weighed: {first year of the winter: kg}."""
    for year, kg in winters.items():
        harvest.cut(**hand, planting=planting, on=date(year + 1, 1, 10), mass=read_mass(f"{kg} kg"))


def yields(holding, by="planting"):
    crops = crops_of(holding, Cut.objects.of(holding))
    return {(str(of), line.winter): line for of, line in lines_by(crops, by)}


def test_16_two_year_sticks(hand, holding, pages, day):
    """A bed skipped last winter gives one-year rods and branchy two-year sticks: the age is the bundle's."""
    planting = ground.planted(hand, stools=100)
    ground.cut(hand, planting, on=day("2024-01-10"))
    # The book takes two years' growth for what was not cut last winter; the rest is said to be of one.
    old = ground.cut(hand, planting, on=day("2026-01-10"), mass=read_mass("60 kg"))
    new = ground.cut(hand, planting, on=day("2026-01-11"), mass=read_mass("20 kg"), age_years=1)
    assert (old.age_years, new.age_years) == (2, 1)
    sticks, rods = ground.tied(hand, old)[0], ground.tied(hand, new)[0]
    assert (sticks.age_years, rods.age_years) == (2, 1)
    assert "2 years' growth" in pages.text("trace:bundle", sticks.uid)
    assert "growth" not in pages.text("trace:bundle", rods.uid).split("Left")[0]
    line = yields(holding)["Pellock – Beck Side", "2025/26"]
    assert line.growths == [1, 2]
    # Both are one winter's crop of the planting: 60 + 20 kg from 100 stools.
    assert line.kg_a_stool == pytest.approx(0.8)
    assert "2025/26 · 1 and 2 years' growth" in pages.text("trace:yields")


def test_17_bed_replanted(hand, holding, pages, day):
    """A bed grubbed up and set with another variety: bundles of 2025 still say the old one."""
    old = ground.planted(hand, stools=100)
    weighed_off(hand, old, {2024: 50, 2025: 50})
    bundle = ground.tied(hand, Cut.objects.of(holding).get(first_on=day("2026-01-10")))[0]
    beds.grub_out(**hand, planting=old, on=day("2027-03-01"))
    new = ground.planted(hand, variety="Merrow Red", planted_year=2027, stools=100)
    weighed_off(hand, new, {2027: 8, 2028: 30})
    assert ancestry_of([bundle])[bundle.pk].name == "Pellock"
    assert "Pellock" in pages.text("trace:bundle", bundle.uid)
    found = yields(holding)
    assert found["Pellock – Beck Side", "2025/26"].kg_a_stool == pytest.approx(0.5)
    # The young planting has its own lines, marked as young: it is no bad year of the old one.
    assert [found["Merrow Red – Beck Side", winter].young for winter in ("2027/28", "2028/29")] == [True, True]
    assert "2027/28 · young" in pages.text("trace:yields", by="bed")


def test_18_gapped_bed(hand, holding, pages, day):
    """40 of 300 stools replaced: the yield of a stool does not jump for that."""
    planting = ground.planted(hand, stools=300)
    # Half a kilo a stool. The 40 died in summer 2025: 260 bore in the three winters from then.
    weighed_off(hand, planting, {2024: 150, 2025: 130, 2026: 130, 2027: 130, 2028: 150})
    beds.gap_up(**hand, planting=planting, on=day("2026-03-05"), stools=40)
    found = yields(holding)
    lines = [found["Pellock – Beck Side", f"{year}/{year % 100 + 1}"] for year in range(2024, 2029)]
    assert [line.stools for line in lines] == [300, 260, 260, 260, 300]
    assert [line.kg_a_stool for line in lines] == [pytest.approx(0.5)] * 5
    assert "about 0.5 kg (260 stools)" in pages.text("trace:yields")
