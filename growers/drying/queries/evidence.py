"""All that the book holds about how dry some bundles are, fetched at once."""

from collections import defaultdict
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time
from functools import cached_property

from django.db.models import Q

from growers.bundles.models import Adjustment, Bundle, Making, Move, Origin, Taking
from growers.bundles.queries import left_of
from growers.bundles.rules import WHOLE

from .. import rules
from ..models import MeterReading, OvenTest, Weighing, Word
from .air import Airs

CLOCK_RESTARTS = {Making.What.WHITE, Making.What.BUFF, Making.What.STEAMED}
SPEAKS_OF = {"bundle": 0.0, "stack": rules.SD_OF_STACK, "cut": rules.SD_OF_CUT}
THICKNESS = {"fine": 0, "pencil": 1, "stout": 2}


@dataclass(frozen=True)
class Test:
    """A moisture found on a day, of a bundle, stack or cut: by an oven, by a meter, or as the bundle was started."""

    on: date
    moisture: float
    sd: float
    of: str
    by: str
    key: tuple

    @property
    def oven(self):
        return self.by == "oven"

    @property
    def kind(self):
        """How we know, in one code."""
        if not self.oven:
            return self.by
        return "measured" if self.of == "bundle" else self.of


@dataclass(frozen=True)
class Mass:
    """What the whole bundle would have weighed (kg), had nothing been taken out."""

    on: date
    at: datetime | None
    whole_kg: float
    weighed_kg: float
    left: float
    wet: bool = False
    weighing: object = None

    @property
    def when(self):
        return self.on, self.weighing is not None, self.at or datetime.combine(self.on, time.min, UTC)


@dataclass
class Evidence:
    """What is known of one bundle up to a day."""

    bundle: Bundle
    today: date
    airs: Airs
    tests: list = field(default_factory=list)
    masses: list = field(default_factory=list)
    words: list = field(default_factory=list)
    moves: list = field(default_factory=list)
    cuts: list = field(default_factory=list)
    varieties: frozenset = frozenset()
    telltales: list = field(default_factory=list)
    damp_sisters: list = field(default_factory=list)

    @cached_property
    def veto(self):
        """The latest word against it."""
        return max((word for word in self.words if word.is_veto), key=lambda word: (word.on, word.pk), default=None)

    def tests_after_veto(self):
        return [test for test in self.tests if self.veto is None or test.on > self.veto.on]

    @cached_property
    def damp(self):
        """The word against it, if nothing newer speaks for it."""
        if self.veto is None or self.tests_after_veto():
            return None
        later = [w for w in self.words if not w.is_veto and (w.on, w.pk) > (self.veto.on, self.veto.pk)]
        return None if later else self.veto

    @property
    def word(self):
        """The newest of the grower's words."""
        return max(self.words, key=lambda word: (word.on, word.pk), default=None)

    def place_on(self, day):
        return next((move.place_id for move in reversed(self.moves) if move.on <= day), None)

    def store_on(self, day):
        place = self.place_on(day)
        return self.airs.at(place, day) if place else None

    def but_its_own(self):
        """Of a tell-tale, what was found of herself alone: what is known of stack or cut, her sisters know as well."""
        return replace_tests(self, [test for test in self.tests if test.of == "bundle"])


def replace_tests(evidence, tests):
    return replace(evidence, tests=tests, telltales=[])


def evidence_of(bundles, today):
    """The evidence about each bundle up to a day, by its id."""
    bundles = list(bundles)
    if not bundles:
        return {}
    return Gathering(bundles[0].holding, bundles, today).evidence()


class Gathering:
    """A dozen queries, however many bundles: theirs, and their tell-tales'."""

    def __init__(self, holding, bundles, today):
        self.holding, self.asked, self.today = holding, bundles, today
        stacks = {bundle.stack_id for bundle in bundles if bundle.stack_id}
        sisters = Bundle.objects.of(holding).filter(stack__in=stacks).select_related("length_class", "making")
        self.by_stack = by(sisters.order_by("pk"), "stack_id") if stacks else defaultdict(list)
        telltales = [b for group in self.by_stack.values() for b in group if b.telltale]
        self.bundles = list({bundle.pk: bundle for bundle in [*telltales, *bundles]}.values())
        self.origins = by(self.of(Origin).select_related("cut__planting").order_by("pk"), "bundle_id")
        self.moves = by(self.of(Move).order_by("on", "pk"), "bundle_id")
        self.takings, self.adjustments = (
            by(self.of(model).filter(on__lte=today), "bundle_id") for model in (Taking, Adjustment)
        )
        self.weighings = by(self.of(Weighing).filter(on__lte=today), "bundle_id")
        self.words, self.ovens, self.meters = (self.samples(model) for model in (Word, OvenTest, MeterReading))

    def of(self, model):
        return model.objects.of(self.holding).filter(bundle__in=self.bundles)

    def samples(self, model):
        """Readings of these bundles (and sisters), their stacks and their cuts, by relation and id."""
        about = {bundle.pk for bundle in self.bundles} | {b.pk for group in self.by_stack.values() for b in group}
        cuts = {origin.cut_id for group in self.origins.values() for origin in group if origin.cut_id}
        rows = model.objects.of(self.holding).filter(on__lte=self.today)
        rows = rows.filter(Q(bundle__in=about) | Q(stack__in=list(self.by_stack)) | Q(cut__in=cuts)).order_by(
            "on", "pk"
        )
        found = defaultdict(list)
        for row in rows:
            relation = next(name for name in SPEAKS_OF if getattr(row, f"{name}_id"))
            found[relation, getattr(row, f"{relation}_id")].append(row)
        return found

    def evidence(self):
        places = {move.place_id for group in self.moves.values() for move in group}
        days = [bundle.tied_on for bundle in self.bundles]
        airs = Airs(self.holding, places, min(days), self.today)
        found = {bundle.pk: self.evidence_about(bundle, airs) for bundle in self.bundles}
        for bundle in self.asked:
            sisters = [s for s in self.by_stack[bundle.stack_id] if s.pk != bundle.pk] if bundle.stack_id else []
            one = found[bundle.pk]
            one.telltales = [
                (found[s.pk].but_its_own(), spread(found[s.pk], one))
                for s in sisters
                if s.telltale and speaks_for(s, bundle)
            ]
            one.damp_sisters = [s for s in sisters if self.called_damp(s)]
        return {bundle.pk: found[bundle.pk] for bundle in self.asked}

    def evidence_about(self, bundle, airs):
        about = self.about(bundle)
        moves = [move for move in self.moves[bundle.pk] if move.on <= self.today]
        return Evidence(
            bundle=bundle,
            today=self.today,
            airs=airs,
            tests=sorted(self.tests(bundle, about), key=lambda test: test.on),
            masses=sorted(self.masses(bundle), key=lambda mass: mass.when),
            words=[word for key in about for word in self.words[key]],
            moves=moves,
            cuts=[origin.cut for origin in self.origins[bundle.pk] if origin.cut],
            varieties=frozenset(o.cut.planting.variety_id for o in self.origins[bundle.pk] if o.cut),
        )

    def about(self, bundle):
        """What readings may be of, to speak of this bundle. Peeled or steamed rods are no longer what was cut."""
        found = [("bundle", bundle.pk)] + ([("stack", bundle.stack_id)] if bundle.stack_id else [])
        if bundle.type == Bundle.Type.BROWN:
            found += [("cut", origin.cut_id) for origin in self.origins[bundle.pk] if origin.cut_id]
        return found

    def tests(self, bundle, about):
        for relation, pk in about:
            for row in self.ovens[relation, pk]:
                sd = (rules.sd_of_test(row.moisture) ** 2 + SPEAKS_OF[relation] ** 2) ** 0.5
                yield Test(row.on, row.moisture, sd, relation, "oven", ("oven", row.pk))
            for row in self.meters[relation, pk]:
                sd = ((rules.METER_TIMES * rules.sd_of_test(row.moisture)) ** 2 + SPEAKS_OF[relation] ** 2) ** 0.5
                yield Test(row.on, row.moisture, sd, relation, "meter", ("meter", row.pk))
        if bundle.started_moisture is not None and bundle.tied_on <= self.today:
            sd = rules.STARTED_TIMES * rules.sd_of_test(bundle.started_moisture)
            yield Test(bundle.tied_on, bundle.started_moisture, sd, "bundle", "started", ("started", bundle.pk))

    def masses(self, bundle):
        if bundle.tied_mass_kg and bundle.tied_on <= self.today:
            yield Mass(bundle.tied_on, None, bundle.tied_mass_kg, bundle.tied_mass_kg, 1.0)
        for row in self.weighings[bundle.pk]:
            left = left_of(bundle, row.on, row.at, self.takings[bundle.pk], self.adjustments[bundle.pk]) / WHOLE
            if left:
                yield Mass(row.on, row.at, row.mass_kg / left, row.mass_kg, left, row.wet, row)

    def called_damp(self, sister):
        """Whether the newest word on a sister herself is against her, and no oven test of hers is newer."""
        word = max(self.words["bundle", sister.pk], key=lambda word: (word.on, word.pk), default=None)
        return bool(word and word.is_veto and not any(row.on > word.on for row in self.ovens["bundle", sister.pk]))


def by(rows, name):
    found = defaultdict(list)
    for row in rows:
        found[getattr(row, name)].append(row)
    return found


def speaks_for(telltale, sister):
    """A tell-tale speaks for sisters as long or shorter, as stout or finer; never for longer or stouter ones."""
    if telltale.length_class.min_m < sister.length_class.min_m or telltale.type != sister.type:
        return False
    told, asked = THICKNESS.get(telltale.thickness), THICKNESS.get(sister.thickness)
    return told is None or asked is None or told >= asked


def spread(telltale, sister):
    return rules.SD_OF_SISTER if telltale.varieties == sister.varieties else rules.SD_OF_OTHER_VARIETY
