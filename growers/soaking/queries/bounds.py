"""What first soaks say of a variety: bounds, never times. Nothing is averaged and nothing dropped unsaid."""

from collections import Counter
from dataclasses import dataclass, replace

from django.db.models import Q
from django.utils.translation import gettext_lazy, ngettext

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of

from ..models import Batch
from .keeping import Keeping, keeping_by_type
from .told import Bound, Told

THIN = 3
"""Fewer soaks than this are called thin (our own choice)."""
LEFT_OUT = {
    "mixed": gettext_lazy("mixed varieties"),
    "unknown": gettext_lazy("not sure of the variety"),
    "soaked_before": gettext_lazy("soaked before"),
    "re_soaked": gettext_lazy("dried out and soaked again before they were worked"),
    "not_under": gettext_lazy("not all under the water"),
    "nothing_said": gettext_lazy("neither looked at nor told of at the bench"),
}


@dataclass(frozen=True)
class Bounds:
    """All bounds of a variety and type. `left_out` counts the batches that say nothing of a first soak, by reason:
    mixed, unknown, soaked_before, re_soaked, not_under, nothing_said.
    """

    soaks: tuple[Bound, ...]
    left_out: dict[str, int]
    keeping: Keeping | None = None

    @property
    def left_out_told(self):
        """What was left out, in words: ["2 batches: mixed varieties"]."""
        told = []
        for reason, number in sorted(self.left_out.items()):
            batches = ngettext("%(number)d batch: %(reason)s", "%(number)d batches: %(reason)s", number)
            told.append(batches % {"number": number, "reason": LEFT_OUT[reason]})
        return told

    @property
    def number(self):
        """How many batches say something."""
        return len({bound.batch.pk for bound in self.soaks})

    @property
    def thin(self):
        """So few that they say little."""
        return self.number < THIN

    @property
    def winters(self):
        return tuple(sorted({winter for bound in self.soaks for winter in bound.winters}))

    @property
    def temperatures(self):
        """The coldest and warmest mean water [°C], or None."""
        known = [bound.water.celsius for bound in self.soaks if bound.water]
        return (min(known), max(known)) if known else None


def bounds_for(variety, type):
    holding = variety.holding
    bundles = {b.pk: b for b in bundles_with(variety).filter(type=type).select_related("length_class")}
    ancestry = ancestry_of(bundles.values())
    batches = Batch.objects.of(holding).filter(taking__bundle__in=bundles)
    batches = list(batches.select_related("taking__bundle__length_class", "tank").order_by("in_at", "pk"))
    told = Told(holding, batches)
    soaks, left_out = [], Counter()
    for batch in batches:
        of = ancestry[batch.taking.bundle_id]
        reason = why_not(batch, of)
        bounds = [] if reason else told.bounds(batch, of)
        if reason or not bounds:
            left_out[reason or told.silent(batch)] += 1
        soaks += bounds
    return Bounds(tuple(soaks), dict(left_out))


def bundles_with(variety):
    """Bundles of this variety in any part, and unknown ones that are likely of it."""
    bundles = Bundle.objects.of(variety.holding)
    likely = bundles.filter(
        origins__find__likely_variety=variety, origins__find__variety=None, origins__struck_out_at=None
    )
    known = bundles.of_variety(variety)
    return bundles.filter(Q(pk__in=known.values("pk")) | Q(pk__in=likely.values("pk")))


def why_not(batch, ancestry):
    if ancestry.mixed:
        return "mixed"
    if ancestry.variety is None:
        return "unknown"
    if batch.soaked_before:
        return "soaked_before"
    return "" if batch.all_under else "not_under"


def bounds_by_type(variety):
    """The bounds of each type of which anything was soaked: [(type's name, Bounds)]."""
    keeping = keeping_by_type(variety.holding)
    found = [(type.label, replace(bounds_for(variety, type), keeping=keeping[type])) for type in Bundle.Type]
    return [(label, bounds) for label, bounds in found if bounds.soaks or bounds.left_out]
