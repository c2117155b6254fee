"""Counting back from the bench: when rods are to go in so that they are right at a day and hour, as ranges."""

from dataclasses import dataclass
from datetime import datetime

from .. import rules
from .bounds import bounds_for


@dataclass(frozen=True)
class Start:
    """When to put one wish in and lift it, earliest and latest. `own` is the number of own soaks behind it."""

    name: str
    put_in: tuple[datetime, datetime]
    lift: tuple[datetime, datetime]
    soak_days: tuple[float, float]
    own: int

    @property
    def soak_hours(self):
        return tuple(days * 24 for days in self.soak_days)


def ready_by(at, wishes):
    """Starts for wishes [(length class, type, variety or None, name)], those that go in first coming first."""
    starts = [start(at, *wish) for wish in wishes]
    return sorted(starts, key=lambda each: each.put_in)


def start(at, length_class, type_, variety, name):
    soak_days, own = likely_days(length_class, type_, variety)
    lift = rules.before(at, rules.mellow_days(type_))
    return Start(
        name=name,
        put_in=(rules.before(lift[0], soak_days)[0], rules.before(lift[1], soak_days)[1]),
        lift=lift,
        soak_days=soak_days,
        own=own,
    )


def likely_days(length_class, type_, variety):
    """Days in the water by the rule, widened by what own soaks of the variety were seen to need."""
    low, high = rules.rule_days(type_, length_class.min_m, length_class.max_m)
    bounds = bounds_for(variety, type_) if variety else None
    if bounds is None or not bounds.soaks:
        return (low, high), 0
    seen = [(each.rule, each.lower_days, each.upper_days) for each in bounds.soaks]
    return rules.widened((low, high), seen), bounds.number
