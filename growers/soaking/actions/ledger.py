"""The parts of a batch: no more is lifted than is in the water, no more is used than is out of it."""

from django.db.models import F
from django.utils.translation import gettext as _

from growers.bundles.rules import WHOLE, parts
from growers.furniture.refusals import Refusal
from growers.people.actions import on_correct, on_put_back, on_strike_out

from ..models import Batch, DriedAgain, Lift, Spoiled


class NotThere(Refusal):
    """More was to be lifted or used than there is."""


def hold(batch):
    """The batch as it is now, held until the transaction ends."""
    return Batch.objects.of(batch.holding, struck_out=True).select_for_update().get(pk=batch.pk)


def part_of(part, there_ppb):
    """Whole parts of what is there; all of it where no part is said."""
    return there_ppb if part is None else max(parts(part.value, there_ppb), 1)


def draw(batch, *, in_water=0, left=0):
    """Lower what is in the water and what is left by these parts (raise them, for parts below nothing)."""
    found = Batch.objects.of(batch.holding, struck_out=True).filter(pk=batch.pk)
    within = found.filter(
        in_water_ppb__range=(max(in_water, 0), WHOLE + min(in_water, 0)),
        left_ppb__range=(max(left, 0), WHOLE + min(left, 0)),
        left_ppb__gte=F("in_water_ppb") + left - in_water,
    )
    changed = within.update(in_water_ppb=F("in_water_ppb") - in_water, left_ppb=F("left_ppb") - left)
    batch.refresh_from_db(fields=["in_water_ppb", "left_ppb"])
    if changed:
        return
    if in_water > 0:
        raise NotThere(not_in_water(batch), field="part")
    if left > 0:
        raise NotThere(not_out(batch), field="part")
    if in_water < 0:
        raise NotThere(_("Rods of that lift have been used, dried again or thrown away since. Strike that out first."))
    raise NotThere(_("That would leave more of the batch than ever went into the water."))


def not_in_water(batch):
    if not batch.in_water_ppb:
        return _("All of this batch has been lifted already.")
    return _("Only about %(percent)d %% of this batch is still in the water.") % {
        "percent": percent(batch.in_water_ppb)
    }


def not_out(batch):
    if not batch.out_ppb and batch.in_water_ppb:
        return _("None of this batch is out of the water and unused. Lift some first.")
    if not batch.out_ppb:
        return _("By the book nothing of this batch is left.")
    return _("Only about %(percent)d %% of this batch is out of the water and unused.") % {
        "percent": percent(batch.out_ppb)
    }


def percent(ppb):
    return max(round(ppb * 100 / WHOLE), 1)


@on_strike_out.register(Lift)
def _into_the_water_again(record, *, by):
    draw(record.batch, in_water=-record.part_ppb)


@on_put_back.register(Lift)
def _lifted_after_all(record, *, by):
    draw(record.batch, in_water=record.part_ppb)


@on_correct.register(Lift)
def _lifted_otherwise(record, *, before, by):
    draw(record.batch, in_water=record.part_ppb - before.part_ppb)


@on_strike_out.register(DriedAgain)
@on_strike_out.register(Spoiled)
def _there_again(record, *, by):
    draw(record.batch, left=-record.part_ppb)


@on_put_back.register(DriedAgain)
@on_put_back.register(Spoiled)
def _gone_after_all(record, *, by):
    draw(record.batch, left=record.part_ppb)


@on_correct.register(DriedAgain)
@on_correct.register(Spoiled)
def _gone_otherwise(record, *, before, by):
    draw(record.batch, left=record.part_ppb - before.part_ppb)
