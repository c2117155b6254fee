"""Where the rods of each bundle went, followed through every making, in exact parts of the bundle."""

from collections import defaultdict
from fractions import Fraction

from django.db.models import Sum
from django.utils.translation import gettext_lazy as _

from growers.baskets.models import RodsUsed
from growers.bundles.models import Adjustment, Bundle, Making, Taking
from growers.bundles.rules import WHOLE
from growers.customers.models import Returned
from growers.soaking.models import Batch, DriedAgain, Spoiled

ENDS = {
    "shed": _("still in the shed"),
    "sold": _("sold"),
    "woven": _("soaked and woven"),
    "worked": _("worked without soaking"),
    "soaked": _("soaked, not woven"),
    "spoiled": _("spoiled after soaking"),
    **dict(Taking.Gone.choices),
    "rejects": _("rejected when made into others"),
    "bark": _("bark peeled off"),
    "set_right": _("set right at a count"),
}
"""Where rods can end. What a count found over what the book said is below nothing."""
WAYS = dict(Making.What.choices) | {
    "dried_again": _("dried again after soaking"),
    "returned": _("sold and brought back"),
}
"""What rods can go through before they end."""


def fates_of(holding):
    """({bundle's id: {end: part}}, {bundle's id: {way: part}}), parts as exact fractions of the bundle.

    The ends of a bundle add up to one. Ways are told beside them: a part that went two ways is told in both.
    """
    follow = Follow(holding)
    fates = {pk: follow.bundle(pk) for pk in follow.left}
    ends = {pk: {end: found[end] for end in ENDS if found.get(end)} for pk, found in fates.items()}
    ways = {pk: {way: found["way", way] for way in WAYS if found.get(("way", way))} for pk, found in fates.items()}
    return ends, ways


class Follow:
    """What was made of what, read once for a whole book: bundles are made from others of any winter."""

    def __init__(self, holding):
        self.known = {}
        bundles = Bundle.objects.of(holding).values_list("pk", "left_ppb", "making_id", "part_of_making_ppb")
        self.left, self.out_of = {}, defaultdict(list)
        for pk, left_ppb, making_id, part_ppb in bundles:
            self.left[pk] = left_ppb
            if making_id:
                self.out_of[making_id].append((pk, part_ppb))
        self.makings = {making.pk: making for making in Making.objects.of(holding)}
        self.takings = grouped(Taking.objects.of(holding), "bundle_id")
        self.set_right = sums(Adjustment.objects.of(holding), "bundle", "share_ppb")
        self.batches = {batch.taking_id: batch for batch in Batch.objects.of(holding)}
        self.woven = sums(RodsUsed.objects.of(holding).filter(batch__isnull=False), "batch", "part_of_batch_ppb")
        self.spoiled = sums(Spoiled.objects.of(holding), "batch", "part_ppb")
        self.dried = grouped(DriedAgain.objects.of(holding), "batch_id")
        self.returned = defaultdict(list)
        for each in Returned.objects.of(holding).select_related("line"):
            self.returned[each.line.taking_id].append(each)

    def bundle(self, pk):
        if pk not in self.known:
            parts = [({"shed": 1}, self.left[pk]), ({"set_right": 1}, self.set_right.get(pk, 0))]
            parts += ((self.taking(taking), taking.share_ppb) for taking in self.takings[pk])
            self.known[pk] = mixed(parts)
        return self.known[pk]

    def taking(self, taking):
        Purpose = Taking.Purpose
        if taking.purpose == Purpose.MAKING:
            return self.making(self.makings[taking.making_id])
        if taking.purpose == Purpose.SOAK:
            return self.batch(self.batches.get(taking.pk))
        if taking.purpose == Purpose.GONE:
            return {taking.gone: 1}
        return self.sale(taking) if taking.purpose == Purpose.SALE else {"worked": 1}

    def sale(self, taking):
        back = self.returned[taking.pk]
        sold = WHOLE - sum(each.part_ppb for each in back)
        return mixed([({"sold": 1}, sold), *self.again("returned", back)])

    def again(self, way, rows):
        """What became of rods that were tied anew after they had gone out or into the water."""
        return [(self.bundle(row.bundle_id) | {("way", way): 1}, row.part_ppb) for row in rows]

    def making(self, making):
        parts = [({"rejects": 1}, making.rejects_ppb), ({"bark": 1}, making.bark_ppb)]
        parts += ((self.bundle(pk), part_ppb) for pk, part_ppb in self.out_of[making.pk])
        # All that goes into a making goes its way, though some may go the same way again later.
        return mixed(parts) | {("way", making.what): 1}

    def batch(self, batch):
        if batch is None:
            return {"soaked": 1}
        parts = [
            ({"soaked": 1}, batch.left_ppb),
            ({"woven": 1}, self.woven.get(batch.pk, 0)),
            ({"spoiled": 1}, self.spoiled.get(batch.pk, 0)),
        ]
        return mixed([*parts, *self.again("dried_again", self.dried[batch.pk])])


def mixed(parts):
    """Fates of [(fates, parts in a thousand million), …] taken together."""
    found = defaultdict(Fraction)
    for fates, ppb in parts:
        for fate, part in fates.items():
            found[fate] += Fraction(part) * ppb / WHOLE
    return dict(found)


def grouped(rows, by):
    found = defaultdict(list)
    for row in rows.order_by("pk"):
        found[getattr(row, by)].append(row)
    return found


def sums(rows, by, of):
    return dict(rows.order_by().values_list(by).annotate(sum=Sum(of)))
