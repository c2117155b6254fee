"""Rods come out of the water, stand wrapped, and are worked."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.rules import WHOLE
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write

from ..models import BenchResult, Lift, Mellow
from ..queries import checks_of, lifts_of
from .ledger import draw, hold, not_in_water, part_of


@transaction.atomic
def lift(*, holding, by, batch, moment, part=None, which="", state="", wrap_in=None, note=""):
    """Lift a part (a Reading) of what is in the water, or all of it; `wrap_in` says that it was wrapped at once."""
    batch = hold(batch)
    check_lift_time(batch, moment)
    if not batch.in_water_ppb:
        raise Refusal(not_in_water(batch), field="part")
    part_ppb = part_of(part, batch.in_water_ppb)
    if part_ppb == batch.in_water_ppb:
        check_none_looked_at_after(batch, moment)
    draw(batch, in_water=part_ppb)
    lifted = Lift(
        holding=holding,
        batch=batch,
        at=moment.at,
        until_at=moment.until,
        part_ppb=part_ppb,
        which=which,
        state=state,
        note=note,
    )
    write(lifted, by=by)
    if wrap_in is not None:
        wrap(holding=holding, by=by, lift=lifted, began_at=moment.until, wrap=wrap_in)
    return lifted


def check_lift_time(batch, moment):
    if moment.over_by(batch.in_at):
        raise Refusal(_("These rods were not in the water yet at that time."), field="moment")


def check_none_looked_at_after(batch, moment):
    if any(check.at > moment.until for check in checks_of(batch)):
        raise Refusal(_("A bend check was made in the water after that time. Look at the time."), field="moment")


@transaction.atomic
def correct_lift(*, holding, by, lift, moment, part, which="", state="", note="", why=""):
    """Correct a lift; `part` is now of the whole batch."""
    batch = hold(lift.batch)
    check_lift_time(batch, moment)
    first = min(
        [result.at for result in BenchResult.objects.of(holding).filter(lift=lift)]
        + [mellow.began_at for mellow in Mellow.objects.of(holding).filter(lift=lift)],
        default=None,
    )
    if first and moment.at > first:
        raise Refusal(_("It was wrapped or worked before then. Correct that first."), field="moment")
    part_ppb = lift.part_ppb if part is None else part_of(part, WHOLE)
    if part_ppb == batch.in_water_ppb + lift.part_ppb:
        others = [each.moment for each in lifts_of(batch) if each.pk != lift.pk]
        check_none_looked_at_after(batch, max([moment, *others], key=lambda each: each.until))
    changes = {"at": moment.at, "until_at": moment.until, "part_ppb": part_ppb}
    return correct(record=lift, by=by, why=why, which=which, state=state, note=note, **changes)


def check_after_lift(lift, at, field):
    if at < lift.at:
        raise Refusal(_("These rods were still in the water at that time."), field=field)


@transaction.atomic
def wrap(*, holding, by, lift, began_at, wrap="", note=""):
    check_after_lift(lift, began_at, "began_at")
    return write(Mellow(holding=holding, lift=lift, began_at=began_at, wrap=wrap, note=note), by=by)


@transaction.atomic
def unwrap(*, holding, by, mellow, ended_at):
    if mellow.ended_at is not None:
        raise Refusal(_("These rods are in the book as unwrapped already: correct that."), field="ended_at")
    return correct(record=mellow, by=by, ended_at=ended_at)


@transaction.atomic
def correct_mellow(*, holding, by, mellow, began_at, ended_at=None, wrap="", note="", why=""):
    check_after_lift(mellow.lift, began_at, "began_at")
    return correct(record=mellow, by=by, why=why, began_at=began_at, ended_at=ended_at, wrap=wrap, note=note)


@transaction.atomic
def bench_result(*, holding, by, lift, at, result, note=""):
    check_after_lift(lift, at, "at")
    return write(BenchResult(holding=holding, lift=lift, at=at, result=result, note=note), by=by)


@transaction.atomic
def correct_benchresult(*, holding, by, benchresult, at, result, note="", why=""):
    check_after_lift(benchresult.lift, at, "at")
    return correct(record=benchresult, by=by, why=why, at=at, result=result, note=note)
