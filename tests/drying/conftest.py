from datetime import UTC, date, datetime

import pytest

from growers.bundles import actions as bundles
from growers.drying import actions
from growers.drying.queries import assess
from growers.science import units
from tests import ground

CUT_ON, TIED_ON = ground.CUT_ON, ground.TIED_ON


class Book:
    """A short way to write into Hallow Carr's book what is known of drying."""

    def __init__(self, hand):
        self.hand = hand
        self.cut = ground.cut(hand, ground.planted(hand))
        self.shed = bundles.add_place(**hand, name="Long Shed")

    def tie(self, mass="8 kg", place=True, **said):
        mass = units.read_mass(mass) if mass else None
        return ground.tied(self.hand, self.cut, mass=mass, place=self.shed if place else None, **said)[0]

    def weigh(self, bundle, on, mass, **said):
        return actions.weigh(**self.hand, bundle=bundle, on=day(on), mass=units.read_mass(mass), **said)

    def oven(self, of, on, wet_g, dry_g=100, **said):
        wet, dry = (units.read_mass(f"{grams} g") for grams in (wet_g, dry_g))
        return actions.oven_test(**self.hand, of=of, on=day(on), wet_g=wet, dry_g=dry, **said)

    def air(self, at, temperature="20 °C", humidity="50 %", place=None):
        return actions.read_air(
            **self.hand,
            place=place or self.shed,
            at=instant(at),
            temperature=units.read_temperature(temperature),
            humidity=units.read_humidity(humidity),
        )

    def word(self, of, on, says, **said):
        return actions.give_word(**self.hand, of=of, on=day(on), says=says, **said)

    def assess(self, bundle, on):
        bundle.refresh_from_db()
        return assess(bundle, day(on))


def day(text):
    return date.fromisoformat(text)


def instant(text):
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.fixture
def book(hand):
    return Book(hand)


@pytest.fixture
def bundle(book):
    """5 ft, tied 20 January 2026 in the Long Shed, 8 kg green; cut 28 December."""
    return book.tie()
