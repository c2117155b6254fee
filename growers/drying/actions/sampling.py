"""Oven tests, meter readings and the grower's word: each of one cut, one stack or one bundle."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle, Stack
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.harvest.models import Cut
from growers.people.actions import correct, on_correct, write

from ..models import MeterReading, OvenTest, Weighing, Word
from .raising import raise_evidence

BEGAN = {Cut: "first_on", Stack: "stacked_on", Bundle: "tied_on"}


def sample_of(thing):
    """The one relation that a reading of this thing has."""
    return {thing.kind: thing}


def check_sample(sample, **same):
    """Not before the thing was there, and not the very same reading twice: it would make us falsely sure."""
    thing = sample.of_what
    began = getattr(thing, BEGAN[type(thing)])
    if sample.on < began:
        words = {"thing": thing, "day": write_day(began)}
        raise Refusal(_("%(thing)s is of %(day)s: this can't be older.") % words, field="on")
    twice = type(sample).objects.of(sample.holding).filter(on=sample.on, **sample_of(thing), **same)
    if twice.exclude(pk=sample.pk).exists():
        raise Refusal(_("That is in the book already."), field="on")


def check_begun(record):
    """Refuse that a cut, a stack or a bundle began after it was weighed, tested or spoken of."""
    began = BEGAN[type(record)]
    kinds = (Weighing, OvenTest, MeterReading, Word) if isinstance(record, Bundle) else (OvenTest, MeterReading, Word)
    for model in kinds:
        rows = model.objects.of(record.holding).filter(**sample_of(record), on__lt=getattr(record, began))
        if first := rows.order_by("on").first():
            words = {"what": first._meta.verbose_name, "day": write_day(first.on)}
            raise Refusal(_("There is a %(what)s of %(day)s: it was there by then.") % words, field=began)


@on_correct.register(Bundle)
@on_correct.register(Stack)
@on_correct.register(Cut)
def _began_on_another_day(record, *, before, by):
    check_begun(record)


def keep(sample, by, **same):
    check_sample(sample, **same)
    write(sample, by=by)
    raise_evidence(sample)
    return sample


def oven(wet_g, dry_g):
    """What an oven test keeps of its two weights (Readings of mass), in grams."""
    return {"wet_g": wet_g.value * 1000, "dry_g": dry_g.value * 1000, "typed": f"{wet_g.text} / {dry_g.text}"[:80]}


@transaction.atomic
def oven_test(*, holding, by, of, on, wet_g, dry_g, note=""):
    """A few rods of a cut, a stack or a bundle, weighed before the oven and after it."""
    weights = oven(wet_g, dry_g)
    test = OvenTest(holding=holding, on=on, note=note, **sample_of(of), **weights)
    return keep(test, by, wet_g=weights["wet_g"], dry_g=weights["dry_g"])


@transaction.atomic
def correct_oven_test(*, holding, by, oventest, on, wet_g, dry_g, note="", why=""):
    weights = oven(wet_g, dry_g)
    corrected = correct(record=oventest, by=by, why=why, on=on, note=note, **weights)
    check_sample(corrected, wet_g=weights["wet_g"], dry_g=weights["dry_g"])
    return corrected


@transaction.atomic
def meter_reading(*, holding, by, of, on, moisture, meter=""):
    """What a pin meter said."""
    reading = MeterReading(
        holding=holding, on=on, moisture=moisture.value, typed=moisture.text, meter=meter, **sample_of(of)
    )
    return keep(reading, by, moisture=reading.moisture, meter=meter)


@transaction.atomic
def correct_meter(*, holding, by, meterreading, on, moisture, meter="", why=""):
    corrected = correct(
        record=meterreading, by=by, why=why, on=on, moisture=moisture.value, typed=moisture.text, meter=meter
    )
    check_sample(corrected, moisture=corrected.moisture, meter=meter)
    return corrected


@transaction.atomic
def give_word(*, holding, by, of, on, says, how="", note=""):
    """The grower's word: “I call it dry”, or what speaks against it."""
    word = Word(holding=holding, on=on, says=says, how=how, note=note, **sample_of(of))
    check_how(word)
    return keep(word, by, says=says, how=how)


def check_how(word):
    if word.how and word.is_veto:
        raise Refusal(_("How you know goes with “I call it dry” alone. Leave it out here."), field="how")


@transaction.atomic
def correct_word(*, holding, by, word, on, says, how="", note="", why=""):
    corrected = correct(record=word, by=by, why=why, on=on, says=says, how=how, note=note)
    check_how(corrected)
    check_sample(corrected, says=says, how=how)
    return corrected
