"""Bundles split, tied together, re-graded, or made into another type: the grower's way of saying it."""

from dataclasses import dataclass, field, replace

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import NewBundle, WentIn, lock, make
from growers.bundles.models import Bundle, Making
from growers.bundles.rules import WHOLE, divide
from growers.drying.queries import assess
from growers.furniture.much import REST, Much
from growers.furniture.refusals import Refusal

from ..queries import whole_mass
from .taking import check_not_promised, reckon


@dataclass(frozen=True)
class Out:
    """A bundle that came out: how much of what went in it is (a part, a weight, or the rest), and what it is."""

    length_class: object
    much: Much = field(default_factory=lambda: Much(REST))
    thickness: str = ""
    rods: int | None = None
    mass: object = None
    note: str = ""


@transaction.atomic
def split(*, holding, by, bundle, on, much, rods=None, mass=None, place=None, promised_too=False, note=""):
    """Tie part of a bundle up as one of its own; what is left keeps its tag."""
    bundle = lock(holding=holding, bundles=[bundle])[bundle.pk]
    new = NewBundle(
        WHOLE, bundle.length_class, bundle.type, bundle.thickness, bundle.butt_mm, rods=rods, mass=mass, note=note
    )
    went_in = into(bundle, much, on, promised_too)
    return make(
        holding=holding,
        by=by,
        what=Making.What.SPLIT,
        on=on,
        went_in=[went_in],
        came_out=[new],
        place=place,
        **inherited([bundle], on),
    )


@transaction.atomic
def merge(
    *, holding, by, bundles, on, length_class=None, rods=None, mass=None, place=None, promised_too=False, note=""
):
    """Tie all that is left of several bundles together into one."""
    bundles = sorted(lock(holding=holding, bundles=bundles).values(), key=lambda bundle: bundle.pk)
    if len(bundles) < 2:
        raise Refusal(_("Choose two bundles or more to tie together."), field="bundles")
    check_one_type(bundles)
    first = bundles[0]
    alike = {bundle.thickness for bundle in bundles} == {first.thickness}
    new = NewBundle(
        WHOLE,
        length_class or first.length_class,
        first.type,
        first.thickness if alike else "",
        rods=rods,
        mass=mass,
        note=note,
    )
    return make(
        holding=holding,
        by=by,
        what=Making.What.MERGED,
        on=on,
        went_in=all_into(bundles, on, promised_too),
        came_out=[new],
        place=place,
        **inherited(bundles, on),
    )


@transaction.atomic
def regrade(*, holding, by, bundles, on, outs, rejects=None, place=None, promised_too=False, note=""):
    """Sort all that is left of some bundles again, into lengths and rejects."""
    bundles = sorted(lock(holding=holding, bundles=bundles).values(), key=lambda bundle: bundle.pk)
    check_one_type(bundles)
    parts, rejects_ppb, _bark = divided(outs, rejects, None)
    return make(
        holding=holding,
        by=by,
        what=Making.What.REGRADED,
        on=on,
        went_in=all_into(bundles, on, promised_too),
        came_out=new_bundles(outs, parts, bundles[0].type),
        rejects_ppb=rejects_ppb,
        place=place,
        note=note,
        **inherited(bundles, on),
    )


@transaction.atomic
def make_into(
    *,
    holding,
    by,
    bundles,
    on,
    type,
    outs,
    hours=None,
    rejects=None,
    bark=None,
    place=None,
    promised_too=False,
    note="",
):
    """Peel, boil or steam all that is left of some bundles. The drying clock starts again that day."""
    bundles = sorted(lock(holding=holding, bundles=bundles).values(), key=lambda bundle: bundle.pk)
    check_one_type(bundles)
    if bundles[0].type != Bundle.Type.BROWN:
        raise Refusal(_("White, buff and steamed are made from rods with the bark on."), field="bundles")
    parts, rejects_ppb, bark_ppb = divided(outs, rejects, bark)
    return make(
        holding=holding,
        by=by,
        what=type,
        on=on,
        went_in=all_into(bundles, on, promised_too),
        hours=hours and hours.value,
        came_out=new_bundles(outs, parts, type),
        rejects_ppb=rejects_ppb,
        bark_ppb=bark_ppb,
        place=place,
        note=note,
    )


def check_one_type(bundles):
    if not bundles:
        raise Refusal(_("Choose the bundles."), field="bundles")
    if len({bundle.type for bundle in bundles}) > 1:
        raise Refusal(_("These are of different types: brown, white, buff and steamed stay apart."), field="bundles")


def into(bundle, much, on, promised_too):
    said = reckon(bundle, much, on)
    if not promised_too:
        check_not_promised(bundle, said["share_ppb"])
    share_ppb = said.pop("share_ppb")
    return WentIn(bundle, share_ppb, dry_matter(bundle, on, share_ppb) or share_ppb, said)


def all_into(bundles, on, promised_too):
    went_in = [into(bundle, Much(REST, text=_("the rest")), on, promised_too) for bundle in bundles]
    if all(dry_matter(each.bundle, on, each.share_ppb) for each in went_in):
        return went_in
    # Weights are known of some only: then each counts by its share alone.
    return [replace(each, weight=each.share_ppb) for each in went_in]


def dry_matter(bundle, on, share_ppb):
    """About what a share weighs dry (kg); None where no weight is known."""
    whole = whole_mass(bundle, on)
    if whole is None:
        return None
    return whole.kg / (1 + (assess(bundle, on).moisture or 0)) * share_ppb / WHOLE


def inherited(parents, on):
    """A child starts as wet as its wettest parent, and dried out only if all were."""
    assessed = [assess(parent, on) for parent in parents]
    moistures = [each.moisture for each in assessed]
    days = [each.dried_out_on for each in assessed]
    return {
        "started_moisture": max(moistures) if None not in moistures else None,
        "dried_out_before_on": max(days) if None not in days else None,
    }


def new_bundles(outs, parts, type):
    return [
        NewBundle(part, out.length_class, type, out.thickness, rods=out.rods, mass=out.mass, note=out.note)
        for out, part in zip(outs, parts, strict=True)
    ]


def divided(outs, rejects, bark):
    """The parts (ppb) of what came out, the rejects and the bark, adding up to the whole.

    All said by weight: the weights are the measure. Said by part: whoever was told
    nothing shares the remainder evenly.
    """
    if not outs:
        raise Refusal(_("Say what came out: one bundle or more."), field="outs")
    said = [out.much for out in outs] + [loss or Much("part", 0.0) for loss in (rejects, bark)]
    if any(much.how in ("rods", "bundles") for much in said):
        raise Refusal(_("Give parts or weights here: rods of different lengths are not alike."), field="outs")
    if all(much.how == "mass" or much.value == 0 for much in said):
        pieces = divide(WHOLE, [much.value for much in said])
    else:
        pieces = divide(WHOLE, parts_of(said))
    if not all(pieces[: len(outs)]):
        raise Refusal(_("Next to nothing would be in one of these bundles."), field="outs")
    return pieces[: len(outs)], pieces[-2], pieces[-1]


def parts_of(said):
    if any(much.how == "mass" for much in said):
        raise Refusal(
            _("Give all as weights or all as parts, so that they can be set against each other."), field="outs"
        )
    told = sum(much.value for much in said if much.how == "part")
    rests = [much for much in said if much.how == REST]
    if told > 1.001 or (rests and told >= 1):
        raise Refusal(_("These parts come to more than all of it."), field="outs")
    if not rests and told < 0.99:
        raise Refusal(
            _("These parts don't come to all of it: add the rejects, or say “the rest” for one."), field="outs"
        )
    return [(1 - told) / len(rests) if much.how == REST else much.value for much in said]
