from growers.people.pages import Correction, correct_with, corrections

from .. import actions, forms, queries
from ..models import Bundle, Find, Grading, Making, Move, Place, Purchase, Stack


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


CORRECTIONS = corrections(
    Correction(Bundle, forms.CorrectBundleForm, actions.correct_bundle),
    Correction(Find, forms.CorrectFindForm, actions.correct_find),
    Correction(Grading, forms.CorrectGradingForm, actions.correct_grading),
    Correction(Making, forms.CorrectMakingForm, actions.correct_making),
    Correction(Move, forms.CorrectMoveForm, actions.correct_move),
    Correction(Place, forms.CorrectPlaceForm, actions.correct_place),
    Correction(Purchase, forms.CorrectPurchaseForm, actions.correct_purchase),
    Correction(Stack, forms.CorrectStackForm, actions.correct_stack),
)
correct = correct_with(CORRECTIONS, then=shown_on)
