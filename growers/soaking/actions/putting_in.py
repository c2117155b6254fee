"""Rods of a bundle go into a tank, and are looked at there."""

from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.models import Taking
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.furniture.writing import write as written
from growers.people.actions import correct, write
from growers.stock.actions import take_out

from ..models import Batch, BendCheck
from ..queries import checks_of, lifts_of
from .tanks import read_water


@transaction.atomic
def put_in(*, holding, by, bundle, tank, moment, much, all_under=True, water=None, promised_too=False, note=""):
    """Take rods out of a bundle and put them in a tank. `water` is a Reading or "like last time"."""
    check_fits(bundle, tank)
    on, at = day_of(holding, bundle, moment)
    taking = take_out(
        holding=holding,
        by=by,
        bundle=bundle,
        on=on,
        at=at,
        purpose=Taking.Purpose.SOAK,
        much=much,
        promised_too=promised_too,
    )
    batch = Batch(
        holding=holding,
        taking=taking,
        tank=tank,
        in_at=moment.at,
        in_until_at=moment.until,
        all_under=all_under,
        soaked_before=bundle.soaked_before,
        note=note,
    )
    write(batch, by=by)
    if water is not None:
        water_when_put_in(batch, water, by=by)
    return batch


def water_when_put_in(batch, water, *, by):
    try:
        read_water(holding=batch.holding, by=by, tank=batch.tank, at=batch.in_at, temperature=water)
    except Refusal as refusal:
        raise Refusal(refusal.sentence, field="water") from refusal


def check_fits(bundle, tank):
    shortest, room = bundle.length_class.min_m, tank.greatest_length_m
    if room is not None and shortest > room:
        words = {
            "tank": tank,
            "room": written("length", room, bundle.holding.length_unit),
            "label": bundle.length_class,
        }
        raise Refusal(
            _("“%(tank)s” takes rods up to %(room)s: no rod of %(label)s goes in whole.") % words, field="tank"
        )


def day_of(holding, bundle, moment):
    """The local day rods were taken out for the water, and the instant where it is known."""
    zone = ZoneInfo(holding.zone)
    first, last = moment.at.astimezone(zone).date(), moment.until.astimezone(zone).date()
    if last < bundle.tied_on:
        raise Refusal(
            _("%(bundle)s was not tied until %(day)s.") % {"bundle": bundle, "day": write_day(bundle.tied_on)},
            field="moment",
        )
    return max(first, bundle.tied_on), moment.at if moment.exact else None


@transaction.atomic
def correct_batch(*, holding, by, batch, moment, tank, all_under=True, soaked_before=False, note="", why=""):
    """Correct when and where a batch went in; how much is corrected with the taking."""
    bundle = batch.taking.bundle
    check_fits(bundle, tank)
    on, at = day_of(holding, bundle, moment)
    first = min([check.at for check in checks_of(batch)] + [lift.until_at for lift in lifts_of(batch)], default=None)
    if first and moment.at > first:
        raise Refusal(_("It was looked at or lifted before then. Correct that first."), field="moment")
    if (on, at) != (batch.taking.on, batch.taking.at):
        correct(record=batch.taking, by=by, why=why, on=on, at=at)
    return correct(
        record=batch,
        by=by,
        why=why,
        in_at=moment.at,
        in_until_at=moment.until,
        tank=tank,
        all_under=all_under,
        soaked_before=soaked_before,
        note=note,
    )


@transaction.atomic
def check_bend(*, holding, by, batch, at, result, rods_tried=None, note=""):
    check_in_water(batch, at)
    check = BendCheck(holding=holding, batch=batch, at=at, result=result, rods_tried=rods_tried, note=note)
    return write(check, by=by)


def check_in_water(batch, at):
    if at < batch.in_at:
        raise Refusal(_("These rods were not in the water yet at that time."), field="at")
    lifts = lifts_of(batch)
    batch.refresh_from_db(fields=["in_water_ppb"])
    if not batch.in_water_ppb and lifts and at > max(lift.until_at for lift in lifts):
        raise Refusal(
            _("All of this batch was out of the water by then. How it worked is said at the bench."), field="at"
        )


@transaction.atomic
def correct_bendcheck(*, holding, by, check, at, result, rods_tried=None, note="", why=""):
    check_in_water(check.batch, at)
    return correct(record=check, by=by, why=why, at=at, result=result, rods_tried=rods_tried, note=note)
