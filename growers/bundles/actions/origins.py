"""Where the rods of a bundle came from, carried through every making."""

from collections import defaultdict

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal
from growers.people.actions import correct, strike_out, write

from ..models import Bundle, Origin
from ..queries import came_out, dried_again_from, makings_from, origins_of, went_in
from ..rules import WHOLE, divide
from .ledger import give_evidence
from .tying import begin_grading


def in_parts(weights):
    """Weights of sources as whole parts of a bundle: {(relation, source): part_ppb}."""
    parts = dict(zip(weights, divide(WHOLE, list(weights.values())), strict=True))
    # A source too small for one part in a thousand million is in the book by its taking.
    return {source: part for source, part in parts.items() if part}


def write_origins(bundle, weights, *, by):
    """Write what part of a bundle came from which source."""
    for (relation, source), part_ppb in in_parts(weights).items():
        write(Origin(holding=bundle.holding, bundle=bundle, part_ppb=part_ppb, **{relation: source}), by=by)


def mixture(parents):
    """What sources the parents' rods come from together: parents is [(bundle, weight)]."""
    weights = defaultdict(float)
    for bundle, weight in parents:
        for origin in origins_of(bundle):
            weights[origin.source] += weight * origin.part_ppb / WHOLE
    return dict(weights)


def rewrite_origins(bundle, weights, *, by, at, why):
    """After a correction: the old origins are struck out, the right ones written."""
    old = origins_of(bundle)
    if {origin.source: origin.part_ppb for origin in old} == in_parts(weights):
        return
    for origin in old:
        strike_out(record=origin, by=by, reason=why, at=at, along_with=bundle)
    write_origins(bundle, weights, by=by)
    give_evidence(bundle=bundle)


def carry_on(bundle, *, by, at, why):
    """Carry a corrected origin into everything that was made from the bundle."""
    for making in makings_from(bundle):
        weights = mixture([(taking.bundle, taking.part_of_making_ppb) for taking in went_in(making)])
        for child in came_out(making):
            rewrite_origins(child, weights, by=by, at=at, why=why)
            carry_on(child, by=by, at=at, why=why)
    for child in dried_again_from(bundle):
        rewrite_origins(child, mixture([(bundle, WHOLE)]), by=by, at=at, why=why)
        carry_on(child, by=by, at=at, why=why)


@transaction.atomic
def was_of_cut(*, holding, by, bundle, cut, at, why):
    """A bundle had been tied under the wrong cut: it, and all that was made from it, is of this one."""
    if bundle.made != Bundle.Made.GRADED:
        raise Refusal(_("Only a bundle that was graded from a cut can be put under another."))
    if bundle.tied_on < cut.first_on:
        raise Refusal(_("That cut was made after %(bundle)s was tied.") % {"bundle": bundle}, field="cut")
    why = why.strip() or _("was of another cut")
    before = bundle.grading.cut
    grading = begin_grading(holding=holding, by=by, cut=cut, on=bundle.tied_on)
    age_years = cut.age_years if bundle.age_years == before.age_years else bundle.age_years
    correct(record=bundle, by=by, why=why, grading=grading, age_years=age_years)
    rewrite_origins(bundle, {("cut", cut): WHOLE}, by=by, at=at, why=why)
    carry_on(bundle, by=by, at=at, why=why)
    return bundle


@transaction.atomic
def settle_find(*, holding, by, find, variety, why=""):
    """An unknown bundle's variety became known: it is read through the find, so one correction reaches all."""
    return correct(record=find, by=by, why=why, variety=variety)
