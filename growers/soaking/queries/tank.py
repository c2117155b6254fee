"""What is in the water now, what is out of it and waits, and how long by the rule."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.formats import get_format, number_format

from growers.bundles.queries import ancestry_of
from growers.bundles.rules import WHOLE

from .. import rules
from ..models import (
    Batch,
    BenchResult,
    BendCheck,
    DriedAgain,
    GoneOver,
    Lift,
    Mellow,
    Redamp,
    Spoiled,
    Steam,
    Tank,
    WaterReading,
)
from .reads import named, readings_by_tank, water_over

FAILED = (BendCheck.Result.CRACKS, BendCheck.Result.NEARLY)


@dataclass(frozen=True)
class InWater:
    """A batch in the water at a moment. `first_look_at`, `lift_by_at` are guesses by the rule of thumb."""

    batch: Batch
    name: str
    days: float
    days_at_least: float
    water: rules.Water | None
    rule: tuple[float, float]
    first_look_at: datetime
    lift_by_at: datetime
    checks: tuple[BendCheck, ...]
    now: datetime

    @property
    def bundle(self):
        return self.batch.taking.bundle

    @property
    def hours(self):
        return self.days * 24

    @property
    def in_hours(self):
        return self.rule[1] <= 1

    @property
    def rule_shown(self):
        """To a tenth of a day, so that 7 ft is 7 days."""
        return round(self.rule[0], 1), round(self.rule[1], 1)

    @property
    def rule_hours(self):
        return self.rule[0] * 24, self.rule[1] * 24

    @property
    def part_in_water(self):
        return self.batch.in_water_ppb / WHOLE

    @property
    def last_check(self):
        return self.checks[-1] if self.checks else None

    @property
    def folds(self):
        return self.last_check is not None and self.last_check.result not in FAILED

    @property
    def forgotten(self):
        return self.days_at_least > rules.FORGOTTEN_AFTER * self.rule[1]

    @property
    def iced(self):
        return self.water is not None and self.water.high_c <= 2

    @property
    def look_at(self):
        """When it is worth looking next: by the rule first, then again after each look."""
        if not self.checks:
            return self.first_look_at
        return self.last_check.at + rules.look_again_after(self.bundle.type)

    @property
    def look_now(self):
        return self.now >= self.look_at and not self.iced


@dataclass(frozen=True)
class OfTank:
    tank: Tank
    reading: WaterReading | None
    batches: tuple[InWater, ...]

    @property
    def taken(self):
        """About how many bundles of 5 ft take its room now."""
        parts = (
            (each.batch.taking.share_ppb / WHOLE * each.part_in_water, each.bundle.length_class.middle_m)
            for each in self.batches
        )
        return rules.room_taken(list(parts))

    @property
    def taken_shown(self):
        return number_format(round(self.taken, 1)).removesuffix(get_format("DECIMAL_SEPARATOR") + "0")


def with_bundles(batches):
    """The batches in order, with their tank and bundle, and what each bundle is called."""
    batches = list(
        batches.select_related("tank", "taking__bundle__length_class", "taking__bundle__holding", "holding").order_by(
            "in_at", "pk"
        )
    )
    bundles = {batch.taking.bundle_id: batch.taking.bundle for batch in batches}
    ancestry = ancestry_of(bundles.values())
    return batches, {pk: named(bundle, ancestry[pk]) for pk, bundle in bundles.items()}


def by_batch(records, holding, batches):
    found = defaultdict(list)
    for record in records.objects.of(holding).filter(batch__in=batches).order_by("at", "pk"):
        found[record.batch_id].append(record)
    return found


def in_water(holding, now, batches=None):
    """Each batch in the water, longest in first."""
    batches, names = with_bundles(Batch.objects.of(holding).in_water() if batches is None else batches)
    checks = by_batch(BendCheck, holding, batches)
    readings = readings_by_tank(holding) if batches else {}
    return [
        batch_now(batch, names[batch.taking.bundle_id], checks[batch.pk], readings.get(batch.tank_id, []), now)
        for batch in batches
    ]


def batch_now(batch, name, checks, readings, now):
    bundle = batch.taking.bundle
    rule = rules.rule_days(bundle.type, bundle.length_class.min_m, bundle.length_class.max_m)
    middle = batch.went_in.middle
    return InWater(
        batch=batch,
        name=name,
        days=max(rules.days(middle, now), 0.0),
        days_at_least=max(rules.days(batch.in_until_at, now), 0.0),
        water=water_over(readings, batch.in_at, now),
        rule=rule,
        first_look_at=middle + timedelta(days=rules.first_look_days(bundle.type, rule)),
        lift_by_at=middle + timedelta(days=rules.FORGOTTEN_AFTER * rule[1]),
        checks=tuple(checks),
        now=now,
    )


def board(holding, now):
    """Every tank with its last reading and what is in it."""
    batches = defaultdict(list)
    for each in in_water(holding, now):
        batches[each.batch.tank_id].append(each)
    last = {}
    for reading in WaterReading.objects.of(holding).filter(at__lte=now).order_by("at", "pk"):
        last[reading.tank_id] = reading
    tanks = Tank.objects.of(holding).order_by("name_key")
    return [OfTank(tank, last.get(tank.pk), tuple(batches[tank.pk])) for tank in tanks]


def story_of(batch):
    """What happened to a batch, in order: (when, record)."""
    holding = batch.holding
    found = [(check.at, check) for check in BendCheck.objects.of(holding).filter(batch=batch)]
    found += [(lift.at, lift) for lift in Lift.objects.of(holding).filter(batch=batch)]
    found += [(mellow.began_at, mellow) for mellow in Mellow.objects.of(holding).filter(lift__batch=batch)]
    for model in (BenchResult, Steam, Redamp):
        found += [(each.at, each) for each in model.objects.of(holding).filter(lift__batch=batch)]
    found.sort(key=lambda pair: (pair[0], pair[1].pk))
    left = [*DriedAgain.objects.of(holding).filter(batch=batch), *Spoiled.objects.of(holding).filter(batch=batch)]
    left += GoneOver.objects.of(holding).filter(lift__batch=batch)
    return found + sorted(((each.on, each) for each in left), key=lambda pair: pair[0])


def batch_in_water(batch, now):
    """One batch as it is at a moment, whether or not any of it is still in the water."""
    return in_water(batch.holding, now, Batch.objects.of(batch.holding).filter(pk=batch.pk))[0]
