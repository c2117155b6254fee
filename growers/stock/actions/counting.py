"""Counting what is left, and setting the book right by it."""

from dataclasses import replace

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import check_tied, give_evidence, lock, set_right
from growers.bundles.models import Bundle
from growers.bundles.rules import WHOLE
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import on_correct, on_put_back, on_strike_out, strike_out, write
from growers.people.rules import weighed

from ..models import Count
from ..queries import believed_rods, whole_mass

SETS_RIGHT = {Count.Why.MISCOUNTED, Count.Why.UNWRITTEN, Count.Why.UNKNOWN}


@transaction.atomic
def count(*, holding, by, bundle, on, why, mass=None, rods=None, at=None, note="", scale=None):
    """Write what is left of a bundle. Drying further explains a lighter weight; other reasons set the ledger right.

    `scale` is the correction of the scale that it was weighed on, if that was set right.
    """
    if mass and scale:
        mass = replace(mass, value=mass.value * scale.factor)
    bundle = lock(holding=holding, bundles=[bundle])[bundle.pk]
    check_count(bundle, on, why, mass, rods)
    book_kg, book_rods = book_says(bundle, on)
    adjustment = None
    if why in SETS_RIGHT:
        left_ppb = left_as_counted(bundle, why, mass, rods, book_kg, book_rods)
        if left_ppb != bundle.left_ppb:
            adjustment = set_right(holding=holding, by=by, bundle=bundle, on=on, share_ppb=bundle.left_ppb - left_ppb)
    give_evidence(bundle=bundle)
    return write(
        Count(
            holding=holding,
            bundle=bundle,
            on=on,
            at=at,
            rods=rods,
            why=why,
            book_said_kg=book_kg,
            book_said_rods=book_rods,
            left_ppb=bundle.left_ppb,
            adjustment=adjustment,
            scale=scale if mass else None,
            note=note,
            **weighed(mass),
        ),
        by=by,
    )


def check_count(bundle, on, why, mass, rods):
    if (mass is None) == (rods is None):
        raise Refusal(_("Give what is left as a weight or as a number of rods."), field="mass")
    check_tied(bundle, on)
    if rods is not None and why == Count.Why.DRIED:
        sentence = _("Rods don't dry away: drying changes the weight, not the count. Choose another reason.")
        raise Refusal(sentence, field="why")


def book_says(bundle, on):
    """What the book says is left: in kg and in rods, where it can say."""
    whole, rods = whole_mass(bundle, on), believed_rods(bundle)
    return whole and whole.left_kg(bundle), None if rods is None else round(rods * bundle.left_ppb / WHOLE)


def left_as_counted(bundle, why, mass, rods, book_kg, book_rods):
    """The share that must be left for the count to be right."""
    if rods == 0:
        return 0
    if why == Count.Why.MISCOUNTED and bundle.left_ppb == WHOLE:
        # Nothing was ever taken: the bundle is whole still, only the number was wrong.
        return WHOLE
    counted, book = (mass.value, book_kg) if mass else (rods, believed_left(bundle))
    if not book:
        return whole_again(bundle, counted, mass)
    return min(WHOLE, round(bundle.left_ppb * counted / book))


def believed_left(bundle):
    rods = believed_rods(bundle)
    return rods * bundle.left_ppb / WHOLE if rods else None


def whole_again(bundle, counted, mass):
    """Rods turned up in a bundle that the book had as used up, or that it never knew the size of."""
    if bundle.left_ppb:
        return bundle.left_ppb
    whole = whole_mass(bundle, bundle.tied_on) if mass else None
    size = whole.kg if whole else None if mass else believed_rods(bundle)
    if not size:
        raise Refusal(
            _("The book has nothing left of %(bundle)s and never knew its size: strike out the last taking instead.")
            % {"bundle": bundle},
            field="mass" if mass else "rods",
        )
    return min(WHOLE, round(WHOLE * counted / size))


@transaction.atomic
def correct_count(*, holding, by, old, struck_out_at, reason="", **said):
    """Correct a count: the old one with its adjustment is struck out, and the right one written in its place."""
    strike_out(record=old, by=by, at=struck_out_at, reason=reason or _("corrected"))
    return count(holding=holding, by=by, bundle=old.bundle, scale=old.scale, **said)


@on_strike_out.register(Count)
@on_put_back.register(Count)
def _counted(record, *, by):
    give_evidence(bundle=record.bundle)


@on_correct.register(Count)
def _counted_otherwise(record, *, before, by):
    give_evidence(bundle=record.bundle)


@on_correct.register(Bundle)
def _tied_otherwise(record, *, before, by):
    first = Count.objects.of(record.holding).filter(bundle=record).order_by("on").first()
    if first and record.tied_on > first.on:
        raise Refusal(_("It was counted on %(day)s already.") % {"day": write_day(first.on)}, field="tied_on")
