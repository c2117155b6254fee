from django.db import transaction

from growers.people.actions import correct, new_evidence, write

from ..models import AirReading


def as_typed(temperature, humidity):
    return f"{temperature.text}, {humidity.text}"[:80]


@transaction.atomic
def read_air(*, holding, by, place, at, temperature, humidity):
    """The air of a store, read off a thermometer and a hygrometer."""
    reading = AirReading(
        holding=holding,
        place=place,
        at=at,
        temperature_c=temperature.value,
        humidity=humidity.value,
        typed=as_typed(temperature, humidity),
    )
    write(reading, by=by)
    new_evidence(holding)
    return reading


@transaction.atomic
def correct_air(*, holding, by, airreading, at, temperature, humidity, why=""):
    return correct(
        record=airreading,
        by=by,
        why=why,
        at=at,
        temperature_c=temperature.value,
        humidity=humidity.value,
        typed=as_typed(temperature, humidity),
    )
