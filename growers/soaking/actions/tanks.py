"""Tanks and their water."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.people.rules import name_key, tidy

from ..models import Tank, WaterReading
from ..queries import last_reading
from ..rules import ICE_UP_TO_C, LIKE_LAST_TIME


def tank_fields(*, name, what, greatest_length, room_bundles, note):
    return {
        "name": tidy(name),
        "name_key": name_key(name),
        "what": what,
        "greatest_length_m": greatest_length.value if greatest_length else None,
        "greatest_length_unit": greatest_length.unit if greatest_length else "",
        "greatest_length_text": greatest_length.text if greatest_length else "",
        "room_bundles": room_bundles,
        "note": note,
    }


@transaction.atomic
def add_tank(*, holding, by, name, what=Tank.What.TANK, greatest_length=None, room_bundles=None, note=""):
    fields = tank_fields(name=name, what=what, greatest_length=greatest_length, room_bundles=room_bundles, note=note)
    return write(Tank(holding=holding, **fields), by=by)


@transaction.atomic
def correct_tank(*, holding, by, tank, name, what, greatest_length=None, room_bundles=None, note="", why=""):
    fields = tank_fields(name=name, what=what, greatest_length=greatest_length, room_bundles=room_bundles, note=note)
    return correct(record=tank, by=by, why=why, **fields)


@transaction.atomic
def read_water(*, holding, by, tank, at, temperature, how=""):
    """The water at one moment: a Reading (of a number or a word), or "like last time"."""
    fields = water_fields(tank, at, temperature, how)
    return write(WaterReading(holding=holding, tank=tank, at=at, **fields), by=by)


def water_fields(tank, at, temperature, how):
    if temperature == LIKE_LAST_TIME:
        return like_last_time(tank, at)
    if not how:
        how = WaterReading.How.MEASURED
        if temperature.unit == "word":
            how = WaterReading.How.ICE if temperature.high <= ICE_UP_TO_C else WaterReading.How.WORD
    return {
        "temperature_c": temperature.value,
        "low_c": temperature.value if temperature.low is None else temperature.low,
        "high_c": temperature.value if temperature.high is None else temperature.high,
        "how": how,
        "temperature_text": temperature.text,
        "temperature_unit": temperature.unit,
    }


def like_last_time(tank, at):
    last = last_reading(tank, at)
    if last is None:
        raise Refusal(
            _("Nobody has read the water of “%(tank)s” before then. Say how it feels: cold, cool, mild.")
            % {"tank": tank},
            field="temperature",
        )
    names = ("temperature_c", "low_c", "high_c", "temperature_text", "temperature_unit")
    return {name: getattr(last, name) for name in names} | {"how": WaterReading.How.SAME}


@transaction.atomic
def correct_waterreading(*, holding, by, waterreading, at, temperature, how="", why=""):
    untouched = getattr(temperature, "text", None) == waterreading.temperature_text
    if untouched and not how and waterreading.how != WaterReading.How.TOPPED:
        how = waterreading.how
    return correct(record=waterreading, by=by, why=why, at=at, **water_fields(waterreading.tank, at, temperature, how))
