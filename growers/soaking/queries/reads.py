"""Plain look-ups of the tank."""

from collections import defaultdict
from datetime import timedelta

from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of
from growers.furniture.writing import write as written

from ..models import Batch, BendCheck, Lift, WaterReading
from ..rules import Water, mean_over

USUAL_WIDENED_BY_C = 2.0
SAME_CHECK_WITHIN = timedelta(minutes=5)
PEELED = (Bundle.Type.WHITE, Bundle.Type.BUFF)


def checks_of(batch):
    return list(BendCheck.objects.of(batch.holding).filter(batch=batch).order_by("at", "pk"))


def lifts_of(batch):
    return list(Lift.objects.of(batch.holding).filter(batch=batch).order_by("at", "pk"))


def last_reading(tank, at):
    """The latest reading of a tank's water before a moment, or None."""
    return WaterReading.objects.of(tank.holding).filter(tank=tank, at__lt=at).order_by("-at", "-pk").first()


def readings_by_tank(holding):
    """(at, °C, low, high) of each tank's readings in order of time, by its id."""
    found = defaultdict(list)
    readings = WaterReading.objects.of(holding).order_by("at", "pk")
    for tank_id, *reading in readings.values_list("tank_id", "at", "temperature_c", "low_c", "high_c"):
        found[tank_id].append(tuple(reading))
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
    """A check of the same result within five minutes that somebody else wrote, or None."""
    near = BendCheck.objects.of(batch.holding).filter(
        batch=batch, result=result, at__range=(at - SAME_CHECK_WITHIN, at + SAME_CHECK_WITHIN)
    )
    return near.exclude(made_by=by).select_related("made_by").first()


def last_finish(tank):
    """The type of the rods that went into a tank last, or None."""
    last = Batch.objects.of(tank.holding).filter(tank=tank).select_related("taking__bundle").order_by("-in_at").first()
    return last and last.taking.bundle.type


def doubts_of_putting_in(bundle, tank):
    """What is asked before a bundle goes into a tank: (field, sentence)."""
    length, room = bundle.length_class, tank.greatest_length_m
    longest = length.max_m or length.min_m
    if room is not None and length.min_m <= room < longest:
        words = {
            "tank": tank,
            "room": written("length", room, bundle.holding.length_unit),
            "longest": written("length", longest, bundle.holding.length_unit),
        }
        yield "tank", _("“%(tank)s” takes rods up to %(room)s, and these run to %(longest)s. Do they fit?") % words
    before = last_finish(tank)
    if bundle.type in PEELED and before and before not in PEELED:
        words = {"tank": tank, "before": Bundle.Type(before).label, "type": bundle.get_type_display()}
        stains = _("“%(tank)s” was last used for %(before)s rods. Their water stains %(type)s: is it fresh?")
        yield "tank", stains % words
    if bundle.soaked_before:
        yield "much", _("These rods were soaked once before and dried again. Use them for own work only. Go on?")


def named_bundles(bundles):
    """Bundles with what each is called: (bundle, name)."""
    bundles = list(bundles)
    ancestry = ancestry_of(bundles)
    return [(bundle, named(bundle, ancestry[bundle.pk])) for bundle in bundles]
