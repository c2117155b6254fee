"""What a weighing is likely to be, so that a slip is asked about while the bundle still hangs on the scale."""

from growers.bundles.queries import left_when_weighed as parts_left
from growers.bundles.rules import WHOLE

from .. import rules
from .course import course_of, dry_mass
from .evidence import evidence_of

GREEN_TO_DRY = 0.4
"""Drying takes about half the weight (common practice); a little more is let pass unasked."""


def left_when_weighed(bundle, on, at=None) -> float:
    """The share of a bundle that was left when it was weighed, 0 to 1."""
    return parts_left(bundle, on, at) / WHOLE


def likely_mass(bundle, on) -> tuple[float, float] | None:
    """(low, high) in kg of what a bundle will weigh as it stands on a day; None if it was never weighed.

    No more than 1 % above the time before, or 6 % where it was known near dry and may have taken up damp; no less
    than its rods can weigh, quite dry, or where that is not known than 0.4 of the time before.
    """
    evidence = evidence_of([bundle], on)[bundle.pk]
    before = [mass for mass in evidence.masses if not mass.wet]
    left = left_when_weighed(bundle, on)
    if not before or not left:
        return None
    last = before[-1]
    belief = course_of(evidence).get(last.on)
    more = 1.06 if belief and belief.moisture <= rules.NEAR_DRY else 1.01
    known = [dry[0] for test in evidence.tests_after_veto() if (dry := dry_mass(test, evidence.masses))]
    least = max(known) * 0.9 if known else last.whole_kg * GREEN_TO_DRY
    return min(least, last.whole_kg) * left, last.whole_kg * more * left
