"""A scale found to read wrong: every weight of the span is corrected at once, and can be set back."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle, ScaleCorrection
from growers.drying.models import Weighing
from growers.furniture.refusals import Refusal
from growers.people.actions import before_strike_out, correct, on_put_back, write

from ..models import Count

# Kind, its day, its weight, its scale.
WEIGHED = [
    (Bundle, "tied_on", "tied_mass_kg", "tied_scale"),
    (Weighing, "on", "mass_kg", "scale"),
    (Count, "on", "mass_kg", "scale"),
]


def weights_between(holding, from_on, to_on):
    """Every weight on bundles read in a span of days: (record, name of its weight, name of its scale)."""
    for model, day, mass, scale in WEIGHED:
        rows = model.objects.of(holding).filter(**{f"{day}__range": (from_on, to_on), f"{mass}__isnull": False})
        for row in rows.order_by(day, "pk"):
            yield row, mass, scale


@transaction.atomic
def correct_scale(*, holding, by, from_on, to_on, factor, why):
    """What the scale read in a span is multiplied by `factor`; what was typed stays beside it."""
    correction = ScaleCorrection(holding=holding, from_on=from_on, to_on=to_on, factor=factor, why=why)
    write(correction, by=by)
    if not apply(correction, by=by):
        raise Refusal(_("Nothing was weighed between those days."), field="from_on")
    return correction


def apply(correction, *, by):
    rows = list(weights_between(correction.holding, correction.from_on, correction.to_on))
    for row, mass, scale in rows:
        if getattr(row, scale):
            raise Refusal(_("“%(row)s” was set right before: strike that out first.") % {"row": row}, field="from_on")
        changes = {mass: getattr(row, mass) * correction.factor, scale: correction}
        correct(record=row, by=by, why=correction.why, **changes)
    return rows


@before_strike_out.register(ScaleCorrection)
def _set_back(record, *, by):
    for model, _day, mass, scale in WEIGHED:
        for row in model.objects.of(record.holding).filter(**{scale: record}).order_by("pk"):
            changes = {mass: getattr(row, mass) / record.factor, scale: None}
            correct(record=row, by=by, why=_("scale correction struck out"), **changes)


@on_put_back.register(ScaleCorrection)
def _set_right_again(record, *, by):
    apply(record, by=by)
