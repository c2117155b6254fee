"""How moist a bundle is believed to be, day by day: found by tests, carried on by weighings and by the store's air."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import exp, hypot

from .. import rules

A_DAY = timedelta(days=1)


@dataclass(frozen=True)
class Belief:
    """What the moisture is at the end of a day, as far as the book knows.

    `found_on`: the day of the newest reading behind it, from which it grows old; `tested_on` and `weighed_on`
    those of the newest oven test and weighing. `followed`: whether the store's air was known on every day since.
    """

    on: date
    moisture: float
    sd_found: float
    found_on: date
    kind: str
    tests: frozenset
    tested_on: date | None = None
    weighed_on: date | None = None
    followed: bool = True
    telltale: object = None

    @property
    def age(self):
        return (self.on - self.found_on).days

    @property
    def sd(self):
        return self.sd_found + rules.SD_A_DAY * self.age


def course_of(evidence):
    """{day: Belief} from the first test to the evidence's day, by its own tests or, where surer, by its tell-tales'."""
    course = own_course(evidence)
    told = [(own_course(telltale), telltale.bundle, spread) for telltale, spread in evidence.telltales]
    for day in sorted({day for days, _telltale, _spread in told for day in days}):
        if evidence.veto and day <= evidence.veto.on:
            continue
        heard = [as_sister(days[day], *who) for days, *who in told if day in days]
        # Tell-tales that disagree: the wetter rules.
        wettest = max(heard, key=lambda belief: belief.moisture)
        if day not in course or wettest.sd < course[day].sd:
            course[day] = wettest
    return course


def as_sister(belief, telltale, spread):
    return replace(belief, sd_found=hypot(belief.sd_found, spread), kind="sister", telltale=telltale)


def own_course(evidence):
    tests = evidence.tests_after_veto()
    if not tests:
        return {}
    changing = {test.on for test in tests} | {mass.on for mass in evidence.masses}
    dry_masses = {test.key: dry_mass(test, evidence.masses) for test in tests}
    course, belief, day = {}, None, tests[0].on
    while day <= evidence.today:
        if belief:
            belief = a_day_on(belief, day, evidence.store_on(day))
        if day in changing:
            belief = heeding(belief, found_on(day, tests, dry_masses, evidence.masses))
        if belief:
            course[day] = belief
        day += A_DAY
    return course


def a_day_on(belief, day, store):
    """Drawn for one day towards where the store's air lets rods come to rest; standing still where that is unknown."""
    if store is None:
        return replace(belief, on=day, followed=False)
    stays = exp(-rules.RATE_A_DAY * store.pace)
    moisture = store.moisture + (belief.moisture - store.moisture) * stays
    return replace(belief, on=day, moisture=moisture)


def found_on(day, tests, dry_masses, masses):
    """What the tests and weighings of one day say together; None if nothing."""
    weighed = next((mass for mass in reversed(masses) if mass.on == day and not mass.wet), None)
    readings = [(test, test.moisture, test.sd, False) for test in tests if test.on == day]
    for test in tests:
        carried = weighed and carry(test, dry_masses[test.key], weighed)
        if carried:
            readings.append((test, *carried, True))
    if not readings:
        return None
    moisture, sd = rules.combined([(moisture, sd) for _test, moisture, sd, _carried in readings])
    if any(carried for *_reading, carried in readings):
        sd = hypot(sd, rules.SCALE_SD * (1 + moisture))
    surest = min(readings, key=lambda reading: reading[2])[0]
    return Belief(
        on=day,
        moisture=moisture,
        sd_found=sd,
        found_on=day,
        kind=surest.kind,
        tests=frozenset(test.key for test, *_rest in readings),
        tested_on=max((test.on for test, *_rest in readings if test.oven), default=None),
        weighed_on=day if any(carried for *_reading, carried in readings) else None,
    )


def weighed_at(test, masses):
    """The weighing nearest to a test, within three days of it; a wet one does not count."""
    near = [mass for mass in masses if not mass.wet and abs(mass.on - test.on) <= rules.TEST_WITHIN]
    return min(near, key=lambda mass: (abs(mass.on - test.on), mass.on < test.on), default=None)


def dry_mass(test, masses):
    """(dry mass of the whole bundle in kg, the weighing it is known from), or None where it was not weighed then.

    D = m / share / (1 + M).
    """
    at = weighed_at(test, masses)
    return (at.whole_kg / (1 + test.moisture), at) if at else None


def carry(test, known, weighed):
    """(moisture, sd) that a later weighing makes of a test: M = m / (share · D) - 1; None if not later, or absurd."""
    if known is None or weighed.when <= known[1].when or weighed.on <= test.on:
        return None
    dry_kg, _at = known
    moisture = weighed.whole_kg / dry_kg - 1
    if moisture < rules.LIGHTEST:
        return None
    return moisture, test.sd * (1 + moisture) / (1 + test.moisture)


def heeding(belief, found):
    """What is believed once something new was found: the surer of the two; both, where they are tests near dryness."""
    if found is None or belief is None:
        return found or belief
    tested_on = max((day for day in (belief.tested_on, found.tested_on) if day), default=None)
    apart = not belief.tests & found.tests and belief.age <= rules.AGREE_WITHIN.days
    if apart and max(belief.moisture, found.moisture) <= rules.NEAR_DRY:
        moisture, sd = rules.combined([(belief.moisture, belief.sd), (found.moisture, found.sd)])
        surer = min(belief, found, key=lambda each: each.sd)
        return replace(
            found,
            moisture=moisture,
            sd_found=sd,
            kind=surer.kind,
            tests=belief.tests | found.tests,
            tested_on=tested_on,
            weighed_on=found.weighed_on or belief.weighed_on,
        )
    return found if found.sd <= belief.sd else belief


def points(evidence, belief):
    """[(day, moisture)] of the weighings from its test on, by the surest test whose bundle was weighed with it."""
    known = [
        (test, dry_mass(test, evidence.masses)) for test in evidence.tests_after_veto() if test.key in belief.tests
    ]
    known = [(test, *dry) for test, dry in known if dry]
    if not known:
        return []
    _test, dry_kg, at = min(known, key=lambda each: each[0].sd / (1 + each[0].moisture))
    later = [mass for mass in evidence.masses if not mass.wet and mass.when >= at.when]
    found = [(mass.on, mass.whole_kg / dry_kg - 1) for mass in later]
    return [(day, moisture) for day, moisture in found if moisture >= rules.LIGHTEST]
