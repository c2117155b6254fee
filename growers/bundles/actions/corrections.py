"""Corrections of what stands beside a bundle: where it stood, who sold it, how its cut was graded."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.harvest.models import Cut
from growers.people.actions import correct, on_correct
from growers.people.rules import named, tidy

from ..models import Bundle, Origin
from ..rules import WHOLE
from .days import check_tied_on
from .ledger import check_tied, give_evidence


@transaction.atomic
def correct_place(*, holding, by, place, name, why="", **changes):
    return correct(record=place, by=by, why=why, **named(name), **changes)


@transaction.atomic
def correct_stack(*, holding, by, stack, name, stacked_on, why=""):
    last = Bundle.objects.of(holding).filter(stack=stack).order_by("-tied_on").first()
    if last and stacked_on < last.tied_on:
        day = write_day(last.tied_on)
        raise Refusal(_("One of its bundles was not tied until %(day)s.") % {"day": day}, field="stacked_on")
    give_evidence(stack=stack)
    return correct(record=stack, by=by, why=why, stacked_on=stacked_on, **named(name))


@transaction.atomic
def correct_move(*, holding, by, move, on, place, why=""):
    check_tied(move.bundle, on)
    at = move.at if on == move.on else None
    return correct(record=move, by=by, why=why, on=on, at=at, place=place)


@transaction.atomic
def correct_purchase(*, holding, by, purchase, supplier, on, why="", **changes):
    """The day is that of its bundles too."""
    before = purchase.on
    purchase = correct(record=purchase, by=by, why=why, supplier=tidy(supplier), on=on, **changes)
    move_tying(Origin.objects.of(holding).filter(purchase=purchase), before, on, by=by)
    return purchase


@transaction.atomic
def correct_find(*, holding, by, find, on, why="", **changes):
    before = find.on
    find = correct(record=find, by=by, why=why, on=on, **changes)
    move_tying(Origin.objects.of(holding).filter(find=find), before, on, by=by)
    return find


def move_tying(origins, before, on, *, by):
    """Bundles that came in on a day came in on another."""
    if before == on:
        return
    made = (Bundle.Made.BOUGHT, Bundle.Made.FOUND)
    for origin in origins.filter(bundle__made__in=made).select_related("bundle"):
        bundle = origin.bundle
        try:
            correct(record=bundle, by=by, tied_on=on if bundle.tied_on == before else bundle.tied_on)
            check_tied_on(bundle)
        except Refusal as refusal:
            raise Refusal(refusal.sentence, field="on") from refusal


@transaction.atomic
def correct_grading(*, holding, by, grading, began_on, closed_on=None, rejects=None, rejects_mass=None, why=""):
    tied = Bundle.objects.of(holding).filter(grading=grading).order_by("tied_on")
    first, last = tied.first(), tied.last()
    if first and began_on > first.tied_on:
        day = write_day(first.tied_on)
        raise Refusal(_("A bundle was tied from it on %(day)s.") % {"day": day}, field="began_on")
    if last and closed_on and closed_on < last.tied_on:
        day = write_day(last.tied_on)
        raise Refusal(_("A bundle was tied from it on %(day)s.") % {"day": day}, field="closed_on")
    return correct(
        record=grading, by=by, why=why, began_on=began_on, closed_on=closed_on, **said_rejects(rejects, rejects_mass)
    )


def said_rejects(rejects, rejects_mass):
    """Rejects as they are kept: as a part or as a weight, or nothing said."""
    if rejects and rejects_mass:
        raise Refusal(_("Give the rejects as a part or as a weight, not both."), field="rejects_mass")
    said = rejects or rejects_mass
    return {
        "rejects_part_ppb": round(rejects.value * WHOLE) if rejects else None,
        "rejects_mass_kg": rejects_mass.value if rejects_mass else None,
        "rejects_mass_unit": rejects_mass.unit if rejects_mass else "",
        "rejects_text": said.text if said else "",
    }


@transaction.atomic
def correct_making(*, holding, by, making, hours=None, note="", why=""):
    return correct(record=making, by=by, why=why, hours=hours, note=note)


@on_correct.register(Cut)
def _cut_otherwise(record, *, before, by):
    """Rods are cut before they are tied; what was reckoned from the day of the cut is to be reckoned anew."""
    tied = Bundle.objects.of(record.holding).filter(grading__cut=record).order_by("tied_on").first()
    if tied and tied.tied_on < record.first_on:
        words = {"bundle": tied, "tied": write_day(tied.tied_on), "cut": write_day(record.first_on)}
        raise Refusal(
            _("%(bundle)s was tied from this cut on %(tied)s: its first day can't be as late as %(cut)s.") % words,
            field="on",
        )
    if before.age_years != record.age_years:
        for bundle in Bundle.objects.of(record.holding).filter(grading__cut=record, age_years=before.age_years):
            correct(record=bundle, by=by, why=_("the age of its cut was corrected"), age_years=record.age_years)
    for origin in Origin.objects.of(record.holding).filter(cut=record).select_related("bundle"):
        give_evidence(bundle=origin.bundle)
