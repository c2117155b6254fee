from django.utils.translation import gettext as _

from growers.bundles.rules import WHOLE
from growers.furniture.moments import Moment
from growers.people.pages import keep

from .. import actions, forms
from ..models import (
    Batch,
    BenchResult,
    BendCheck,
    DriedAgain,
    GoneOver,
    Lift,
    Mellow,
    Redamp,
    Spoiled,
    Steam,
    Tank,
    WaterReading,
)
from .about import find


def tank_now(tank):
    now = {name: getattr(tank, name) for name in ("name", "what", "room_bundles", "note")}
    return now | {"greatest_length": tank.greatest_length_text}


def water_now(reading):
    how = reading.how if reading.how == WaterReading.How.TOPPED else ""
    return {"temperature": reading.temperature_text, "at": reading.at, "how": how}


def batch_now(batch):
    names = ("all_under", "soaked_before", "note")
    return {name: getattr(batch, name) for name in names} | {"tank": batch.tank.uid, "moment": batch.went_in}


def lift_now(lift):
    names = ("which", "state", "note")
    now = {name: getattr(lift, name) for name in names}
    return now | {"moment": Moment(lift.at, lift.until_at, ""), "part": lift.part_ppb / WHOLE}


def drawn_now(record):
    return {"part": record.part_ppb / WHOLE, "on": record.on, "cause": getattr(record, "cause", "")}


def steam_now(steam):
    now = as_written("at", "purpose", "note")(steam)
    return now | {"minutes": steam.minutes and _("%(minutes)d min") % {"minutes": steam.minutes}}


def redamp_now(redamp):
    minutes = redamp.until_at and round((redamp.until_at - redamp.at).total_seconds() / 60)
    return as_written("how", "at", "note")(redamp) | {
        "tank": redamp.tank and redamp.tank.uid,
        "hours": minutes and _("%(minutes)d min") % {"minutes": minutes},
    }


def as_written(*names):
    return lambda record: {name: getattr(record, name) for name in names}


# Kind of record: model, form, action, what the action calls it, what stands in the form.
CORRECTIONS = {
    "tank": (Tank, forms.CorrectTankForm, actions.correct_tank, "tank", tank_now),
    "waterreading": (WaterReading, forms.CorrectWaterForm, actions.correct_waterreading, "reading", water_now),
    "batch": (Batch, forms.CorrectBatchForm, actions.correct_batch, "batch", batch_now),
    "bendcheck": (
        BendCheck,
        forms.CorrectCheckForm,
        actions.correct_bendcheck,
        "check",
        as_written("at", "result", "rods_tried", "note"),
    ),
    "lift": (Lift, forms.CorrectLiftForm, actions.correct_lift, "lift", lift_now),
    "mellow": (
        Mellow,
        forms.CorrectMellowForm,
        actions.correct_mellow,
        "mellow",
        as_written("wrap", "began_at", "ended_at", "note"),
    ),
    "benchresult": (
        BenchResult,
        forms.CorrectBenchForm,
        actions.correct_benchresult,
        "bench",
        as_written("at", "result", "note"),
    ),
    "steam": (Steam, forms.CorrectSteamForm, actions.correct_steam, "steam", steam_now),
    "redamp": (Redamp, forms.CorrectRedampForm, actions.correct_redamp, "redamp", redamp_now),
    "goneover": (
        GoneOver,
        forms.CorrectGoneOverForm,
        actions.correct_goneover,
        "gone",
        as_written("on", "what", "note"),
    ),
    "driedagain": (DriedAgain, forms.CorrectDriedAgainForm, actions.correct_driedagain, "dried", drawn_now),
    "spoiled": (Spoiled, forms.CorrectSpoiledForm, actions.correct_spoiled, "spoiled", drawn_now),
}


def correct(request, kind, uid):
    model, form, act, name, now = CORRECTIONS[kind]
    record = find(request, model, uid)
    return keep(
        request,
        form=form,
        template="soaking/form.html",
        act=act,
        fixed={name: record},
        initial=now(record),
        then=request.here("people:record", kind, uid),
        undo=False,
        context={
            "title": _("Correct: %(what)s") % {"what": model._meta.verbose_name},
            "record": record,
            "save": _("Put it right"),
        },
    )
