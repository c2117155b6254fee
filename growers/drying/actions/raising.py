"""Whatever changes the evidence says so, in the same transaction: what was reckoned from it is judged anew."""

from growers.bundles.actions import give_evidence
from growers.bundles.models import Bundle
from growers.people.actions import new_evidence, on_correct, on_put_back, on_strike_out

from ..models import AirReading, MeterReading, OvenTest, Weighing, Word


def raise_evidence(record):
    """For the bundles that a weighing, a test or a word speaks of, and their sisters."""
    if getattr(record, "cut", None):
        origins = {"origins__cut": record.cut, "origins__struck_out_at": None}
        bundles = list(Bundle.objects.of(record.holding).filter(**origins).distinct())
    else:
        bundles = [record.bundle] if record.bundle else []
    stacks = {bundle.stack for bundle in bundles if bundle.stack}
    if getattr(record, "stack", None):
        stacks.add(record.stack)
    for bundle in sorted(bundles, key=lambda bundle: bundle.pk):
        give_evidence(bundle=bundle)
    for stack in sorted(stacks, key=lambda stack: stack.pk):
        give_evidence(stack=stack)


SPEAKS = (Weighing, OvenTest, MeterReading, Word)


def _changed(record, *, by):
    raise_evidence(record)


def _corrected(record, *, before, by):
    raise_evidence(before)
    raise_evidence(record)


def _air_changed(record, *, by):
    new_evidence(record.holding)


def _air_corrected(record, *, before, by):
    new_evidence(record.holding)


for kind in SPEAKS:
    on_strike_out.register(kind)(_changed)
    on_put_back.register(kind)(_changed)
    on_correct.register(kind)(_corrected)
on_strike_out.register(AirReading)(_air_changed)
on_put_back.register(AirReading)(_air_changed)
on_correct.register(AirReading)(_air_corrected)
