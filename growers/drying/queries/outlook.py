"""When it will be dry, what would settle it, and what the evidence makes one ask."""

from datetime import timedelta
from math import exp, log

from growers.bundles.models import Bundle

from .. import rules
from .course import dry_mass, points


def dry_days(evidence, belief, store, limits):
    """(about, from, to) when it will be dry, by weighings after a test that draw near where its store lets it rest.

    M - E = (M0 - E) exp(-k t), k by least squares through the logarithms; the days are those of M at the limit.
    """
    if store is None or store.moisture >= limits.dry or belief.moisture <= limits.dry:
        return None
    above = [(day, moisture - store.moisture) for day, moisture in points(evidence, belief)]
    above = [(day, over) for day, over in above if over > 0]
    # The test's own weighing, and two more.
    if len(above) < 3:
        return None
    rate = rate_of(above)
    if rate <= 0:
        return None

    def reached(moisture, rate):
        over = max(moisture, limits.dry) - store.moisture
        return log(over / (limits.dry - store.moisture)) / rate

    slack = exp(rules.Z80 * rules.SD_OF_RATE)
    near, far = belief.moisture - rules.Z80 * belief.sd, belief.moisture + rules.Z80 * belief.sd
    days = (reached(belief.moisture, rate), reached(near, rate * slack), reached(far, rate / slack))
    if days[2] > rules.FURTHEST.days:
        return None
    return tuple(evidence.today + timedelta(days=round(each)) for each in days)


def rate_of(above):
    """A day's rate of ln(over), by least squares."""
    first = above[0][0]
    xs, ys = [(day - first).days for day, _over in above], [log(over) for _day, over in above]
    middle_x, middle_y = sum(xs) / len(xs), sum(ys) / len(ys)
    width = sum((x - middle_x) ** 2 for x in xs)
    if not width:
        return 0.0
    return -sum((x - middle_x) * (y - middle_y) for x, y in zip(xs, ys, strict=True)) / width


def weigh_next(evidence, dry_on):
    """When the next weighing would tell most: about when it may be dry, ten to seventy days after the last."""
    last = max((mass.on for mass in evidence.masses), default=evidence.bundle.tied_on)
    return rules.clamped(dry_on or last + rules.WEIGH_USUAL, last + rules.WEIGH_SOONEST, last + rules.WEIGH_LATEST)


def measure_next(evidence, chance, belief, store):
    """The cheapest thing that would settle it: reading the store's air, weighing on, or an oven test."""
    tested = belief is not None and belief.tested_on and evidence.today - belief.tested_on <= rules.SIX_WEEKS
    if tested and store is None and chance >= rules.DRY_WITH_BOTH:
        return "air"
    if belief is None and evidence.today < guess_of(evidence)[1]:
        return "weigh"
    if chance is not None and chance <= 0.5 and points(evidence, belief):
        return "weigh"
    return "oven"


def guess_of(evidence):
    """(what the guess goes by, the month from which it is likely dry): common practice alone."""
    bundle = evidence.bundle
    if bundle.made == Bundle.Made.DRIED_AGAIN:
        return "dried_again", rules.months_after(bundle.tied_on, 0)
    if bundle.type != Bundle.Type.BROWN:
        return "peeled", rules.months_after(bundle.tied_on, rules.MONTHS_PEELED)
    if evidence.cuts:
        return "cut", rules.months_after(max(cut.first_on for cut in evidence.cuts), rules.MONTHS_BARK_ON)
    return bundle.made, rules.months_after(bundle.tied_on, rules.MONTHS_BARK_ON)


def cut_lately(evidence):
    """Whether the newest of its bark-on rods were still on the stool six weeks ago."""
    goes_by, _likely_from = guess_of(evidence)
    return goes_by == "cut" and evidence.today - max(cut.first_on for cut in evidence.cuts) < rules.NEVER_DRY_WITHIN


def by_air(evidence, store, limits):
    """The day by which green rods would come within the limit in the air read where they stand, if it stays so.

    M - E = (M0 - E) exp(-k t) from the day of the cut or the peeling; None where no air was read, or where rods
    that began otherwise are in it; "never" where that air lets them rest above the limit.
    """
    goes_by, _likely_from = guess_of(evidence)
    if store is None or goes_by not in ("cut", "peeled"):
        return None
    if store.moisture >= limits.dry:
        return "never"
    green = max(rules.GREEN_MOISTURE, limits.dry)
    days = log((green - store.moisture) / (limits.dry - store.moisture)) / (rules.RATE_A_DAY * store.pace)
    if days > rules.FURTHEST.days:
        return "never"
    began = max(cut.first_on for cut in evidence.cuts) if goes_by == "cut" else evidence.bundle.tied_on
    return (began + timedelta(days=round(days))).isoformat()


def details(evidence, belief, store, limits):
    goes_by, likely_from = guess_of(evidence)
    found = {"guess": str(goes_by), "likely_from": likely_from.isoformat(), "asks": asks(evidence)}
    found["on"] = evidence.today.isoformat()
    if belief is None and (air := by_air(evidence, store, limits)):
        found["likely_by_air"] = air
    if evidence.masses:
        found["last_weighed_on"] = evidence.masses[-1].on.isoformat()
    if belief is not None:
        found |= {"found_on": belief.found_on.isoformat(), "followed": belief.followed}
        found |= {name: day.isoformat() for name in ("tested_on", "weighed_on") if (day := getattr(belief, name))}
        if belief.telltale:
            found["sister"] = belief.telltale.tag_shown
    return found


def asks(evidence):
    """Questions that the evidence raises, never silently mended."""
    found = ["sister_damp"] if evidence.damp_sisters else []
    known = [(test, dry) for test in evidence.tests if (dry := dry_mass(test, evidence.masses))]
    for test, (dry_kg, at) in known:
        later = [mass for mass in evidence.masses if mass.when > at.when and mass.on > test.on]
        if later and later[-1].whole_kg / dry_kg - 1 < rules.LIGHTEST:
            found.append("too_light")
            break
    if rose(evidence.masses):
        found.append("rose")
    return found


def rose(masses):
    """Whether the latest weighing is more than 1 % above the one before it."""
    dry = [mass for mass in masses if not mass.wet]
    return len(dry) > 1 and dry[-1].whole_kg > 1.01 * dry[-2].whole_kg
