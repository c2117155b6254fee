"""The day a bundle was tied, among the days of all that came before and after."""

from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal

from ..models import Adjustment, Move, Origin, Taking


def check_tied_on(bundle):
    """A bundle was tied once its rods were there, and before anything was done with it."""
    if bundle.making and bundle.tied_on != bundle.making.on:
        day = write_day(bundle.making.on)
        raise Refusal(_("It was made from other bundles, on %(day)s.") % {"day": day}, field="tied_on")
    there, sentence = max(were_there(bundle), key=lambda each: each[0])
    if bundle.tied_on < there:
        raise Refusal(sentence % {"day": write_day(there)}, field="tied_on")
    first = min((day for found in done_with(bundle) for day in found.values_list("on", flat=True)), default=None)
    if first and bundle.tied_on > first:
        day = write_day(first)
        raise Refusal(_("Something was done with it on %(day)s already.") % {"day": day}, field="tied_on")


def were_there(bundle):
    """From when the rods of a bundle were there: [(day, what to say of an earlier one)]."""
    if bundle.dried_from:
        yield bundle.dried_from.tied_on, _("The bundle they were part of was not tied until %(day)s.")
    for origin in Origin.objects.of(bundle.holding).filter(bundle=bundle).select_related("cut", "purchase", "find"):
        if origin.cut:
            yield origin.cut.first_on, _("These rods were not cut until %(day)s.")
        else:
            yield (origin.purchase or origin.find).on, _("These rods did not come in until %(day)s.")


def done_with(bundle):
    return [model.objects.of(bundle.holding).filter(bundle=bundle) for model in (Taking, Adjustment, Move)]
