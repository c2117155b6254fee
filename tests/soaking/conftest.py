from datetime import UTC, datetime

import pytest

from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.harvest import actions as harvest
from growers.harvest.models import Cut
from growers.science import units
from growers.soaking import actions


@pytest.fixture
def utc():
    """A short way to write an instant: utc("2026-03-02 07:00")."""
    return lambda text: datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.fixture
def moment(utc):
    """An exact moment, or a range: moment("2026-03-02 07:00", "2026-03-02 12:00")."""
    return lambda at, until=None: Moment(utc(at), utc(until or at), "")


@pytest.fixture
def five_foot(hand):
    return harvest.add_length(**hand, label="5 ft", min_m=1.524, max_m=1.8288)


@pytest.fixture
def pellock(hand):
    return beds.add_variety(**hand, name="Pellock", species="Salix triandra")


@pytest.fixture
def cut(hand, day, pellock, holding):
    bed = beds.add_bed(**hand, name="Beck Side")
    planting = beds.plant(**hand, bed=bed, variety=pellock, planted_year=2020)
    harvest.cut(**hand, planting=planting, on=day("2025-12-28"))
    return Cut.objects.of(holding).get()


@pytest.fixture
def bundle(hand, cut, five_foot, day):
    """100 rods of 5 ft Pellock, 6 kg, tied 10 January 2026."""
    return bundles.tie(
        **hand, cut=cut, on=day("2026-01-10"), length_class=five_foot, rods=100, mass=units.read_mass("6 kg")
    )[0]


@pytest.fixture
def tank(hand):
    return actions.add_tank(**hand, name="Trough", what="trough", greatest_length=units.read_length("2 m"))


@pytest.fixture
def put_in(hand, bundle, tank, moment):
    """Put rods in: put_in("half", "2026-03-02 07:00")."""

    def put_in(much="half", at="2026-03-02 07:00", until=None, **more):
        more = {"bundle": bundle, "tank": tank} | more
        return actions.put_in(**hand, moment=moment(at, until), much=read_much(much), **more)

    return put_in


@pytest.fixture
def batch(put_in):
    """Half the bundle, in the trough since 7:00 on 2 March 2026."""
    return put_in()


@pytest.fixture
def lift(hand, moment):
    def lift(batch, part=None, at="2026-03-07 07:00", until=None, **more):
        part = units.read_part(part) if part else None
        lifted = actions.lift(**hand, batch=batch, moment=moment(at, until), part=part, **more)
        batch.refresh_from_db()
        return lifted

    return lift


@pytest.fixture
def check(hand, utc):
    def check(batch, result, at, **more):
        return actions.check_bend(**hand, batch=batch, at=utc(at), result=result, **more)

    return check
