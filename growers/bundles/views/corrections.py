from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from growers.people.pages import keep

from .. import actions, forms, queries
from ..models import Bundle, Find, Grading, Making, Move, Place, Purchase, Stack

CORRECTIONS = {
    "bundle": (Bundle, forms.CorrectBundleForm, actions.correct_bundle),
    "find": (Find, forms.CorrectFindForm, actions.correct_find),
    "grading": (Grading, forms.CorrectGradingForm, actions.correct_grading),
    "making": (Making, forms.CorrectMakingForm, actions.correct_making),
    "move": (Move, forms.CorrectMoveForm, actions.correct_move),
    "place": (Place, forms.CorrectPlaceForm, actions.correct_place),
    "purchase": (Purchase, forms.CorrectPurchaseForm, actions.correct_purchase),
    "stack": (Stack, forms.CorrectStackForm, actions.correct_stack),
}


def correct(request, uid, kind):
    model, form, act = CORRECTIONS[kind]
    record = get_object_or_404(model.objects.of(request.holding), uid=uid)
    return keep(
        request,
        form=form,
        template="beds/form.html",
        act=act,
        fixed={kind: record},
        initial=form.of(record),
        then=shown_on(request, record),
        undo=False,
        context={"title": _("Correct %(record)s") % {"record": record}},
    )


def shown_on(request, record):
    """The page on which a record is seen."""
    if record.kind in ("place", "stack"):
        return request.here(f"bundles:{record.kind}", record.uid)
    if record.kind == "grading":
        return request.here("bundles:bench_cut", record.cut.uid)
    bundle = {"bundle": lambda: record, "move": lambda: record.bundle}.get(record.kind, lambda: only_bundle(record))()
    return request.here("trace:bundle", bundle.uid) if bundle else request.here("bundles:bundles")


def only_bundle(record):
    """The bundle that came in or was made with this record, where it was one alone."""
    made = queries.came_out(record) if record.kind == "making" else queries.came_in_with(record)
    return made[0] if len(made) == 1 else None
