"""The grading bench: tying bundles, and bundles that come in from outside."""

import secrets

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, on_correct, write
from growers.people.rules import tidy, weighed

from ..models import Bundle, Find, Grading, Move, Origin, Purchase
from ..rules import WHOLE, with_check_digits
from .corrections import said_rejects
from .days import check_tied_on
from .ledger import give_evidence
from .places import put_in_place


def new_tag(holding):
    """A code no bundle of this holding has had, struck out or not: an old tag never lies."""
    used = Bundle.objects.of(holding, struck_out=True)
    for _try in range(200):
        tag = with_check_digits(secrets.randbelow(100_000))
        if not used.filter(tag=tag).exists():
            return tag
    raise Refusal(_("This book has nearly used up its tag codes."))


@transaction.atomic
def tie(
    *, holding, by, cut, on, length_class, how_many=1, mass=None, rods=None, place=None, at=None, age_years=None, **kind
):
    """Tie bundles of one length from a cut at the bench; `mass` and `rods` are of each."""
    if on < cut.first_on:
        raise Refusal(_("These rods were not cut until %(day)s.") % {"day": write_day(cut.first_on)}, field="on")
    check_how_many(how_many)
    grading = begin_grading(holding=holding, by=by, cut=cut, on=on)
    bundles = []
    for _each in range(how_many):
        bundle = Bundle(
            holding=holding,
            made=Bundle.Made.GRADED,
            grading=grading,
            tag=new_tag(holding),
            length_class=length_class,
            tied_on=on,
            tied_rods=rods,
            age_years=age_years or cut.age_years,
            **weighed(mass, "tied_"),
            **kind,
        )
        bundles.append(from_one_source(bundle, by=by, place=place, cut=cut))
    return bundles


def check_how_many(how_many):
    if not 1 <= how_many <= 200:
        raise Refusal(_("1 to 200 bundles go in at a time."), field="how_many")


def begin_grading(*, holding, by, cut, on):
    """The grading of a cut, begun or taken up again on a day."""
    grading = Grading.objects.of(holding).filter(cut=cut).first()
    if grading is None:
        return write(Grading(holding=holding, cut=cut, began_on=on), by=by)
    if on < grading.began_on:
        return correct(record=grading, by=by, began_on=on)
    if grading.closed_on and on > grading.closed_on:
        return correct(record=grading, by=by, why=_("taken up again"), closed_on=None)
    return grading


def from_one_source(bundle, *, by, place, **source):
    write(bundle, by=by)
    write(Origin(holding=bundle.holding, bundle=bundle, part_ppb=WHOLE, **source), by=by)
    put_in_place(bundle, place, by=by)
    return bundle


@transaction.atomic
def finish_grading(*, holding, by, cut, on, rejects=None, rejects_mass=None):
    """Close the grading of a cut with its rejects, as a part of what came off or as a weight."""
    grading = Grading.objects.of(holding).filter(cut=cut).first()
    if grading is None:
        raise Refusal(_("Nothing has been tied from this cut yet."))
    last = Bundle.objects.of(holding).filter(grading=grading).order_by("-tied_on").first()
    if last and on < last.tied_on:
        day = write_day(last.tied_on)
        raise Refusal(_("A bundle was tied from it on %(day)s.") % {"day": day}, field="on")
    return correct(record=grading, by=by, closed_on=on, **said_rejects(rejects, rejects_mass))


@transaction.atomic
def buy_in(
    *, holding, by, supplier, on, length_class, variety=None, told_winter="", how_many=1, mass=None, rods=None,
    place=None, note="", **kind
):  # fmt: skip
    """Bundles bought in from another grower: no bed of ours."""
    check_how_many(how_many)
    purchase = write(
        Purchase(holding=holding, supplier=tidy(supplier), on=on, variety=variety, told_winter=told_winter, note=note),
        by=by,
    )
    return [
        from_one_source(
            Bundle(
                holding=holding,
                made=Bundle.Made.BOUGHT,
                tag=new_tag(holding),
                length_class=length_class,
                tied_on=on,
                tied_rods=rods,
                **weighed(mass, "tied_"),
                **kind,
            ),
            by=by,
            place=place,
            purchase=purchase,
        )
        for _each in range(how_many)
    ]


@transaction.atomic
def find(
    *, holding, by, on, length_class, likely_variety=None, told_winter="", mass=None, rods=None, place=None, note="",
    **kind
):  # fmt: skip
    """A bundle that turned up without a tag."""
    found = write(
        Find(holding=holding, on=on, likely_variety=likely_variety, told_winter=told_winter, note=note), by=by
    )
    bundle = Bundle(
        holding=holding,
        made=Bundle.Made.FOUND,
        tag=new_tag(holding),
        length_class=length_class,
        tied_on=on,
        tied_rods=rods,
        **weighed(mass, "tied_"),
        **kind,
    )
    return from_one_source(bundle, by=by, place=place, find=found)


@transaction.atomic
def correct_bundle(*, holding, by, bundle, why="", mass=None, clear_mass=False, **changes):
    """Correct what is written of a bundle itself; its shares and origins have their own ways."""
    if mass is not None:
        # Where its scale was set right, a weight typed anew is set right as well.
        changes |= weighed(mass, "tied_", bundle.tied_scale.factor if bundle.tied_scale else 1.0)
    elif clear_mass:
        changes |= weighed(None, "tied_") | {"tied_scale": None}
    return correct(record=bundle, by=by, why=why, **changes)


@on_correct.register(Bundle)
def _is_otherwise(record, *, before, by):
    if before.tied_on != record.tied_on:
        for put in Move.objects.of(record.holding).filter(bundle=record, on=before.tied_on, at=None):
            correct(record=put, by=by, on=record.tied_on)
        check_tied_on(record)
    give_evidence(bundle=record)
