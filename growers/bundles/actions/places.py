"""Where bundles stand, and which dry together."""

from datetime import timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal
from growers.people.actions import before_strike_out, correct, on_correct, on_put_back, on_strike_out, write
from growers.people.rules import named

from ..models import Bundle, Move, Place, Stack
from .ledger import check_tied, give_evidence

STACK_WITHIN = timedelta(days=14)
"""Sisters are tied within a fortnight of each other (our own rule for what dries alike)."""


@transaction.atomic
def add_place(*, holding, by, name, cover=Place.Cover.SHED, note=""):
    return write(Place(holding=holding, **named(name), cover=cover, note=note), by=by)


def put_in_place(bundle, place, *, by):
    if place is not None:
        write(Move(holding=bundle.holding, bundle=bundle, place=place, on=bundle.tied_on), by=by)


@transaction.atomic
def move(*, holding, by, bundles, place, on, at=None):
    """Bundles stand in another place from this day; one that leaves its stack is no sister any more."""
    bundles = list(bundles)
    if not bundles:
        raise Refusal(_("Choose the bundles that were moved."), field="bundles")
    for bundle in bundles:
        check_tied(bundle, on)
    moves = [write(Move(holding=holding, bundle=bundle, place=place, on=on, at=at), by=by) for bundle in bundles]
    whole_stacks = stacks_moved_whole(holding, bundles)
    for bundle in bundles:
        if bundle.stack_id and bundle.stack_id not in whole_stacks:
            leave_stack(holding=holding, by=by, bundle=bundle)
        give_evidence(bundle=bundle)
    return moves


def stacks_moved_whole(holding, bundles):
    moved = {bundle.pk for bundle in bundles}
    whole = set()
    for stack in {bundle.stack_id for bundle in bundles if bundle.stack_id}:
        sisters = Bundle.objects.of(holding).with_some_left().filter(stack=stack).values_list("pk", flat=True)
        if set(sisters) <= moved:
            whole.add(stack)
    return whole


@transaction.atomic
def stack_up(*, holding, by, name, bundles, on, telltales=()):
    """Bundles dried together as sisters: one type, one bench within a fortnight, one place."""
    bundles = list(bundles)
    if not bundles:
        raise Refusal(_("Choose the bundles that stand in this stack."), field="bundles")
    check_sisters(holding, bundles, on)
    stack = write(Stack(holding=holding, **named(name), stacked_on=on), by=by)
    for bundle in bundles:
        correct(record=bundle, by=by, stack=stack, telltale=bundle in telltales)
        give_evidence(bundle=bundle)
    return stack


def check_sisters(holding, bundles, on):
    if len({bundle.type for bundle in bundles}) > 1:
        raise Refusal(
            _("Sisters are of one type: brown, white, buff or steamed dry each at their own pace."), field="bundles"
        )
    days = [bundle.tied_on for bundle in bundles]
    if max(days) - min(days) > STACK_WITHIN:
        raise Refusal(_("Sisters are tied within a fortnight of each other: make two stacks."), field="bundles")
    if max(days) > on:
        raise Refusal(_("One of these bundles was tied after that day."), field="on")
    placed = Bundle.objects.of(holding).with_place().filter(pk__in=[bundle.pk for bundle in bundles])
    if len({bundle.place_id for bundle in placed}) > 1:
        raise Refusal(_("Sisters stand in one place: move them together first."), field="bundles")
    for bundle in bundles:
        if bundle.stack_id:
            raise Refusal(_("%(bundle)s stands in a stack already.") % {"bundle": bundle}, field="bundles")


@transaction.atomic
def leave_stack(*, holding, by, bundle):
    stack = bundle.stack
    correct(record=bundle, by=by, stack=None, telltale=False)
    give_evidence(bundle=bundle)
    if stack:
        give_evidence(stack=stack)
    return bundle


@transaction.atomic
def call_telltale(*, holding, by, bundle, telltale=True):
    """Make a bundle the one that is weighed for its sisters (or no longer)."""
    correct(record=bundle, by=by, telltale=telltale)
    if bundle.stack:
        give_evidence(stack=bundle.stack)
    return bundle


@on_strike_out.register(Move)
@on_put_back.register(Move)
def _stood_elsewhere(record, *, by):
    give_evidence(bundle=record.bundle)


@on_correct.register(Move)
def _moved_otherwise(record, *, before, by):
    give_evidence(bundle=record.bundle)


@before_strike_out.register(Stack)
def _take_down(record, *, by):
    for bundle in Bundle.objects.of(record.holding).filter(stack=record):
        leave_stack(holding=record.holding, by=by, bundle=bundle)
