"""What became of rods that were taken out of bundles."""

from collections import defaultdict
from dataclasses import dataclass

from django.utils.translation import gettext as _

from growers.baskets.models import RodsUsed
from growers.bundles.models import Bundle, Taking
from growers.customers.models import Returned, SaleLine
from growers.soaking.models import Batch, DriedAgain, Spoiled


@dataclass(frozen=True)
class Fate:
    """One thing that became of rods, and the page it can be read on."""

    kind: str
    sentence: str
    page: str = ""
    args: tuple = ()


def what_became(holding, takings):
    """{taking's id: [Fate, …]}, in a fixed number of queries however many takings there are."""
    takings = list(takings)
    fates = defaultdict(list)
    for taking in takings:
        if taking.purpose == Taking.Purpose.GONE:
            fates[taking.pk].append(Fate("gone", taking.get_gone_display()))
    add_sold(holding, takings, fates)
    add_made(holding, takings, fates)
    add_soaked(holding, takings, fates)
    add_worked_unsoaked(holding, takings, fates)
    return dict(fates)


def add_sold(holding, takings, fates):
    lines = SaleLine.objects.of(holding).filter(taking__in=takings).select_related("sale__customer")
    for line in lines.order_by("pk"):
        fates[line.taking_id].append(Fate("sold", str(line), "customers:sale", (line.sale.uid,)))
    back = Returned.objects.of(holding).filter(line__taking__in=takings)
    for each in back.select_related("line", "bundle__length_class").order_by("pk"):
        fates[each.line.taking_id].append(bundle_fate("returned", each.bundle))


def add_made(holding, takings, fates):
    by_making = defaultdict(list)
    makings = {taking.making_id for taking in takings if taking.making_id}
    for bundle in Bundle.objects.of(holding).filter(making__in=makings).select_related("length_class").order_by("pk"):
        by_making[bundle.making_id].append(bundle)
    for taking in takings:
        for bundle in by_making.get(taking.making_id, ()):
            fates[taking.pk].append(bundle_fate("made", bundle))


def bundle_fate(kind, bundle):
    words = {"length": bundle.length_class, "type": bundle.get_type_display(), "tag": bundle.tag_shown}
    return Fate(kind, _("bundle %(tag)s, %(length)s %(type)s") % words, "trace:bundle", (bundle.uid,))


def add_soaked(holding, takings, fates):
    batches = {
        batch.pk: batch
        for batch in Batch.objects.of(holding).filter(taking__in=takings).select_related("tank").order_by("pk")
    }
    for batch in batches.values():
        fates[batch.taking_id].append(Fate("soaked", str(batch), "soaking:batch", (batch.uid,)))
    used = RodsUsed.objects.of(holding).filter(batch__in=batches).select_related("basket").order_by("pk")
    for each in used:
        fates[batches[each.batch_id].taking_id].append(basket_fate(each.basket))
    again = DriedAgain.objects.of(holding).filter(batch__in=batches).select_related("bundle__length_class")
    for each in again.order_by("pk"):
        fates[batches[each.batch_id].taking_id].append(bundle_fate("dried_again", each.bundle))
    for each in Spoiled.objects.of(holding).filter(batch__in=batches).order_by("pk"):
        batch = batches[each.batch_id]
        fates[batch.taking_id].append(Fate("spoiled", str(each), "soaking:batch", (batch.uid,)))


def add_worked_unsoaked(holding, takings, fates):
    used = RodsUsed.objects.of(holding).filter(taking__in=takings).select_related("basket").order_by("pk")
    for each in used:
        fates[each.taking_id].append(basket_fate(each.basket))


def basket_fate(basket):
    return Fate("woven", str(basket), "baskets:basket", (basket.uid,))
