from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import OuterRef, Subquery
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.bundles.queries import Ancestry, ancestry_of
from growers.bundles.rules import WHOLE
from growers.furniture.due import Due
from growers.soaking.queries import named

from .models import Basket, Pattern, RodsUsed, StayedTight

ASK_AFTER = (timedelta(days=91), timedelta(days=365))
"""A basket is asked after at three months and at a year (our own rule)."""
EARLY = timedelta(days=30)
"""So long before its time a look counts for it."""
GIVE_UP_AFTER = timedelta(days=2 * 365)


@dataclass(frozen=True)
class Went:
    """Rods that went into a basket: of which bundle, through which batch, from which cuts."""

    used: RodsUsed
    bundle: Bundle
    ancestry: Ancestry
    name: str

    @property
    def kg(self):
        """About what they weighed dry, where the book knows."""
        if self.used.taking:
            return self.used.taking.mass_kg
        whole = self.used.batch.taking.mass_kg
        return whole and whole * self.used.part_of_batch_ppb / WHOLE

    @property
    def part_of_batch(self):
        return self.used.part_of_batch_ppb and self.used.part_of_batch_ppb / WHOLE


def rods_of(basket):
    """What went into a basket, in the order written."""
    used = RodsUsed.objects.of(basket.holding).filter(basket=basket).order_by("pk")
    used = list(
        used.select_related("batch__tank", "batch__taking__bundle__length_class", "taking__bundle__length_class")
    )
    bundles = {each.pk: (each.taking or each.batch.taking).bundle for each in used}
    ancestry = ancestry_of(bundles.values())
    return [
        Went(
            each,
            bundles[each.pk],
            ancestry[bundles[each.pk].pk],
            named(bundles[each.pk], ancestry[bundles[each.pk].pk]),
        )
        for each in used
    ]


def kg_of(went):
    """About the dry weight of a basket's rods (kg); None where any part of it is unknown."""
    masses = [each.kg for each in went]
    return sum(masses) if masses and None not in masses else None


def looks_at(basket):
    return list(StayedTight.objects.of(basket.holding).filter(basket=basket).order_by("on"))


def baskets_of(holding):
    """Every basket, newest first, with the last look at it."""
    last = StayedTight.objects.of(holding).filter(basket=OuterRef("pk")).order_by("-on")
    baskets = Basket.objects.of(holding).annotate(last_result=Subquery(last.values("result")[:1]))
    return baskets.select_related("pattern").order_by("-made_on", "-pk")


def patterns_of(holding):
    return Pattern.objects.of(holding).order_by("name_key")


@dataclass(frozen=True)
class ToAsk:
    basket: Basket
    on: date


def to_ask_after(holding, today):
    """Baskets of which nobody has said yet, at three months and at a year, whether they stayed tight."""
    found = []
    baskets = Basket.objects.of(holding).filter(made_on__lte=today - ASK_AFTER[0], made_on__gte=today - GIVE_UP_AFTER)
    looks = {}
    for basket_id, on in StayedTight.objects.of(holding).filter(basket__in=baskets).values_list("basket", "on"):
        looks.setdefault(basket_id, []).append(on)
    for basket in baskets.order_by("made_on", "pk"):
        due_on = max(basket.made_on + after for after in ASK_AFTER if basket.made_on + after <= today)
        if not any(on >= due_on - EARLY for on in looks.get(basket.pk, [])):
            found.append(ToAsk(basket, due_on))
    return found


def due(holding, *, today, now):
    return [
        Due(
            "tight",
            _("Has it stayed tight? %(basket)s") % {"basket": each.basket},
            page="baskets:tight",
            args=(each.basket.uid,),
            when=each.on,
            why=_("it shows whether dry enough was dry enough"),
        )
        for each in to_ask_after(holding, today)
    ]
