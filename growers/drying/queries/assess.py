"""Is it dry, how do we know, and what would settle it: one answer of one bundle, as of one day.

The first form of the answer: docs/explanation/dryness.md tells how it is reckoned.
"""

from dataclasses import dataclass, field
from datetime import date
from statistics import NormalDist

from growers.bundles.models import Bundle
from growers.science.moisture import equilibrium_moisture
from growers.science.shrinkage import moisture_at_limit, shrinkage, shrinkage_to_come

from .. import rules
from ..models import DrynessAnswer
from .course import course_of
from .evidence import CLOCK_RESTARTS, evidence_of
from .outlook import cut_lately, details, dry_days, measure_next, weigh_next

Answer = DrynessAnswer.Answer


@dataclass(frozen=True)
class Assessment:
    """What can be said of a bundle on a day. Moistures are fractions of the dry mass, low and high of four in five.

    `how_known`: measured, sister, stack, cut, meter, started, before, word or calendar. `chance` that the
    shrinking still to come is within the limit (for a dry one: on the day it was found to have dried out).
    `measure_next`: oven, weigh or air, the cheapest thing that would tell most; nothing where all is told.
    `details` holds what a sentence needs: days as ISO text, codes.
    """

    answer: str
    how_known: str
    chance: float | None = None
    moisture: float | None = None
    moisture_low: float | None = None
    moisture_high: float | None = None
    shrinkage_to_come: float | None = None
    store_moisture: float | None = None
    dried_out_on: date | None = None
    dry_on: date | None = None
    dry_low_on: date | None = None
    dry_high_on: date | None = None
    weigh_next_on: date | None = None
    measure_next: str = ""
    word: str = ""
    details: dict = field(default_factory=dict)


def assess(bundle: Bundle, today: date) -> Assessment:
    """What can be said of a bundle from what the book held up to a day."""
    return assess_all([bundle], today)[bundle.pk]


def assess_all(bundles, today) -> dict[int, Assessment]:
    """By id; a dozen queries, however many bundles."""
    return {pk: judged(evidence) for pk, evidence in evidence_of(bundles, today).items()}


def moisture_on(bundle: Bundle, on: date) -> float | None:
    """The moisture a bundle is best believed to have had at the end of a day; None where it is not known.

    Green rods of which nothing was heard for six weeks are not known any more, unless their store's air was.
    """
    evidence = evidence_of([bundle], on)[bundle.pk]
    belief = course_of(evidence).get(on)
    if belief is None or (
        belief.moisture > rules.NEAR_DRY and not belief.followed and belief.age > rules.SIX_WEEKS.days
    ):
        return None
    return belief.moisture


def moisture_of_dry(holding) -> float:
    """How moist a rod may be to shrink no more than the holding's limit indoors."""
    return Limits(holding).dry


class Limits:
    """The holding's own: where a basket comes to rest, and how moist a rod may be to shrink no more than the limit."""

    def __init__(self, holding):
        self.rest = equilibrium_moisture(holding.indoor_temperature_c, holding.indoor_humidity)
        self.dry = self.moisture_within(holding.shrink_limit)
        self.shed_dry = self.moisture_within(holding.shrink_limit + rules.SHED_DRY_LIMIT_MORE)

    def moisture_within(self, limit):
        return moisture_at_limit(min(limit, shrinkage(self.rest)), self.rest)


def judged(evidence):
    limits = Limits(evidence.bundle.holding)
    course = course_of(evidence)
    belief, store = course.get(evidence.today), evidence.store_on(evidence.today)
    answer, said = answered(evidence, course, belief, store, limits)
    said = measured(belief, store, limits) | said
    said["details"] = details(evidence, belief, store, limits) | said.get("details", {})
    said["word"] = str(evidence.word.says) if evidence.word else ""
    if answer != Answer.DRY:
        said["weigh_next_on"] = weigh_next(evidence, said.get("dry_on"))
        said.setdefault("measure_next", measure_next(evidence, said.get("chance"), belief, store))
    return Assessment(answer=str(answer), **said)


def answered(evidence, course, belief, store, limits):
    """The answer's word, and what goes with it."""
    if evidence.damp:
        return Answer.DAMP, {
            "how_known": "word",
            "chance": None,
            "measure_next": "oven",
            "details": {"damp_on": evidence.damp.on.isoformat()},
        }
    if dried := dried_out(evidence, course, limits):
        on, how_known, chance = dried
        now = belief.moisture if belief else store and store.moisture
        air_damp = bool(now and now > limits.dry) or bool(store and store.moisture > limits.dry)
        return Answer.DRY, {
            "how_known": how_known,
            "chance": chance,
            "dried_out_on": on,
            "details": {"air_damp": air_damp},
        }
    if belief is None:
        return unmeasured(evidence)
    if store and is_shed_dry(belief, store, limits):
        return Answer.SHED_DRY, {}
    if days := dry_days(evidence, belief, store, limits):
        return Answer.NOT_YET, dict(zip(("dry_on", "dry_low_on", "dry_high_on"), days, strict=True))
    lately = rules.SIX_WEEKS if belief.followed else rules.FORTNIGHT
    if chance_within(belief, limits.dry) <= rules.HARDLY and belief.age <= lately.days:
        return Answer.NOT_YET, {}
    return Answer.CANT_SAY, {}


def unmeasured(evidence):
    """Nothing is dry within six weeks of the cut; later the calendar alone can't say."""
    if evidence.word is None and cut_lately(evidence):
        return Answer.NOT_YET, {"how_known": "calendar"}
    return Answer.CANT_SAY, {"how_known": "word" if evidence.word else "calendar"}


def measured(belief, store, limits):
    """The figures of what is believed now."""
    found = {"how_known": "calendar", "store_moisture": store.moisture if store else None}
    if belief is None:
        return found
    return found | {
        "how_known": belief.kind,
        "chance": chance_within(belief, limits.dry),
        "moisture": belief.moisture,
        "moisture_low": max(0.0, belief.moisture - rules.Z80 * belief.sd),
        "moisture_high": belief.moisture + rules.Z80 * belief.sd,
        "shrinkage_to_come": max(0.0, shrinkage_to_come(belief.moisture, limits.rest)),
    }


def chance_within(belief, moisture):
    return NormalDist(belief.moisture, belief.sd).cdf(moisture)


def dried_out(evidence, course, limits):
    """(day, how known, chance): when it was first known to have dried out once; None if not, or not since a veto."""
    before = evidence.bundle.dried_out_before_on
    if before and not clock_restarted(evidence.bundle) and not evidence.veto:
        return before, "before", None
    for day, belief in sorted(course.items()):
        tested = belief.tested_on is not None and day - belief.tested_on <= rules.SIX_WEEKS
        witnesses = tested + (evidence.store_on(day) is not None)
        if not witnesses:
            continue
        chance = chance_within(belief, limits.dry)
        if chance >= (rules.DRY_WITH_BOTH if witnesses == 2 else rules.DRY_WITH_ONE):
            return day, belief.kind, chance
    return None


def clock_restarted(bundle):
    return bool(bundle.making and bundle.making.what in CLOCK_RESTARTS)


def is_shed_dry(belief, store, limits):
    about = NormalDist(belief.moisture, belief.sd)
    within = about.cdf(store.moisture + rules.SHED_DRY_WITHIN) - about.cdf(store.moisture - rules.SHED_DRY_WITHIN)
    return within >= rules.SHED_DRY_SURE and about.cdf(limits.shed_dry) >= rules.SHED_DRY_LIMIT_SURE
