"""What varieties and winters bundles are of."""

from collections import defaultdict
from dataclasses import dataclass

from django.utils.translation import gettext as _

from growers.furniture.writing import apart
from growers.people.rules import winter_of

from ..models import Origin


@dataclass(frozen=True)
class Ancestry:
    """What a bundle is of: `variety` only where it is one known variety through and through."""

    variety: object
    varieties: tuple
    likely: object
    mixed: bool
    winters: tuple
    sources: tuple

    @property
    def name(self):
        if self.mixed:
            names = (apart(v.name) if v else _("unknown") for v in self.varieties)
            return _("mixed: %(names)s") % {"names": ", ".join(names)}
        if self.variety:
            return apart(self.variety.name)
        return _("unknown, likely %(name)s") % {"name": apart(self.likely.name)} if self.likely else _("unknown")


def ancestry_of(bundles):
    """Of what variety and winter each bundle is, by its id: one query, however many bundles."""
    bundles = list(bundles)
    if not bundles:
        return {}
    holding = bundles[0].holding
    origins = Origin.objects.of(holding).filter(bundle__in=bundles).order_by("-part_ppb", "pk")
    origins = origins.select_related(
        "cut__planting__variety", "cut__planting__bed", "purchase__variety", "find__variety", "find__likely_variety"
    )
    by_bundle = defaultdict(list)
    for origin in origins:
        by_bundle[origin.bundle_id].append(origin)
    return {bundle.pk: ancestry(by_bundle[bundle.pk], holding) for bundle in bundles}


def ancestry(origins, holding):
    varieties = tuple(dict.fromkeys(variety_of(origin) for origin in origins))
    likely = {origin.find.likely_variety for origin in origins if origin.find and not origin.find.variety}
    winters = dict.fromkeys(filter(None, (winter_told(origin, holding) for origin in origins)))
    return Ancestry(
        variety=varieties[0] if len(varieties) == 1 else None,
        varieties=varieties,
        likely=likely.pop() if len(varieties) == 1 and len(likely) == 1 else None,
        mixed=len(varieties) > 1,
        winters=tuple(winters),
        sources=tuple(origins),
    )


def variety_of(origin):
    if origin.cut:
        return origin.cut.planting.variety
    return origin.purchase.variety if origin.purchase else origin.find.variety


def winter_told(origin, holding):
    if origin.cut:
        return winter_of(origin.cut.first_on, holding.winter_begins_month)
    return origin.purchase.told_winter if origin.purchase else origin.find.told_winter


def with_ancestry(bundles):
    """Each bundle with its Ancestry as `ancestry`."""
    bundles = list(bundles)
    ancestries = ancestry_of(bundles)
    for bundle in bundles:
        bundle.ancestry = ancestries[bundle.pk]
    return bundles


NO_BREAK = "\N{NO-BREAK SPACE}"


def unbroken(words):
    return str(words).replace(" ", NO_BREAK)


def labels_of(bundles):
    """Each bundle in a few words, by its id: where several are chosen from."""
    return {
        bundle.pk: f"{unbroken(bundle.tag_shown)}, {bundle.ancestry.name}, {unbroken(bundle.length_class)}"
        for bundle in with_ancestry(bundles)
    }
