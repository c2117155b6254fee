from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.people.rules import name_key, named, tidy

from .models import Bed, GapUp, HealthNote, Planting, Variety


@transaction.atomic
def add_variety(*, holding, by, name, species="", note="", opinion=""):
    return write(Variety(holding=holding, species=tidy(species), note=note, opinion=opinion, **named(name)), by=by)


@transaction.atomic
def correct_variety(*, holding, by, variety, name, why="", **changes):
    return correct(record=variety, by=by, why=why, **named(name), **changes)


@transaction.atomic
def add_bed(*, holding, by, name, area_m2=None, note=""):
    return write(Bed(holding=holding, area_m2=area_m2, note=note, **named(name)), by=by)


@transaction.atomic
def correct_bed(*, holding, by, bed, name, why="", **changes):
    return correct(record=bed, by=by, why=why, **named(name), **changes)


@transaction.atomic
def plant(
    *, holding, by, bed, variety=None, new_variety="", planted_year=None, planted_on=None, rows="", stools=None, note=""
):  # fmt: skip
    """One variety into some rows of a bed; a variety that is new to the book may be named right here."""
    planting = Planting(
        holding=holding,
        bed=bed,
        variety=the_variety(holding=holding, by=by, variety=variety, new_variety=new_variety),
        planted_year=the_year(planted_year, planted_on),
        planted_on=planted_on,
        rows=tidy(rows),
        stools=stools,
        note=note,
    )
    return write(planting, by=by)


def the_variety(*, holding, by, variety, new_variety):
    if variety and new_variety.strip():
        raise Refusal(_("Choose a variety or write a new one, not both."), field="new_variety")
    if variety:
        return variety
    if not new_variety.strip():
        raise Refusal(_("Choose the variety, or write its name below if it is new to the book."), field="variety")
    known = Variety.objects.of(holding).filter(name_key=name_key(new_variety)).first()
    return known or add_variety(holding=holding, by=by, name=new_variety)


def the_year(planted_year, planted_on):
    if planted_on:
        return planted_on.year if planted_year is None else planted_year
    if planted_year is None:
        raise Refusal(_("Write the year it was planted, such as 2019; a guess is better than nothing."), "planted_year")
    return planted_year


@transaction.atomic
def correct_planting(*, holding, by, planting, planted_year=None, planted_on=None, why="", **changes):
    if "rows" in changes:
        changes["rows"] = tidy(changes["rows"])
    changes |= {"planted_year": the_year(planted_year, planted_on), "planted_on": planted_on}
    return correct(record=planting, by=by, why=why, **changes)


@transaction.atomic
def grub_out(*, holding, by, planting, on):
    """The stools are taken out of the ground; what was cut from them keeps its planting."""
    if planting.grubbed_on:
        day = write_day(planting.grubbed_on)
        raise Refusal(_("It was grubbed out on %(day)s already.") % {"day": day}, field="on")
    check_planted(planting, on)
    try:
        return correct(record=planting, by=by, why=_("grubbed out"), grubbed_on=on)
    except Refusal as refusal:
        # What stands in the way is told of the planting's field; the page asks for the day.
        raise Refusal(refusal.sentence, field="on") from refusal


def check_planted(planting, on):
    """Refuse a day before the planting was planted."""
    planted = planting.planted_on
    if (planted and on < planted) or on.year < planting.planted_year:
        day = write_day(planted) if planted else planting.planted_year
        raise Refusal(_("That is before it was planted (%(day)s).") % {"day": day}, field="on")


def check_stood(planting, on):
    """Refuse a day on which the planting did not stand."""
    check_planted(planting, on)
    if planting.grubbed_on and on > planting.grubbed_on:
        day = write_day(planting.grubbed_on)
        raise Refusal(_("It was grubbed out on %(day)s.") % {"day": day}, field="on")


@transaction.atomic
def gap_up(*, holding, by, planting, on, stools):
    check_gaps(planting, on, stools)
    return write(GapUp(holding=holding, planting=planting, on=on, stools=stools), by=by)


@transaction.atomic
def correct_gap_up(*, holding, by, gapup, on, stools, why=""):
    check_gaps(gapup.planting, on, stools)
    return correct(record=gapup, by=by, why=why, on=on, stools=stools)


def check_gaps(planting, on, stools):
    check_stood(planting, on)
    if planting.stools is not None and stools > planting.stools:
        raise Refusal(
            _("Only %(stools)d stools stand there by the book. Correct that first, or replant the rows.")
            % {"stools": planting.stools},
            field="stools",
        )


@transaction.atomic
def note_health(*, holding, by, planting, on, what, how_bad=HealthNote.HowBad.SOME, note=""):
    check_stood(planting, on)
    return write(HealthNote(holding=holding, planting=planting, on=on, what=what, how_bad=how_bad, note=note), by=by)


@transaction.atomic
def correct_health_note(*, holding, by, healthnote, on, why="", **changes):
    check_stood(healthnote.planting, on)
    return correct(record=healthnote, by=by, why=why, on=on, **changes)
