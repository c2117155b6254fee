"""What is asked before rods go into a tank."""

from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from growers.bundles.models import Bundle
from growers.bundles.rules import WHOLE
from growers.furniture import much as ways
from growers.furniture.writing import write as written
from growers.stock.queries import believed_rods, whole_mass

from ..models import Batch
from ..rules import room_taken
from .reads import PEELED

ROOM_SLACK = 0.1
"""So much above what fits is pressed in without a question (our own rule)."""


def doubts_of_putting_in(bundle, tank, much=None, on=None):
    """What is asked before a bundle goes into a tank: (field, sentence); `much` of it on a day, if that goes in now."""
    if sentence := doubt_of_length(bundle, tank):
        yield "tank", sentence
    if much is not None and (sentence := doubt_of_room(bundle, tank, much, on)):
        yield "tank", sentence
    before = last_finish(tank)
    if bundle.type in PEELED and before and before not in PEELED:
        words = {"tank": tank, "before": Bundle.Type(before).label, "type": bundle.get_type_display()}
        stains = _("“%(tank)s” was last used for %(before)s rods. Their water stains %(type)s: is it fresh?")
        yield "tank", stains % words
    if bundle.soaked_before:
        yield "much", _("These rods were soaked once before and dried again. Use them for own work only. Go on?")


def too_long(bundle, tank):
    """Whether even the shortest of the rods is longer than the tank takes."""
    return tank.greatest_length_m is not None and bundle.length_class.min_m > tank.greatest_length_m


def doubt_of_length(bundle, tank):
    length, room = bundle.length_class, tank.greatest_length_m
    longest = length.max_m or length.min_m
    if room is None or longest <= room:
        return None
    unit = bundle.holding.length_unit
    words = {
        "tank": tank,
        "room": written("length", room, unit),
        "longest": written("length", longest, unit),
        "shortest": written("length", length.min_m, unit),
    }
    if too_long(bundle, tank):
        return (
            _(
                "“%(tank)s” takes rods up to %(room)s, and these are %(shortest)s at least: "
                "they won't be all under the water, and the book will say so. Go on?"
            )
            % words
        )
    return _("“%(tank)s” takes rods up to %(room)s, and these run to %(longest)s. Do they fit?") % words


def doubt_of_room(bundle, tank, much, on):
    """Asked where the tank would hold more than fits, by the book, with these."""
    part = part_said(bundle, much, on)
    if tank.room_bundles is None or part is None:
        return None
    taken = room_taken([*parts_in(tank), (part, bundle.length_class.middle_m)])
    if taken <= tank.room_bundles * (1 + ROOM_SLACK):
        return None
    words = {"tank": tank, "room": tank.room_bundles, "taken": number_format(round(taken, 1))}
    sentence = ngettext(
        "“%(tank)s” takes %(room)d bundle of 5 ft, and with these it would hold about %(taken)s. Do they fit?",
        "“%(tank)s” takes %(room)d bundles of 5 ft, and with these it would hold about %(taken)s. Do they fit?",
        tank.room_bundles,
    )
    return sentence % words


def part_said(bundle, much, on):
    """About what part of the whole bundle was said, at most what is left; None where the book can't tell."""
    left = bundle.left_ppb / WHOLE
    if much.how == ways.REST:
        return left
    if much.how == ways.PART:
        return left * much.value
    if much.how == ways.RODS:
        whole = believed_rods(bundle)
    else:
        weighs = whole_mass(bundle, on)
        whole = weighs and weighs.kg
    return min(much.value / whole, left) if whole else None


def parts_in(tank):
    """(part of its bundle, length in m) of each batch in a tank now."""
    batches = Batch.objects.of(tank.holding).in_water().filter(tank=tank)
    return [
        (
            batch.taking.share_ppb / WHOLE * batch.in_water_ppb / WHOLE,
            batch.taking.bundle.length_class.middle_m,
        )
        for batch in batches.select_related("taking__bundle__length_class")
    ]


def last_finish(tank):
    """The type of the rods that went into a tank last, or None."""
    last = Batch.objects.of(tank.holding).filter(tank=tank).select_related("taking__bundle").order_by("-in_at").first()
    return last and last.taking.bundle.type
