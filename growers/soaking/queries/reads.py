"""Plain look-ups of the tank."""

from collections import defaultdict
from datetime import timedelta

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of

from ..models import BendCheck, Lift, WaterReading
from ..rules import Read, Water, mean_over

USUAL_WIDENED_BY_C = 2.0
SAME_CHECK_WITHIN = {False: timedelta(minutes=30), True: timedelta(minutes=5)}
"""By whether the rods are peeled: two people remember the time of one look so far apart (our own rule)."""
PEELED = (Bundle.Type.WHITE, Bundle.Type.BUFF)


def checks_of(batch):
    return list(BendCheck.objects.of(batch.holding).filter(batch=batch).order_by("at", "pk"))


def lifts_of(batch):
    return list(Lift.objects.of(batch.holding).filter(batch=batch).order_by("at", "pk"))


def last_reading(tank, at):
    """The latest reading of a tank's water before a moment, or None."""
    return WaterReading.objects.of(tank.holding).filter(tank=tank, at__lt=at).order_by("-at", "-pk").first()


def readings_by_tank(holding):
    """Each tank's readings in order of time, by its id."""
    found = defaultdict(list)
    readings = WaterReading.objects.of(holding).order_by("at", "pk")
    columns = ("tank_id", "at", "temperature_c", "low_c", "high_c", "how")
    for tank_id, *reading, how in readings.values_list(*columns):
        found[tank_id].append(Read(*reading, topped=how == WaterReading.How.TOPPED))
    return found


def water_over(readings, start, end):
    """The water of a tank from start to end: from readings near that time, else as usual in that month; or None."""
    if water := mean_over(readings, start, end):
        return water
    month = (start + (end - start) / 2).month
    same = [reading for reading in readings if reading[0].month == month]
    if not same:
        return None
    return Water(
        celsius=sum(reading[1] for reading in same) / len(same),
        low_c=min(reading[2] for reading in same) - USUAL_WIDENED_BY_C,
        high_c=max(reading[3] for reading in same) + USUAL_WIDENED_BY_C,
        how="usual",
        readings=len(same),
    )


def named(bundle, ancestry):
    """“Pellock, 5 ft”, with the type where it is not brown."""
    words = [ancestry.name, str(bundle.length_class)]
    if bundle.type != Bundle.Type.BROWN:
        words.append(bundle.get_type_display())
    return ", ".join(words)


def name_of(bundle):
    return named(bundle, ancestry_of([bundle])[bundle.pk])


def bundles_to_soak(holding):
    return Bundle.objects.of(holding).with_some_left().select_related("length_class").order_by("-tied_on", "pk")


def same_check_by_another(batch, *, at, result, by):
    """A check of the same result at about that time that somebody else wrote, or None."""
    within = SAME_CHECK_WITHIN[batch.taking.bundle.type in PEELED]
    near = BendCheck.objects.of(batch.holding).filter(batch=batch, result=result, at__range=(at - within, at + within))
    return near.exclude(made_by=by).select_related("made_by").first()


def named_bundles(bundles):
    """Bundles with what each is called: (bundle, name)."""
    bundles = list(bundles)
    ancestry = ancestry_of(bundles)
    return [(bundle, named(bundle, ancestry[bundle.pk])) for bundle in bundles]
