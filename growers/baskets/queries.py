from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import OuterRef, Subquery
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.bundles.queries import Ancestry, ancestry_of
from growers.bundles.rules import WHOLE
from growers.furniture.due import Due
from growers.people.rules import name_key
from growers.soaking.queries import named

from .models import Basket, Pattern, PatternPart, RodsUsed, StayedTight

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
    def rods(self):
        """How many rods, where they were counted."""
        if self.used.taking:
            return self.used.taking.rods
        whole = self.used.batch.taking.rods
        return whole and round(whole * self.used.part_of_batch_ppb / WHOLE)

    @property
    def part_of_batch(self):
        return self.used.part_of_batch_ppb and self.used.part_of_batch_ppb / WHOLE


def rods_of(basket):
    """What went into a basket, in the order written."""
    return went_into([basket])[basket.pk]


def went_into(baskets):
    """What went into each of some baskets of one book, by the basket's id."""
    found = {basket.pk: [] for basket in baskets}
    if not baskets:
        return found
    used = RodsUsed.objects.of(baskets[0].holding).filter(basket__in=baskets).order_by("pk")
    used = list(
        used.select_related("batch__tank", "batch__taking__bundle__length_class", "taking__bundle__length_class")
    )
    bundles = {each.pk: (each.taking or each.batch.taking).bundle for each in used}
    ancestry = ancestry_of(bundles.values())
    for each in used:
        bundle = bundles[each.pk]
        of = ancestry[bundle.pk]
        found[each.basket_id].append(Went(each, bundle, of, named(bundle, of)))
    return found


def kg_of(went):
    """About the dry weight of a basket's rods (kg); None where any part of it is unknown."""
    masses = [each.kg for each in went]
    return sum(masses) if masses and None not in masses else None


def parts_of(pattern):
    """The parts of a pattern, in the order written."""
    if pattern is None:
        return []
    parts = PatternPart.objects.of(pattern.holding).filter(pattern=pattern)
    return list(parts.select_related("length_class").order_by("pk"))


@dataclass(frozen=True)
class PartSoFar:
    """A part of a basket's pattern with what went in as that; `rods` None where any of them were not counted."""

    part: PatternPart
    went: tuple[Went, ...]
    rods: int | None


def by_part(basket, went):
    """What went into each part of a basket's pattern."""
    found = []
    for part in parts_of(basket.pattern):
        of_it = tuple(each for each in went if name_key(each.used.part_of_basket) == part.name_key)
        counts = [each.rods for each in of_it]
        found.append(PartSoFar(part, of_it, None if None in counts else sum(counts)))
    return found


@dataclass(frozen=True)
class Made:
    """A basket of a pattern, and about the dry weight of what went in (kg), where known."""

    basket: Basket
    kg: float | None


def made_of(pattern):
    """The baskets of a pattern, newest first, with what each took."""
    baskets = list(baskets_of(pattern.holding).filter(pattern=pattern))
    went = went_into(baskets)
    return [Made(basket, kg_of(went[basket.pk])) for basket in baskets]


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
