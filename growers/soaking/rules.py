"""Pure rules of the tank: time in the water, the rule of thumb, and the mean of the water."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise

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

CARRIES = timedelta(days=14)
"""How far a reading of the water speaks beyond its moment: one a fortnight is a lazy year's record (our own rule)."""


def elapsed(start: datetime, end: datetime) -> timedelta:
    """Time that really passed: reckoned in UTC, so that a change of the clocks adds no hour."""
    return end.astimezone(UTC) - start.astimezone(UTC)


def days(start: datetime, end: datetime) -> float:
    return elapsed(start, end) / timedelta(days=1)


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


def look_again_after(type_: str) -> timedelta:
    return timedelta(hours=1) if type_ in ("white", "buff") else timedelta(days=1)


@dataclass(frozen=True)
class Water:
    """The water over a time: its mean, and the band that it may have been in [°C].

    `how`: "read" from readings near that time, "usual" from the same month in the book.
    """

    celsius: float
    low_c: float
    high_c: float
    how: str = "read"
    readings: int = 1


def mean_over(readings: list[tuple[datetime, float, float, float]], start: datetime, end: datetime) -> Water | None:
    """Mean of the water from start to end; readings are (at, °C, low, high) in order of time.

    Each reading speaks for the time that is nearer to it than to any other; None if none is near enough.
    """
    near = [reading for reading in readings if start - CARRIES <= reading[0] <= end + CARRIES]
    if not near:
        return None
    weights = _spans(near, start, end)
    total = sum(weights)
    means = [sum(w * reading[i] for w, reading in zip(weights, near, strict=True)) / total for i in (1, 2, 3)]
    return Water(*means, readings=sum(weight > 0 for weight in weights))


def _spans(near, start, end):
    """Seconds of the time from start to end that each reading speaks for."""
    if end <= start:
        nearest = min(near, key=lambda reading: abs(elapsed(reading[0], start)))
        return [float(reading is nearest) for reading in near]
    edges = [a[0] + elapsed(a[0], b[0]) / 2 for a, b in pairwise(near)]
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
