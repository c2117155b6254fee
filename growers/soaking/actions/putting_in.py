"""Rods of a bundle go into a tank, and are looked at there."""

from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import check_tied
from growers.bundles.models import Taking
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.stock.actions import take_out

from ..models import Batch, BendCheck, WaterReading
from ..queries import checks_of, lifts_of, too_long
from .tanks import read_water, water_fields


@transaction.atomic
def put_in(*, holding, by, bundle, tank, moment, much, all_under=True, water=None, promised_too=False, note=""):
    """Take rods out of a bundle and put them in a tank. `water` is a Reading or "like last time"."""
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
        # Rods that no tank of that length covers stand out of the water, whatever was ticked.
        all_under=all_under and not too_long(bundle, tank),
        soaked_before=bundle.soaked_before,
        note=note,
    )
    write(batch, by=by)
    if water is not None:
        water_when_put_in(batch, water, by=by)
    return batch


def water_when_put_in(batch, water, *, by):
    """Rods of two bundles put in together share one reading, though it is typed with each."""
    try:
        same = {"at": batch.in_at, "temperature_c": water_fields(batch.tank, batch.in_at, water, "")["temperature_c"]}
        if WaterReading.objects.of(batch.holding).filter(tank=batch.tank, **same).exists():
            return
        read_water(holding=batch.holding, by=by, tank=batch.tank, at=batch.in_at, temperature=water)
    except Refusal as refusal:
        raise Refusal(refusal.sentence, field="water") from refusal


def day_of(holding, bundle, moment):
    """The local day rods were taken out for the water, and the instant where it is known."""
    zone = ZoneInfo(holding.zone)
    first, last = moment.at.astimezone(zone).date(), moment.until.astimezone(zone).date()
    check_tied(bundle, last, field="moment")
    return max(first, bundle.tied_on), moment.at if moment.exact else None


@transaction.atomic
def correct_batch(*, holding, by, batch, moment, tank, all_under=True, soaked_before=False, note="", why=""):
    """Correct when and where a batch went in; how much is corrected with the taking."""
    bundle = batch.taking.bundle
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
def correct_bendcheck(*, holding, by, bendcheck, at, result, rods_tried=None, note="", why=""):
    check_in_water(bendcheck.batch, at)
    return correct(record=bendcheck, by=by, why=why, at=at, result=result, rods_tried=rods_tried, note=note)
