from django.utils.translation import gettext as _

from growers.bundles.rules import WHOLE
from growers.furniture.moments import Moment
from growers.people.pages import Correction, correct_with, corrections

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


CORRECTIONS = corrections(
    Correction(Tank, forms.CorrectTankForm, actions.correct_tank, tank_now),
    Correction(WaterReading, forms.CorrectWaterForm, actions.correct_waterreading, water_now),
    Correction(Batch, forms.CorrectBatchForm, actions.correct_batch, batch_now),
    Correction(
        BendCheck,
        forms.CorrectCheckForm,
        actions.correct_bendcheck,
        as_written("at", "result", "rods_tried", "note"),
    ),
    Correction(Lift, forms.CorrectLiftForm, actions.correct_lift, lift_now),
    Correction(
        Mellow,
        forms.CorrectMellowForm,
        actions.correct_mellow,
        as_written("wrap", "began_at", "ended_at", "note"),
    ),
    Correction(BenchResult, forms.CorrectBenchForm, actions.correct_benchresult, as_written("at", "result", "note")),
    Correction(Steam, forms.CorrectSteamForm, actions.correct_steam, steam_now),
    Correction(Redamp, forms.CorrectRedampForm, actions.correct_redamp, redamp_now),
    Correction(GoneOver, forms.CorrectGoneOverForm, actions.correct_goneover, as_written("on", "what", "note")),
    Correction(DriedAgain, forms.CorrectDriedAgainForm, actions.correct_driedagain, drawn_now),
    Correction(Spoiled, forms.CorrectSpoiledForm, actions.correct_spoiled, drawn_now),
)
correct = correct_with(CORRECTIONS, then=lambda request, record: request.here("people:record", record.kind, record.uid))
