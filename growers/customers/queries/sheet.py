"""What a customer's sheet says, in its order; nothing of the holding but the one variety or bundle."""

from dataclasses import dataclass
from datetime import date

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of
from growers.science import units
from growers.soaking import rules
from growers.soaking.queries import Bounds, bounds_for
from growers.stock.queries import Whole, believed_rods, whole_masses
from growers.stock.queries.weights import state_of

from . import wording
from .said import Said, said_of

THIN = 5
"""Fewer soaks than this are called thin (our own choice)."""
LIKE_YOUR_WATER_C = 3.0
"""Soaks in water within this of the reader's are shown as like it (our own choice)."""


@dataclass(frozen=True)
class LengthSays:
    """One length: how long by the rule, and how many dry rods there are in a kilo or pound (fewest, most)."""

    length_class: object
    rule: str
    rods_in: tuple[int, int] | None = None


@dataclass(frozen=True)
class Weighed:
    """What is left of one bundle, as weighed on a day; `rods_in` a kilo or pound where its rods were counted."""

    kg: float
    on: date
    typical: bool
    weeks: int
    rods_in: int | None


@dataclass(frozen=True)
class SheetSays:
    name: str
    species: str
    opinion: str
    type: str
    mixed: bool
    peeled: bool
    lengths: tuple[LengthSays, ...]
    bounds: Bounds | None
    keeps_days: int
    mass_unit: str = "kg"
    bundle: Bundle | None = None
    said: Said | None = None
    weighed: Weighed | None = None

    @property
    def number(self):
        return self.bounds.number if self.bounds else 0

    @property
    def thin(self):
        return self.number < THIN

    @property
    def soaks(self):
        return wording.soaks_in_words(self.bounds.soaks if self.bounds else ())

    @property
    def how_dry(self):
        return wording.how_for_strangers(self.said.assessed) if self.said else ""

    @property
    def left_out(self):
        """How many soaks say nothing here: mixed, soaked before, not all under, or with nothing written down."""
        return sum(self.bounds.left_out.values()) if self.bounds else 0


def sheet_says(sheet, today, mass_unit):
    """What a sheet says on a day, with rods counted to a kilo ("kg") or a pound ("lb")."""
    if sheet.bundle:
        return of_bundle(sheet.bundle, today, mass_unit)
    return of_variety(sheet.variety, today, mass_unit)


def of_variety(variety, today, mass_unit):
    bundles = Bundle.objects.of(variety.holding).of_variety(variety).filter(type=Bundle.Type.BROWN)
    bundles = list(bundles.select_related("length_class", "holding"))
    ancestries = ancestry_of(bundles)
    unmixed = [bundle for bundle in bundles if not ancestries[bundle.pk].mixed]
    return says(variety, Bundle.Type.BROWN, lengths=lengths_of(unmixed, today, mass_unit), mass_unit=mass_unit)


def of_bundle(bundle, today, mass_unit):
    ancestry = ancestry_of([bundle])[bundle.pk]
    return says(
        ancestry.variety,
        bundle.type,
        name=ancestry.name,
        mixed=ancestry.mixed,
        lengths=(LengthSays(bundle.length_class, rule_in_words(bundle.type, bundle.length_class)),),
        bundle=bundle,
        said=said_of(bundle, today),
        weighed=weighed(bundle, today, mass_unit),
        mass_unit=mass_unit,
    )


def says(variety, type, *, lengths, name="", **more):
    return SheetSays(
        name=name or variety.name,
        species=variety.species if variety else "",
        opinion=variety.opinion if variety else "",
        type=type,
        mixed=more.pop("mixed", False),
        peeled=type in (Bundle.Type.WHITE, Bundle.Type.BUFF),
        lengths=tuple(lengths),
        bounds=bounds_for(variety, type) if variety else None,
        keeps_days=rules.WORKABLE_DAYS[type],
        **more,
    )


def rule_in_words(type, length_class):
    low, high = rules.rule_days(type, length_class.min_m, length_class.max_m)
    return wording.span(low, high, open_ended=length_class.max_m is None and low == high)


def soak_rule(bundle):
    """The rule of thumb for a bundle, in words."""
    return rule_in_words(bundle.type, bundle.length_class)


def lengths_of(bundles, today, mass_unit):
    """Each length that the book has of these bundles, the shortest first."""
    counted = [bundle for bundle in bundles if bundle.tied_rods]
    wholes = whole_masses(counted, today)
    by_length = {bundle.length_class: [] for bundle in bundles}
    for bundle in counted:
        by_length[bundle.length_class].append(rods_in(mass_unit, bundle, wholes[bundle.pk]))
    for length_class in sorted(by_length, key=lambda each: each.min_m):
        known = [rods for rods in by_length[length_class] if rods]
        rule = rule_in_words(Bundle.Type.BROWN, length_class)
        yield LengthSays(length_class, rule, (min(known), max(known)) if known else None)


def rods_in(unit, bundle, whole):
    """Dry rods in a kilo or pound, of one bundle counted and weighed; None if it was not, or only while green."""
    rods = believed_rods(bundle)
    if not rods or whole is None or whole.known == "typical" or state_of(bundle, whole.on) != "dry":
        return None
    return round(rods * float(units.to_si(1, unit)) / whole.kg)


def weighed(bundle, today, mass_unit):
    whole: Whole | None = whole_masses([bundle], today)[bundle.pk]
    if whole is None or not bundle.left_ppb:
        return None
    return Weighed(
        kg=whole.left_kg(bundle),
        on=whole.on,
        typical=whole.known == "typical",
        weeks=(whole.on - bundle.tied_on).days // 7,
        rods_in=rods_in(mass_unit, bundle, whole),
    )


def like_this_water(bounds, celsius):
    """Those soaks that were in water like the reader's."""
    near = LIKE_YOUR_WATER_C
    return [bound for bound in bounds.soaks if bound.water and abs(bound.water.celsius - celsius) <= near]


def rule_for(says, length_m):
    """The rule for a length of the reader's own."""
    low, high = rules.rule_days(says.type, length_m, length_m)
    return wording.span(low, high)
