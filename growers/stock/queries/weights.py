"""What a bundle weighs and how many rods it has, as the book can best say."""

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time
from statistics import median

from growers.bundles.models import Adjustment, Bundle, Taking
from growers.bundles.queries import ancestry_of, left_of
from growers.bundles.rules import WHOLE
from growers.drying.models import Weighing
from growers.drying.queries import moisture_on

from ..models import Count

KNOWN = Taking.Known
ENOUGH = 3
"""So many like bundles make a typical weight."""


@dataclass(frozen=True)
class Whole:
    """What a bundle would weigh (kg) if nothing had been taken out; how and when that was known."""

    kg: float
    known: str
    on: date

    def left_kg(self, bundle):
        return self.kg * bundle.left_ppb / WHOLE


@dataclass(frozen=True)
class Seen:
    """A weight (kg) of a share (ppb) of a bundle on a day, with the day's order when there is no hour."""

    on: date
    at: datetime | None
    order: int
    kg: float
    left_ppb: int
    known: str

    @property
    def whole_kg(self):
        return self.kg * WHOLE / self.left_ppb

    @property
    def when(self):
        return self.on, self.order, self.at or datetime.combine(self.on, time.min, UTC)


def whole_mass(bundle, on):
    """The whole bundle's weight on a day, carried by its drying where that is known; None if nothing is."""
    whole = whole_masses([bundle], on)[bundle.pk]
    if whole is None or whole.known == KNOWN.TYPICAL:
        return whole
    then, now = moisture_on(bundle, whole.on), moisture_on(bundle, on)
    if then is None or now is None:
        return whole
    return replace(whole, kg=whole.kg * (1 + now) / (1 + then))


def whole_masses(bundles, on):
    """As last weighed up to a day, or the typical weight of such bundles, by bundle id: a few queries for all."""
    bundles = list(bundles)
    seen = seen_by_bundle(bundles, on)
    found, unknown = {}, []
    for bundle in bundles:
        last = max(seen[bundle.pk], key=lambda each: each.when, default=None)
        found[bundle.pk] = Whole(last.whole_kg, last.known, last.on) if last else None
        if last is None:
            unknown.append(bundle)
    return found | typical_masses(unknown, on)


def seen_by_bundle(bundles, on):
    """Every weight in the book of each bundle up to a day."""
    if not bundles:
        return defaultdict(list)
    holding = bundles[0].holding
    rows = {
        model: by_bundle(model.objects.of(holding).filter(bundle__in=bundles, **more))
        for model, more in [
            (Weighing, {"on__lte": on, "wet": False}),
            (Count, {"on__lte": on, "mass_kg__isnull": False}),
            (Taking, {}),
            (Adjustment, {}),
        ]
    }
    seen = defaultdict(list)
    for bundle in bundles:
        if bundle.tied_mass_kg and bundle.tied_on <= on:
            seen[bundle.pk].append(Seen(bundle.tied_on, None, 0, bundle.tied_mass_kg, WHOLE, KNOWN.TIED))
        for row in rows[Weighing][bundle.pk]:
            left = left_of(bundle, row.on, row.at, rows[Taking][bundle.pk], rows[Adjustment][bundle.pk])
            if left:
                seen[bundle.pk].append(Seen(row.on, row.at, 1, row.mass_kg, left, KNOWN.WEIGHED))
        for row in rows[Count][bundle.pk]:
            if row.left_ppb:
                seen[bundle.pk].append(Seen(row.on, row.at, 2, row.mass_kg, row.left_ppb, KNOWN.COUNT))
    return seen


def by_bundle(rows):
    found = defaultdict(list)
    for row in rows:
        found[row.bundle_id].append(row)
    return found


def state_of(bundle, on):
    """Green, semi-dry or dry by the calendar alone: what is compared with what when a weight is a guess.

    Six weeks green, then clung until about five months: common practice, no source.
    """
    days = (on - bundle.tied_on).days
    return "green" if days < 42 else "semi_dry" if days < 150 else "dry"


def likeness(bundle):
    return bundle.length_class_id, bundle.type, bundle.form


def typical_masses(bundles, on):
    """The typical weight of each, by its id: a few queries, however many bundles."""
    bundles = list(bundles)
    if not bundles:
        return {}
    lengths, types = {bundle.length_class_id for bundle in bundles}, {bundle.type for bundle in bundles}
    kinds = {likeness(bundle) for bundle in bundles}
    others = Bundle.objects.of(bundles[0].holding).filter(length_class__in=lengths, type__in=types)
    others = [other for other in others.select_related("holding") if likeness(other) in kinds]
    ancestries, seen = ancestry_of({*others, *bundles}), seen_by_bundle(others, on)
    alike = defaultdict(list)
    for other in others:
        weight = other, ancestries[other.pk].variety, last_by_state(other, seen[other.pk])
        alike[likeness(other)].append(weight)
    return {
        bundle.pk: typical_of(bundle, ancestries[bundle.pk].variety, alike[likeness(bundle)], on) for bundle in bundles
    }


def typical_of(bundle, variety, alike, on):
    """The middle weight of like bundles in its state: of its own variety where enough are, else of all, or None."""
    state = state_of(bundle, on)
    others = [(of, kg[state]) for other, of, kg in alike if other.pk != bundle.pk and state in kg]
    own = [kg for of, kg in others if variety and of == variety]
    enough = next((some for some in (own, [kg for _of, kg in others]) if len(some) >= ENOUGH), None)
    return Whole(median(enough), KNOWN.TYPICAL, on) if enough else None


def last_by_state(bundle, seen):
    """The latest whole weight (kg) that a bundle was seen at in each state."""
    return {state_of(bundle, each.on): each.whole_kg for each in sorted(seen, key=lambda each: each.when)}


def believed_rods(bundle):
    """How many rods the whole bundle is believed to have had: by its latest count, else as tied, or None."""
    count = Count.objects.of(bundle.holding).filter(bundle=bundle, rods__gt=0).order_by("on", "at", "pk").last()
    if count and count.left_ppb:
        return count.rods * WHOLE / count.left_ppb
    return bundle.tied_rods
