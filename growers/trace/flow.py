"""What became of the bundles a winter began with, in shares of them and in their weight as tied."""

from dataclasses import dataclass
from math import floor
from typing import Any

from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.bundles.models import Bundle, Origin
from growers.bundles.queries import of_winter, variety_of

from .fates import ENDS, WAYS

ROOTS = (Bundle.Made.GRADED, Bundle.Made.BOUGHT, Bundle.Made.FOUND)
"""What begins in a book; every other bundle is made from these, and its rods are told of where they began."""
GROUPS = {
    "shed": (gettext_lazy("Still there"), ("shed",)),
    "sold": (gettext_lazy("Sold"), ("sold",)),
    "woven": (gettext_lazy("Woven"), ("woven", "worked")),
    "soaked": (gettext_lazy("Soaked, not woven"), ("soaked",)),
    "given": (gettext_lazy("Given"), ("given",)),
    "gone": (gettext_lazy("Gone or spoiled"), ("burnt", "composted", "beetle", "mouse", "mould", "lost", "spoiled")),
    "making": (gettext_lazy("Rejects, bark"), ("rejects", "bark")),
    "set_right": (gettext_lazy("Set right"), ("set_right",)),
}
EACH = {end: (label, (end,)) for end, label in ENDS.items()}


@dataclass(frozen=True)
class Named:
    """What a line of the table is about, and the page it can be read on."""

    name: str
    order: object
    page: str = ""
    uid: object = None


UNKNOWN = Named(gettext_lazy("unknown variety"), "")


@dataclass(frozen=True)
class Cell:
    """Bundles' worth, as shown, and its weight as tied (kg) where it was weighed."""

    label: str
    worth: str
    part: float
    kg: float | None


@dataclass(frozen=True)
class Line:
    """What became of some bundles. `kg` is their weight as tied, but for those that were `unweighed`."""

    of: Named | None
    tied: int
    kg: float | None
    unweighed: int
    cells: list


def roots_of(holding, winter):
    """The origins of the bundles that a winter began with: one each."""
    origins = of_winter(holding, winter).filter(bundle__struck_out_at=None, bundle__made__in=ROOTS)
    related = ("bundle__length_class", "purchase__variety", "find__variety")
    planting = ("cut__planting__variety", "cut__planting__bed")
    return list(Origin.objects.of(holding).filter(pk__in=origins).select_related(*related, *planting).order_by("pk"))


def flow_of(origins, ends) -> Any:
    """What became of bundles, as a DataFrame: a row for each bundle and end, by the `ends` of `fates_of`.

    Columns: bundle (id), planting, variety, length (Named), end, worth (part of the bundle), kg (as tied; NaN where
    it was not weighed). The worth of a bundle adds up to 1.
    """
    from pandas import DataFrame

    columns = ["bundle", "planting", "variety", "length", "end", "worth", "kg"]
    rows = [
        (bundle.pk, *names_of(origin), end, float(part), float(part) * (bundle.tied_mass_kg or float("nan")))
        for origin in origins
        for bundle in [origin.bundle]
        for end, part in ends[bundle.pk].items()
    ]
    return DataFrame(rows, columns=columns)


def names_of(origin):
    """The planting (or where else it is from), the variety and the length that a bundle was tied as."""
    variety, length = variety_of(origin), origin.bundle.length_class
    known = Named(variety.name, variety.name_key, "beds:variety", variety.uid) if variety else UNKNOWN
    sorted_as = Named(length.label, length.min_m)
    if origin.cut is None:
        # After all that was grown here.
        return Named(str(origin.source[1]), (1, str(origin.source[1]))), known, sorted_as
    planting = origin.cut.planting
    return Named(str(planting), (0, str(planting)), "beds:planting", planting.uid), known, sorted_as


def line_of(flow, ends, of=None):
    """One line: the flow of some bundles in groups of ends, {key: (label, ends)}."""
    tied = flow["bundle"].nunique()
    worth = [float(flow.loc[flow["end"].isin(some), "worth"].sum()) for _label, some in ends.values()]
    kgs = [flow.loc[flow["end"].isin(some), "kg"].sum(min_count=1) for _label, some in ends.values()]
    cells = [
        Cell(str(label), shown, part, None if kg != kg else float(kg))
        for (label, _some), shown, part, kg in zip(
            ends.values(), in_tenths(worth, tied), (part / tied for part in worth), kgs, strict=True
        )
    ]
    kg = flow["kg"].sum(min_count=1)
    unweighed = flow.loc[flow["kg"].isna(), "bundle"].nunique()
    return Line(of, tied, None if kg != kg else float(kg), unweighed, cells)


def in_tenths(worths, whole):
    """Bundles' worths as shown, in tenths that add up to the whole; the largest remainders get the odd tenths."""
    tenths = [floor(worth * 10) for worth in worths]
    odd = round(whole * 10) - sum(tenths)
    by_remainder = sorted(range(len(worths)), key=lambda n: tenths[n] - worths[n] * 10)
    for n in by_remainder[:odd]:
        tenths[n] += 1
    return [written(tenth, worth) for tenth, worth in zip(tenths, worths, strict=True)]


def written(tenths, worth):
    if tenths:
        return number_format(tenths / 10, 1 if tenths % 10 else 0)
    return _("under %(tenth)s") % {"tenth": number_format(0.1, 1)} if abs(worth) > 1e-9 else ""


def lines_by(flow, by):
    """A line for each planting, variety or length, in the groups of ends that any of the rods came to."""
    came_to = {key: group for key, group in GROUPS.items() if flow["end"].isin(group[1]).any()}
    lines = [line_of(some, came_to, of) for of, some in flow.groupby(by, sort=False)]
    return sorted(lines, key=lambda line: line.of.order)


def ways_of(origins, ways):
    """[(way, bundles' worth)] that rods went through before they ended; none that nothing went."""
    found = {way: sum(ways[origin.bundle_id].get(way, 0) for origin in origins) for way in WAYS}
    return [(str(WAYS[way]), written(round(part * 10), float(part))) for way, part in found.items() if part]
