from datetime import UTC, datetime

import pytest

from growers.customers import actions
from growers.drying import actions as drying
from growers.furniture.much import read_much
from growers.science import units
from tests import ground


@pytest.fixture
def cut(hand):
    return ground.cut(hand, ground.planted(hand))


@pytest.fixture
def bundle(hand, cut, day):
    """6 kg of a hundred rods of 5 ft Pellock, tied 10 January 2026."""
    return ground.tied(hand, cut, on=day("2026-01-10"), rods=100, mass=units.read_mass("6 kg"))[0]


@pytest.fixture
def pellock(cut):
    return cut.planting.variety


@pytest.fixture
def orla(hand):
    return actions.add_customer(**hand, name="Orla Fenn", contact="the mill at Nether Ford")


@pytest.fixture
def sell(hand, bundle, day):
    """Sell out of the bundle: sell("2.3 kg", on="2026-02-01")."""

    def sell(much="2.3 kg", on="2026-02-01", **more):
        return actions.sell(**hand, **({"bundle": bundle} | more), on=day(on), much=read_much(much, "kg"))

    return sell


@pytest.fixture
def oven(hand, bundle, day):
    """An oven test of the bundle: oven("110 g", "100 g", "2026-11-10") found it at 10 %."""

    def oven(wet, dry, on, of=bundle):
        weights = {"wet_g": units.read_mass(wet), "dry_g": units.read_mass(dry)}
        return drying.oven_test(**hand, of=of, on=day(on), **weights)

    return oven


@pytest.fixture
def utc():
    """A short way to write an instant: utc("2026-03-02 07:00")."""
    return lambda text: datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.fixture
def now(utc):
    return utc("2026-02-05 12:00")
