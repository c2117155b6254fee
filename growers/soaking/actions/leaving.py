"""What becomes of soaked rods that are not woven; and the door through which baskets take theirs."""

from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import NewBundle, dried_again
from growers.bundles.models import Bundle
from growers.bundles.rules import WHOLE, parts
from growers.drying.queries import assess
from growers.furniture import much as ways
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, on_correct, on_strike_out, write
from growers.stock.actions import SLACK

from ..models import DriedAgain, Lift, Spoiled
from ..queries import lifts_of
from .ledger import NotThere, draw, hold, not_out, part_of


def take_of_what_is_out(batch, part, on):
    """Draw a part of what is out of the water and unused; the parts drawn, of the whole batch."""
    batch = hold(batch)
    check_lifted_by(batch, on)
    if not batch.out_ppb:
        raise Refusal(not_out(batch), field="part")
    part_ppb = part_of(part, batch.out_ppb)
    draw(batch, left=part_ppb)
    return part_ppb


def check_lifted_by(batch, on, field="on"):
    zone = ZoneInfo(batch.holding.zone)
    first = min((lift.at.astimezone(zone).date() for lift in lifts_of(batch)), default=None)
    if first and on < first:
        raise Refusal(_("None of these rods was lifted until %(day)s.") % {"day": write_day(first)}, field=field)


@transaction.atomic
def dry_again(
    *, holding, by, batch, on, part=None, length_class=None, thickness="", mass=None, rods=None, place=None, note=""
):
    """Soaked rods dried right out and tied: a bundle of its own, marked as soaked before."""
    part_ppb = take_of_what_is_out(batch, part, on)
    parent = batch.taking.bundle
    new = NewBundle(
        part_ppb=WHOLE,
        length_class=length_class or parent.length_class,
        thickness=thickness or parent.thickness,
        mass=mass,
        rods=rods,
        note=note,
    )
    # Drying out is once only: what had dried out before it was soaked stays so.
    dried_out_on = assess(parent, on).dried_out_on
    bundle = dried_again(
        holding=holding, by=by, parent=parent, new=new, on=on, place=place, dried_out_before_on=dried_out_on
    )
    return write(DriedAgain(holding=holding, batch=batch, bundle=bundle, on=on, part_ppb=part_ppb), by=by)


@transaction.atomic
def spoil(*, holding, by, batch, on, cause, part=None):
    part_ppb = take_of_what_is_out(batch, part, on)
    return write(Spoiled(holding=holding, batch=batch, on=on, part_ppb=part_ppb, cause=cause), by=by)


@transaction.atomic
def correct_driedagain(*, holding, by, driedagain, on, part=None, why=""):
    """`part` is now of the whole batch; the bundle itself is corrected on its own page."""
    check_lifted_by(driedagain.batch, on)
    if on != driedagain.bundle.tied_on:
        # The day follows that of the bundle.
        correct(record=driedagain.bundle, by=by, why=why, tied_on=on)
    return correct(record=driedagain, by=by, why=why, on=on, **part_of_batch(part))


@transaction.atomic
def correct_spoiled(*, holding, by, spoiled, on, cause, part=None, why=""):
    """`part` is now of the whole batch."""
    check_lifted_by(spoiled.batch, on)
    return correct(record=spoiled, by=by, why=why, on=on, cause=cause, **part_of_batch(part))


def part_of_batch(part):
    return {} if part is None else {"part_ppb": part_of(part, WHOLE)}


def part_to_use(batch, *, on, much, own_ppb=0):
    """How much of a batch goes into something, as the grower says it, in parts of the whole batch.

    `own_ppb` is what the same thing has had already and now says anew.
    """
    batch = hold(batch)
    check_lifted_by(batch, on)
    return part_said(batch, much, batch.out_ppb + own_ppb)


def use(batch, part_ppb):
    """Rods go into something else (for parts below nothing: come back from it); never more than is out and unused."""
    draw(batch, left=part_ppb)


def part_said(batch, much, there_ppb):
    """What was said, in parts of the whole batch: a part, or the rest, is of what is there."""
    if not there_ppb:
        raise NotThere(not_out(batch), field="much")
    if much.how == ways.REST:
        return there_ppb
    if much.how == ways.PART:
        return max(parts(much.value, there_ppb), 1)
    part_ppb = max(round(WHOLE * much.value / size_said(batch.taking, much.how)), 1)
    if part_ppb > there_ppb * (1 + SLACK):
        raise NotThere(not_out(batch), field="much")
    return min(part_ppb, there_ppb)


def size_said(taking, how):
    """The rods or the weight (kg, dry) that went into the water."""
    size = taking.rods if how == ways.RODS else taking.mass_kg
    if size:
        return size
    if how == ways.RODS:
        sentence = _("How many rods went into the water is not in the book. Say a part, such as half, or the rest.")
    else:
        sentence = _("What went into the water was not weighed. Say a part, such as half, or the rest.")
    raise Refusal(sentence, field="much")


@on_correct.register(Bundle)
def _tied_on_another_day(record, *, before, by):
    for dried in DriedAgain.objects.of(record.holding).filter(bundle=record).exclude(on=record.tied_on):
        check_lifted_by(dried.batch, record.tied_on, field="tied_on")
        correct(record=dried, by=by, on=record.tied_on)


@on_strike_out.register(Lift)
def _not_lifted(record, *, by):
    check_left_after_lifted(record.batch)


@on_correct.register(Lift)
def _lifted_at_another_time(record, *, before, by):
    check_left_after_lifted(record.batch)


def check_left_after_lifted(batch):
    """What was dried again or thrown away had been lifted by then."""
    for model in (DriedAgain, Spoiled):
        for each in model.objects.of(batch.holding).filter(batch=batch):
            check_lifted_by(batch, each.on, field="moment")
