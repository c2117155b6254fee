"""Bundles in, bundles out."""

from dataclasses import dataclass, field

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal
from growers.people.actions import write
from growers.people.rules import weighed

from ..models import Bundle, Making, Taking
from ..rules import WHOLE, divide
from .ledger import lock, take
from .origins import mixture, write_origins
from .places import put_in_place
from .tying import new_tag


@dataclass(frozen=True)
class WentIn:
    """A share of one bundle that goes into a making, and its weight in dry matter among the others."""

    bundle: Bundle
    share_ppb: int
    weight: float
    said: dict = field(default_factory=lambda: {"said_how": Taking.SaidHow.PART})


@dataclass(frozen=True)
class NewBundle:
    """A bundle that comes out: its part of the dry matter that went in, and what is known of it."""

    part_ppb: int
    length_class: object
    type: str = ""
    thickness: str = ""
    butt_mm: float | None = None
    form: str = Bundle.Form.BUNDLE
    mass: object = None
    rods: int | None = None
    note: str = ""


@transaction.atomic
def make(
    *,
    holding,
    by,
    what,
    on,
    went_in,
    came_out,
    rejects_ppb=0,
    bark_ppb=0,
    hours=None,
    place=None,
    started_moisture=None,
    dried_out_before_on=None,
    note="",
):
    """Split, tie together, re-grade, or make into another type: the parts make the whole."""
    if sum(new.part_ppb for new in came_out) + rejects_ppb + bark_ppb != WHOLE:
        raise Refusal(_("What came out, with what was lost, does not add up to what went in."))
    if sum(each.weight for each in went_in) <= 0:
        raise Refusal(_("Say which bundles go in, and how much of each."), field="bundles")
    # In order of id before any is drawn on, so that no two wait on each other.
    lock(holding=holding, bundles=[each.bundle for each in went_in])
    making = write(
        Making(holding=holding, what=what, on=on, hours=hours, rejects_ppb=rejects_ppb, bark_ppb=bark_ppb, note=note),
        by=by,
    )
    parts = divide(WHOLE, [each.weight for each in went_in])
    draw_into(making, went_in, parts, by=by)
    weights = mixture([(each.bundle, part) for each, part in zip(went_in, parts, strict=True)])
    parents = [each.bundle for each in went_in]
    inherited = {"started_moisture": started_moisture, "dried_out_before_on": dried_out_before_on}
    for new in came_out:
        out_of = {"made": Bundle.Made.MAKING, "making": making, "part_of_making_ppb": new.part_ppb}
        bundle = write(child(new, parents, holding=holding, tied_on=on, **out_of, **inherited), by=by)
        write_origins(bundle, weights, by=by)
        put_in_place(bundle, place, by=by)
    return making


def draw_into(making, went_in, parts, *, by):
    """Take what goes into a making out of its bundles, each with its part of the whole."""
    for each, part_ppb in zip(went_in, parts, strict=True):
        if not part_ppb:
            raise Refusal(_("Next to nothing of %(bundle)s would go in.") % {"bundle": each.bundle})
        take(
            holding=making.holding,
            by=by,
            bundle=each.bundle,
            on=making.on,
            purpose=Taking.Purpose.MAKING,
            making=making,
            part_of_making_ppb=part_ppb,
            share_ppb=each.share_ppb,
            **each.said,
        )


def child(new, parents, **fields):
    """A bundle that takes after its parents in what it is not told to differ in."""
    return Bundle(
        tag=new_tag(fields["holding"]),
        length_class=new.length_class,
        type=new.type or parents[0].type,
        thickness=new.thickness,
        butt_mm=new.butt_mm,
        form=new.form,
        age_years=max(parent.age_years for parent in parents),
        soaked_before=any(parent.soaked_before for parent in parents),
        tied_rods=new.rods,
        note=new.note,
        **weighed(new.mass, "tied_"),
        **fields,
    )


@transaction.atomic
def dried_again(*, holding, by, parent, new, on, place=None, dried_out_before_on=None):
    """Soaked rods dried right out and tied: a bundle of its own, own work only."""
    bundle = child(new, [parent], holding=holding, made=Bundle.Made.DRIED_AGAIN, dried_from=parent, tied_on=on)
    bundle.soaked_before, bundle.dried_out_before_on = True, dried_out_before_on
    write(bundle, by=by)
    write_origins(bundle, mixture([(parent, WHOLE)]), by=by)
    put_in_place(bundle, place, by=by)
    return bundle


@transaction.atomic
def came_back(
    *, holding, by, parent, new, on, soaked_before, place=None, started_moisture=None, dried_out_before_on=None
):  # fmt: skip
    """Rods that had left the book stand in it again: a bundle of their own, of what their bundle was of."""
    bundle = child(new, [parent], holding=holding, made=Bundle.Made.RETURNED, dried_from=parent, tied_on=on)
    bundle.soaked_before = parent.soaked_before or soaked_before
    bundle.started_moisture, bundle.dried_out_before_on = started_moisture, dried_out_before_on
    write(bundle, by=by)
    write_origins(bundle, mixture([(parent, WHOLE)]), by=by)
    put_in_place(bundle, place, by=by)
    return bundle
