"""The air of the stores: at what moisture rods in it come to rest."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from growers.science.moisture import daily_equilibrium, drying_pace, equilibrium_moisture

from .. import rules
from ..models import AirReading


@dataclass(frozen=True)
class Store:
    """The air of a place over the six weeks up to a day.

    `moisture`: where rods there come to rest (fraction of dry mass). `pace`: how fast they follow, against 10 °C.
    `days` of readings, by `how` (logger or hand), the last on `last_on`.
    """

    moisture: float
    pace: float
    days: int
    how: str
    last_on: date


@dataclass(frozen=True)
class Day:
    on: date
    moisture: float
    pace: float
    readings: int


class Airs:
    """The air of some places of one holding, read once and asked for day by day."""

    def __init__(self, holding, places, first, last):
        self.logged, self.by_hand = defaultdict(list), defaultdict(list)
        self.known = {}
        zone = ZoneInfo(holding.zone)
        rows = AirReading.objects.of(holding).filter(
            place__in=places,
            at__gte=datetime.combine(first - rules.SIX_WEEKS, time.min, zone),
            at__lt=datetime.combine(last + timedelta(days=1), time.min, zone),
        )
        columns = rows.order_by("at").values_list("place_id", "how", "at", "temperature_c", "humidity")
        found = defaultdict(list)
        for place, how, at, temperature, humidity in columns:
            found[place, how].append((at.astimezone(zone), temperature, humidity))
        for (place, how), readings in found.items():
            if how == AirReading.How.LOGGER:
                self.logged[place] = logged_days(readings)
            else:
                self.by_hand[place] = days_by_hand(readings)

    def at(self, place, on):
        """The air of a place on a day; None where too little is known of it."""
        if (place, on) not in self.known:
            self.known[place, on] = self.reckoned(place, on)
        return self.known[place, on]

    def reckoned(self, place, on):
        ways = (
            (AirReading.How.LOGGER, self.logged[place], rules.READINGS_A_DAY, rules.AIR_DAYS),
            (AirReading.How.HAND, self.by_hand[place], 1, rules.AIR_HANDFUL),
        )
        for how, days, readings, enough in ways:
            lately = [d for d in days if on - rules.SIX_WEEKS < d.on <= on and d.readings >= readings]
            if len(lately) >= enough:
                return store_of(lately, how)
        return None


def store_of(days, how):
    pace = sum(day.pace for day in days)
    moisture = sum(day.moisture * day.pace for day in days) / pace
    return Store(moisture, pace / len(days), len(days), str(how), days[-1].on)


def logged_days(readings):
    at, temperature, humidity = zip(*readings, strict=True)
    # Naive local times: a zone's repeated hour in autumn belongs to its own day all the same.
    days = daily_equilibrium([moment.replace(tzinfo=None) for moment in at], temperature, humidity)
    rows = days[days["hours"] > 0].itertuples()
    return [Day(row.Index.date(), float(row.moisture), float(row.pace), int(row.hours)) for row in rows]


def days_by_hand(readings):
    by_day = defaultdict(list)
    for at, temperature, humidity in readings:
        by_day[at.date()].append((equilibrium_moisture(temperature, humidity), drying_pace(temperature)))
    return [
        Day(
            on,
            sum(moisture * pace for moisture, pace in found) / sum(pace for _moisture, pace in found),
            sum(pace for _moisture, pace in found) / len(found),
            len(found),
        )
        for on, found in sorted(by_day.items())
    ]


def store_now(place, today):
    """The air of one place up to today; None where too little is known of it."""
    return Airs(place.holding, [place.pk], today, today).at(place.pk, today)
