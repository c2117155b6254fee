"""Lifted rods are steamed, damped again where they had dried out, or found to be past it."""

from datetime import timedelta
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write

from ..models import GoneOver, Redamp, Steam
from .lifting import check_after_lift


@transaction.atomic
def steam(*, holding, by, lift, at, minutes=None, purpose="", note=""):
    """`minutes`: a Reading of hours, as every length of time is read; None where nobody looked at the clock."""
    check_after_lift(lift, at, "at")
    made = Steam(holding=holding, lift=lift, at=at, minutes=in_minutes(minutes), purpose=purpose, note=note)
    return write(made, by=by)


def in_minutes(hours):
    return None if hours is None else max(round(hours.value * 60), 1)


@transaction.atomic
def correct_steam(*, holding, by, steam, at, minutes=None, purpose="", note="", why=""):
    check_after_lift(steam.lift, at, "at")
    return correct(record=steam, by=by, why=why, at=at, minutes=in_minutes(minutes), purpose=purpose, note=note)


def fields_of_redamp(lift, *, how, at, hours, tank, note):
    check_after_lift(lift, at, "at")
    soaked = how == Redamp.How.SOAKED
    if soaked and tank is None:
        raise Refusal(_("Which tank were they soaked in again?"), field="tank")
    return {
        "how": how,
        "at": at,
        "until_at": at + timedelta(hours=hours.value) if hours else None,
        "tank": tank if soaked else None,
        "note": note,
    }


@transaction.atomic
def redamp(*, holding, by, lift, how, at, hours=None, tank=None, note=""):
    """Rods that had dried out after lifting are made damp again, for so long (a Reading) where that is known."""
    fields = fields_of_redamp(lift, how=how, at=at, hours=hours, tank=tank, note=note)
    return write(Redamp(holding=holding, lift=lift, **fields), by=by)


@transaction.atomic
def correct_redamp(*, holding, by, redamp, how, at, hours=None, tank=None, note="", why=""):
    fields = fields_of_redamp(redamp.lift, how=how, at=at, hours=hours, tank=tank, note=note)
    return correct(record=redamp, by=by, why=why, **fields)


def check_day_after_lift(lift, on):
    lifted = lift.at.astimezone(ZoneInfo(lift.holding.zone)).date()
    if on < lifted:
        raise Refusal(
            _("These rods were not lifted until %(day)s.") % {"day": write_day(lifted)},
            field="on",
        )


@transaction.atomic
def gone_over(*, holding, by, lift, on, what="", note=""):
    """Lifted rods were found past it on a day."""
    check_day_after_lift(lift, on)
    return write(GoneOver(holding=holding, lift=lift, on=on, what=what, note=note), by=by)


@transaction.atomic
def correct_goneover(*, holding, by, goneover, on, what="", note="", why=""):
    check_day_after_lift(goneover.lift, on)
    return correct(record=goneover, by=by, why=why, on=on, what=what, note=note)
