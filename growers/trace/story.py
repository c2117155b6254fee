"""What happened to a bundle, in the order in which it happened."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext as _

from growers.bundles.models import Adjustment, Bundle, Making, Move, Taking
from growers.drying.models import MeterReading, OvenTest, Weighing, Word
from growers.furniture.writing import typed
from growers.stock.models import Count, Promise

from .what_became import Fate, what_became


@dataclass(frozen=True)
class Event:
    """One thing that happened: its day, what it was, what became of it, and the record it is read from."""

    on: date
    sentence: str
    record: object
    became: tuple[Fate, ...] = ()
    note: str = ""


ORDER = (Bundle, Move, Weighing, OvenTest, MeterReading, Word, Making, Taking, Count, Adjustment, Promise)


def story_of(bundle):
    """Everything in the book about one bundle, the oldest first; one day runs in the order of ORDER."""
    holding = bundle.holding
    events = [Event(bundle.tied_on, tied(bundle), bundle, note=bundle.note)]
    for model, say in SAYS.items():
        events += (event_of(record, say) for record in model.objects.of(holding).filter(bundle=bundle).order_by("pk"))
    events += takings(bundle)
    events += adjustments_alone(bundle)
    return sorted(events, key=lambda event: (event.on, ORDER.index(type(event.record)), event.record.pk))


def event_of(record, say):
    return Event(record.on, say(record), record, note=getattr(record, "note", ""))


def tied(bundle):
    words = {
        "much": typed(bundle.tied_mass_text, bundle.tied_mass_unit),
        "rods": bundle.tied_rods,
        "made": bundle.get_made_display(),
    }
    if bundle.tied_mass_text and bundle.tied_rods:
        return _("Tied: %(made)s, %(much)s, %(rods)d rods") % words
    if bundle.tied_mass_text:
        return _("Tied: %(made)s, %(much)s") % words
    if bundle.tied_rods:
        return _("Tied: %(made)s, %(rods)d rods") % words
    return _("Tied: %(made)s") % words


def takings(bundle) -> Iterable[Event]:
    found = list(Taking.objects.of(bundle.holding).filter(bundle=bundle).select_related("making").order_by("pk"))
    fates = what_became(bundle.holding, found)
    for taking in found:
        became = tuple(fates.get(taking.pk, ()))
        words = {"much": taking.said_text or taking.get_said_how_display(), "purpose": taking.get_purpose_display()}
        sentence = _("%(much)s taken out") if became else _("%(much)s taken out: %(purpose)s")
        # Rods that went into a making are put right there, with all that came out of it.
        yield Event(taking.on, sentence % words, taking.making or taking, became=became, note=taking.note)


def adjustments_alone(bundle):
    """What a count set right is told with the count; an adjustment of its own is told by itself."""
    counted = Count.objects.of(bundle.holding).filter(bundle=bundle, adjustment__isnull=False)
    rows = Adjustment.objects.of(bundle.holding).filter(bundle=bundle)
    return [Event(row.on, str(row), row) for row in rows.exclude(pk__in=counted.values("adjustment"))]


def weighed(weighing):
    words = {"mass": typed(weighing.mass_text, weighing.mass_unit)}
    return _("Weighed wet: %(mass)s") % words if weighing.wet else _("Weighed: %(mass)s") % words


def oven_tested(test):
    return _("Oven test: %(percent)d %% moisture") % {"percent": round((test.wet_g / test.dry_g - 1) * 100)}


def counted(count):
    much = typed(count.mass_text, count.mass_unit) or _("%(rods)d rods") % {"rods": count.rods}
    return _("Counted: %(much)s left; %(why)s") % {"much": much, "why": count.get_why_display()}


def promised(promise):
    if promise.released_on:
        return _("%(promise)s, and released") % {"promise": promise}
    return _("%(promise)s, and kept") % {"promise": promise} if promise.kept_by_id else str(promise)


SAYS = {
    Move: lambda move: _("Moved to %(place)s") % {"place": move.place},
    Weighing: weighed,
    OvenTest: oven_tested,
    MeterReading: lambda read: _("Meter: %(percent)d %% moisture") % {"percent": round(read.moisture * 100)},
    Word: lambda word: _("“%(says)s”") % {"says": word.get_says_display()},
    Count: counted,
    Promise: promised,
}
