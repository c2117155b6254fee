"""Pure rules of the tank: time in the water, the rule of thumb, and the mean of the water."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from typing import NamedTuple
from zoneinfo import ZoneInfo

FOOT_M = 0.3048
LIKE_LAST_TIME = "like last time"
FORGOTTEN_AFTER = 1.5
"""Times the longest rule, after which a batch is taken to be forgotten (our own rule)."""

# All common practice, no source, but where one is named.
PEELED_DAYS = (0.5 / 24, 0.5)
"""White and buff: half an hour to half a day (Encyclopaedia Britannica, 1911, "Basket")."""
STEAMED_DAYS_A_FOOT = (0.5, 1.0)
"""Steamed: sellers give half a day to a day for each foot."""
WORKABLE_DAYS = {"brown": 7, "steamed": 3, "white": 2, "buff": 2}
MELLOW_DAYS = (1, 2)

ICE_UP_TO_C = 2.0
CHANGED_BY_C = 3.0
DAY_S = 86_400.0
ROOM_BUNDLE_M = 1.524
"""The room of a tank is told in bundles of 5 ft."""
OWN_KEEPING_FROM = 3
"""From so many records on, a book's own keeping time stands in place of the guess (our own rule)."""

CARRIES = timedelta(days=14)
"""How far a reading of the water speaks beyond its moment: one a fortnight is a lazy year's record (our own rule)."""


def elapsed(start: datetime, end: datetime) -> timedelta:
    """Time that really passed: reckoned in UTC, so that a change of the clocks adds no hour."""
    return end.astimezone(UTC) - start.astimezone(UTC)


def days(start: datetime, end: datetime) -> float:
    return elapsed(start, end) / timedelta(days=1)


def days_to_day(start: datetime, on: date, zone: str) -> int:
    """Days from the local day of an instant to a day."""
    return (on - start.astimezone(ZoneInfo(zone)).date()).days


def rule_days(type_: str, min_m: float, max_m: float | None) -> tuple[float, float]:
    """Days in the water by the rule of thumb, for the shortest and the longest rod of a length."""
    if type_ in ("white", "buff"):
        return PEELED_DAYS
    short, long = min_m / FOOT_M, (max_m or min_m) / FOOT_M
    if type_ == "steamed":
        return STEAMED_DAYS_A_FOOT[0] * short, STEAMED_DAYS_A_FOOT[1] * long
    return short, long


def first_look_days(type_: str, rule: tuple[float, float]) -> float:
    """When a first look is worth making: a day before the rule; for peeled rods at its beginning."""
    return rule[0] if type_ in ("white", "buff") else max(rule[0] - 1, 0.5 * rule[0])


def room_taken(parts_of_bundles: list[tuple[float, float]]) -> float:
    """Bundles of 5 ft that rods take the room of: (part of a bundle, length in m), by length alone (our own rule)."""
    return sum(part * length_m / ROOM_BUNDLE_M for part, length_m in parts_of_bundles)


def look_again_after(type_: str) -> timedelta:
    return timedelta(hours=1) if type_ in ("white", "buff") else timedelta(days=1)


class Read(NamedTuple):
    """The water at one moment [°C], with the band it may have been in. `topped`: warm water was poured in just then."""

    at: datetime
    celsius: float
    low_c: float
    high_c: float
    topped: bool = False

    @property
    def iced(self):
        return self.high_c <= ICE_UP_TO_C


@dataclass(frozen=True)
class Water:
    """The water over a time: its mean, and the band that the mean may have been in [°C].

    `how`: "read" from readings near that time, "usual" from the same month in the book. `coldest_c` and `warmest_c`
    of the readings that speak for that time; `topped` if it was warmed in it; `iced_days` of it as cold as ice.
    """

    celsius: float
    low_c: float
    high_c: float
    how: str = "read"
    readings: int = 1
    coldest_c: float | None = None
    warmest_c: float | None = None
    topped: bool = False
    iced_days: float = 0.0

    @property
    def changed(self):
        """Whether it was so much warmer at one time than at another that the mean alone misleads (our own rule)."""
        return self.coldest_c is not None and self.warmest_c - self.coldest_c >= CHANGED_BY_C


def mean_over(readings: list[Read], start: datetime, end: datetime) -> Water | None:
    """Mean of the water from start to end; readings (or plain tuples like them) in order of time.

    Each reading speaks for the time that is nearer to it than to any other; one of topping up with warm water for
    none before it. None if no reading is near enough.
    """
    near = [Read(*reading) for reading in readings if start - CARRIES <= reading[0] <= end + CARRIES]
    if not near:
        return None
    weights = _spans(near, start, end)
    total = sum(weights)
    heard = [(weight, reading) for weight, reading in zip(weights, near, strict=True) if weight > 0]
    means = [sum(weight * reading[i] for weight, reading in heard) / total for i in (1, 2, 3)]
    return Water(
        *means,
        readings=len(heard),
        coldest_c=min(reading.celsius for _weight, reading in heard),
        warmest_c=max(reading.celsius for _weight, reading in heard),
        topped=any(reading.topped and start < reading.at <= end for _weight, reading in heard),
        iced_days=sum(weight for weight, reading in heard if reading.iced) / DAY_S if end > start else 0.0,
    )


def _spans(near, start, end):
    """Seconds of the time from start to end that each reading speaks for."""
    if end <= start:
        nearest = min(near, key=lambda reading: abs(elapsed(reading.at, start)))
        return [float(reading is nearest) for reading in near]
    edges = [b.at if b.topped else a.at + elapsed(a.at, b.at) / 2 for a, b in pairwise(near)]
    begins, ends = [start, *edges], [*edges, end]
    spans = [
        max(elapsed(max(first, start), min(last, end)).total_seconds(), 0.0)
        for first, last in zip(begins, ends, strict=True)
    ]
    return spans if sum(spans) else [1.0] * len(near)


def oldest_still_there(lifts: list[tuple[object, int]], out_ppb: int):
    """The earliest lift of which rods are still unused, if the older are used first.

    `lifts` are (lift, part) in order of time; `out_ppb` is what is out of the water and unused.
    """
    oldest = None
    for lift, part_ppb in reversed(lifts):
        if out_ppb <= 0:
            break
        oldest, out_ppb = lift, out_ppb - part_ppb
    return oldest


OVERNIGHT_DAYS = (0.3, 0.6)
"""White and buff stand overnight (one seller's page, and common practice)."""


def mellow_days(type_: str) -> tuple[float, float]:
    return OVERNIGHT_DAYS if type_ in ("white", "buff") else MELLOW_DAYS


def before(at: datetime, days: tuple[float, float]) -> tuple[datetime, datetime]:
    """The earliest and the latest moment from which so many days lead to `at`; the clock's changes add no hour."""
    zone = at.tzinfo
    short, long = (timedelta(days=each) for each in days)
    return (at.astimezone(UTC) - long).astimezone(zone), (at.astimezone(UTC) - short).astimezone(zone)


def widened(rule: tuple[float, float], soaks: list) -> tuple[float, float]:
    """The rule's days, stretched to the longest any own soak was still not ready, and shrunk to the soonest one was.

    `soaks` is [((short, long) by the rule for that soak, not ready after, ready by)] in days. A bound that lies
    within the rule changes nothing: bounds are never averaged.
    """
    low, high = rule
    slower = max([after / long for (_short, long), after, _by in soaks if after], default=1)
    quicker = min([by / short for (short, _long), _after, by in soaks if by], default=1)
    return low * min(1, quicker), high * max(1, slower)
