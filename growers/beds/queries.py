from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Q
from django.utils.translation import gettext as _

from growers.furniture.due import Due
from growers.people.rules import winter_of, winter_span

from .models import Bed, GapUp, HealthNote, Planting, Variety

LOOK_AGAIN, FORGET = timedelta(days=14), timedelta(days=90)
"""Something bad is looked at again after a fortnight, and no longer asked after in another season (our own rule)."""
SPRING = {"N": 4, "S": 9}
FULL_FROM = 3
"""A stool gives its full crop from its third winter (common practice, no source)."""


def plantings(holding):
    return Planting.objects.of(holding).select_related("bed", "variety").order_by("bed__name_key", "rows", "pk")


def standing(holding, on):
    """The plantings that stand in the ground on a day."""
    return plantings(holding).filter(Q(grubbed_on=None) | Q(grubbed_on__gt=on), planted_year__lte=on.year)


def age_years(planting, today):
    """Whole years since it was planted, by the year alone."""
    return max(0, (planting.grubbed_on or today).year - planting.planted_year)


def planted_winter(planting, holding):
    """First year of the winter in or before which it was planted; in spring, where only the year is known."""
    on = planting.planted_on or date(planting.planted_year, SPRING[holding.hemisphere], 1)
    return int(winter_of(on, holding.winter_begins_month)[:4])


def nth_winter(planting, winter):
    """Which winter of its life a winter was for a planting; the first is that after its first season."""
    return int(winter[:4]) - planted_winter(planting, planting.holding)


def stools_of_full_age(planting, winter, gap_ups):
    """The stools that a winter's crop is set against; None where the book has no number of them.

    Those replaced by gapping up are left out in the winter of that, when they stood dead, and until their third.
    """
    if planting.stools is None:
        return None
    year, begins = int(winter[:4]), planting.holding.winter_begins_month
    since = [(year - int(winter_of(gap.on, begins)[:4]), gap.stools) for gap in gap_ups]
    return max(0, planting.stools - sum(stools for winters, stools in since if 0 <= winters < FULL_FROM))


def season_of(winter, holding):
    """The year in which a winter's rods grew: from half a year before the winter begins to half a year after."""
    first, _after = winter_span(winter, holding.winter_begins_month)
    later = first.month + 6
    half = first.replace(month=later) if later <= 12 else first.replace(year=first.year + 1, month=later - 12)
    return half.replace(year=half.year - 1), half


@dataclass(frozen=True)
class BedNow:
    """A bed with what stands in it, and what stood there before."""

    bed: Bed
    standing: list
    before: list


def beds_now(holding, today):
    now, before = defaultdict(list), defaultdict(list)
    for planting in plantings(holding):
        planting.age_years = age_years(planting, today)
        gone = planting.grubbed_on and planting.grubbed_on <= today
        (before if gone else now)[planting.bed_id].append(planting)
    beds = Bed.objects.of(holding).order_by("name_key")
    return [BedNow(bed, now[bed.pk], before[bed.pk]) for bed in beds]


def bed_now(bed, today):
    return next(each for each in beds_now(bed.holding, today) if each.bed == bed)


def varieties_now(holding, today):
    """Each variety with the plantings of it that stand now."""
    by_variety = defaultdict(list)
    for planting in standing(holding, today):
        by_variety[planting.variety_id].append(planting)
    return [(variety, by_variety[variety.pk]) for variety in Variety.objects.of(holding).order_by("name_key")]


def plantings_of(variety, today):
    found = list(plantings(variety.holding).filter(variety=variety))
    for planting in found:
        planting.age_years = age_years(planting, today)
    return found


def health_notes(planting, since=None):
    notes = HealthNote.objects.of(planting.holding).filter(planting=planting).order_by("-on", "-pk")
    return notes.filter(on__gte=since) if since else notes


def gap_ups(planting):
    return GapUp.objects.of(planting.holding).filter(planting=planting).order_by("-on", "-pk")


def due(holding, *, today, now):
    """What was bad in a bed is to be looked at again."""
    found, seen = [], set()
    notes = HealthNote.objects.of(holding).filter(on__gt=today - FORGET, planting__in=standing(holding, today))
    for note in notes.select_related("planting__bed", "planting__variety").order_by("-on", "-pk"):
        about = (note.planting_id, note.what)
        if about in seen:
            continue
        seen.add(about)
        if note.how_bad == HealthNote.HowBad.BAD and note.on <= today - LOOK_AGAIN:
            words = {"what": note.get_what_display(), "planting": note.planting}
            sentence = _("Look again at %(planting)s: %(what)s was bad") % words
            found.append(
                Due("look_at_bed", sentence, "beds:note_health", (note.planting.uid,), when=note.on + LOOK_AGAIN)
            )
    return found
