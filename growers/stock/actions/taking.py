"""Taking out as the grower says it, turned into a share of the bundle."""

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.bundles.actions import NotEnoughLeft, check_tied, lock, take
from growers.bundles.models import Taking
from growers.bundles.rules import WHOLE
from growers.furniture import much as ways
from growers.furniture.refusals import Refusal
from growers.furniture.writing import write as written
from growers.people.actions import correct

from ..queries import believed_rods, standing_promises, whole_mass

SLACK = 0.02
"""A weight this much above what the book says is left is all the rest: scales and damp differ by as much."""


class NotKnown(Refusal):
    """The book can't turn what was said into a share; the sentence says what it can."""


@transaction.atomic
def take_out(
    *,
    holding,
    by,
    bundle,
    on,
    purpose,
    much,
    at=None,
    left_weighs=None,
    promised_too=False,
    promise=None,
    gone="",
    note="",
):
    """Take rods out of a bundle. `much` is as said; `left_weighs` what stayed behind, if that was weighed too."""
    bundle = lock(holding=holding, bundles=[bundle])[bundle.pk]
    check_tied(bundle, on)
    if promise is not None:
        check_promise_stands(promise, bundle)
    reckoned = reckon(bundle, much, on, left_weighs=left_weighs)
    if not promised_too:
        check_not_promised(bundle, reckoned["share_ppb"], but=promise)
    taking = take(
        holding=holding, by=by, bundle=bundle, on=on, at=at, purpose=purpose, gone=gone, note=note, **reckoned
    )
    if promise is not None:
        correct(record=promise, by=by, kept_by=taking)
    return taking


def check_promise_stands(promise, bundle):
    if promise.bundle_id != bundle.pk:
        raise Refusal(_("That promise is of another bundle."), field="promise")
    if promise.released_on or promise.kept_by_id:
        raise Refusal(_("That promise has been kept or released already."), field="promise")


def check_not_promised(bundle, share_ppb, *, but=None):
    promises = [each for each in standing_promises(bundle) if each != but]
    if bundle.left_ppb - share_ppb < sum(each.share_ppb for each in promises):
        names = ", ".join(dict.fromkeys(each.whom for each in promises))
        raise Refusal(
            _("Part of %(bundle)s is promised to %(names)s. Take less, or tick that you take it all the same.")
            % {"bundle": bundle, "names": names},
            field="much",
        )


def reckon(bundle, much, on, *, left_weighs=None, left_ppb=None):
    """What was said, as a share of the whole bundle, with what it was reckoned from."""
    left_ppb = bundle.left_ppb if left_ppb is None else left_ppb
    if left_ppb == 0:
        raise NotEnoughLeft(
            _("Nothing is left of %(bundle)s, by the book. If there is, count it first.") % {"bundle": bundle},
            field="much",
        )
    if much.how not in WAYS:
        raise Refusal(_("This is about one bundle: say a weight, rods, a part, or the rest of it."), field="much")
    if left_weighs is not None and much.how != ways.MASS:
        raise Refusal(_("Give what was taken as a weight too, or leave this empty."), field="left_weighs")
    reckoned = WAYS[much.how](bundle, much, on, left_ppb, left_weighs)
    return {
        "said_how": much.how,
        "said_value": much.value,
        "said_unit": much.unit,
        "said_text": much.text,
        "known": Taking.Known.SAID,
        **reckoned,
    }


def by_rest(bundle, much, on, left_ppb, _left_weighs):
    return {"share_ppb": left_ppb, **about(bundle, on, left_ppb)}


def by_part(bundle, much, on, left_ppb, _left_weighs):
    share_ppb = max(1, round(left_ppb * much.value))
    return {"share_ppb": share_ppb, **about(bundle, on, share_ppb)}


def by_rods(bundle, much, on, left_ppb, _left_weighs):
    rods = believed_rods(bundle)
    if rods is None:
        raise NotKnown(
            _("How many rods %(bundle)s has is not in the book. Give a part or a weight, or count them first.")
            % {"bundle": bundle},
            field="much",
        )
    left = rods * left_ppb / WHOLE
    if much.value > left + 0.5:
        raise NotEnoughLeft(
            _("By the book about %(left)d rods of %(bundle)s are left. Say “the rest”, or count them first.")
            % {"left": round(left), "bundle": bundle},
            field="much",
        )
    share_ppb = left_ppb if much.value > left - 0.5 else max(1, round(WHOLE * much.value / rods))
    return {
        "share_ppb": share_ppb,
        **about(bundle, on, share_ppb),
        "reckoned_from_rods": round(rods),
        "rods": int(much.value),
        "known": Taking.Known.COUNT,
    }


def by_mass(bundle, much, on, left_ppb, left_weighs):
    if left_weighs is not None:
        all_kg = much.value + left_weighs.value
        share_ppb = min(left_ppb, max(1, round(left_ppb * much.value / all_kg)))
        return weighed(share_ppb, much, all_kg, Taking.Known.TOGETHER)
    whole = whole_mass(bundle, on)
    if whole is None:
        raise NotKnown(
            _("%(bundle)s has not been weighed. Give a part, or weigh what is left of it too.") % {"bundle": bundle},
            field="much",
        )
    left_kg = whole.kg * left_ppb / WHOLE
    if much.value > left_kg * (1 + SLACK):
        unit = bundle.holding.mass_unit
        raise NotEnoughLeft(
            _("By the book about %(left)s of %(bundle)s is left. Say “the rest”, or weigh what is there first.")
            % {"left": written("mass", left_kg, unit), "bundle": bundle},
            field="much",
        )
    share_ppb = min(left_ppb, max(1, round(WHOLE * much.value / whole.kg)))
    return weighed(share_ppb, much, left_kg, whole.known)


def weighed(share_ppb, much, from_kg, known):
    return {"share_ppb": share_ppb, "mass_kg": much.value, "reckoned_from_kg": from_kg, "known": known}


def about(bundle, on, share_ppb):
    """About what a share weighs, where the book can say."""
    whole = whole_mass(bundle, on)
    return {"mass_kg": whole.kg * share_ppb / WHOLE} if whole else {}


WAYS = {ways.REST: by_rest, ways.PART: by_part, ways.RODS: by_rods, ways.MASS: by_mass}


DAY_TOLD_ELSEWHERE = {
    Taking.Purpose.SOAK: gettext_lazy("These rods went into the water: their day is corrected with the batch."),
    Taking.Purpose.SALE: gettext_lazy("These rods were sold: their day is corrected with the sale."),
}


@transaction.atomic
def correct_taking(*, holding, by, taking, much, on, why="", left_weighs=None, promised_too=False, gone="", note=""):
    """Correct what was taken out: its share is reckoned anew from what is now said."""
    bundle = lock(holding=holding, bundles=[taking.bundle])[taking.bundle_id]
    if taking.making_id:
        raise Refusal(_("These rods were made into other bundles: strike that out and write it again."))
    if on != taking.on and taking.purpose in DAY_TOLD_ELSEWHERE:
        raise Refusal(DAY_TOLD_ELSEWHERE[taking.purpose], field="on")
    check_tied(bundle, on)
    reckoned = {"mass_kg": None, "rods": None, "reckoned_from_kg": None, "reckoned_from_rods": None}
    reckoned |= reckon(bundle, much, on, left_weighs=left_weighs, left_ppb=bundle.left_ppb + taking.share_ppb)
    if not promised_too:
        check_not_promised(bundle, reckoned["share_ppb"] - taking.share_ppb)
    return correct(record=taking, by=by, why=why, on=on, gone=gone, note=note, **reckoned)
