"""What the checks, lifts and bench results of a soak bound."""

from collections import defaultdict
from dataclasses import dataclass

from .. import rules
from ..models import Batch, BenchResult, BendCheck, Lift, Redamp, Steam
from .reads import readings_by_tank, water_over
from .tank import FAILED

FOLDS, BENCH = "folds", "bench"
NOT_READY = (Lift.State.NEARLY, Lift.State.UNREADY)
READY = (Lift.State.READY, Lift.State.FORGOTTEN)
PAST_IT = (BendCheck.Result.SLIMY, BendCheck.Result.SLIPS)
WORKED = (BenchResult.Result.RIGHT, BenchResult.Result.TOO_SOFT)
FOLDED = (BendCheck.Result.FOLDS, *PAST_IT)


@dataclass(frozen=True)
class Bound:
    """Ready after `lower_days` and at or before `upper_days`; either may be unknown (None).

    `endpoint` is "folds" (bend checks in the tank) or "bench" (right at the bench after mellowing).
    `contradicted`: some record says the opposite, such as a crack after a fold.
    """

    batch: Batch
    endpoint: str
    lower_days: float | None
    upper_days: float | None
    water: rules.Water | None
    min_m: float
    max_m: float | None
    label: str
    winters: tuple[str, ...]
    contradicted: bool = False

    @property
    def rule(self):
        """Days by the rule of thumb, for the shortest and the longest rod, to a tenth."""
        low, high = rules.rule_days(self.batch.taking.bundle.type, self.min_m, self.max_m)
        return round(low, 1), round(high, 1)

    @property
    def rule_hours(self):
        low, high = rules.rule_days(self.batch.taking.bundle.type, self.min_m, self.max_m)
        return low * 24, high * 24

    @property
    def lower_hours(self):
        return self.lower_days and self.lower_days * 24

    @property
    def upper_hours(self):
        return self.upper_days and self.upper_days * 24


class Told:
    """What the checks, lifts and bench results of these batches say, read at once."""

    def __init__(self, holding, batches):
        self.readings = readings_by_tank(holding)
        self.checks, self.lifts, self.bench = defaultdict(list), defaultdict(list), defaultdict(list)
        self.damped, self.steamed = defaultdict(list), defaultdict(list)
        for check in BendCheck.objects.of(holding).filter(batch__in=batches).order_by("at", "pk"):
            self.checks[check.batch_id].append(check)
        for lift in Lift.objects.of(holding).filter(batch__in=batches).order_by("at", "pk"):
            self.lifts[lift.batch_id].append(lift)
        for result in BenchResult.objects.of(holding).filter(lift__batch__in=batches):
            self.bench[result.lift_id].append(result)
        for model, found in ((Redamp, self.damped), (Steam, self.steamed)):
            for lift_id, at in model.objects.of(holding).filter(lift__batch__in=batches).values_list("lift", "at"):
                found[lift_id].append(at)

    def bounds(self, batch, ancestry):
        found = [*self.all_folds(batch), *(self.at_bench(lift) for lift in self.lifts[batch.pk])]
        return [self.bound(batch, ancestry, *each) for each in found if each is not None]

    def silent(self, batch):
        """Why a first soak says nothing."""
        again = any(self.bench[lift.pk] and self.damped[lift.pk] for lift in self.lifts[batch.pk])
        return "re_soaked" if again else "nothing_said"

    def all_folds(self, batch):
        """Rods lifted before the others, such as the thin ones, speak for themselves alone."""
        checks, lifts = self.checks[batch.pk], self.lifts[batch.pk]
        last = [] if batch.in_water_ppb else lifts[-1:]
        for lift in lifts:
            if lift not in last and lift.state:
                yield self.folds([check for check in checks if check.at <= lift.until_at], [lift])
        yield self.folds(checks, last)

    def folds(self, checks, lifts):
        """From bend checks and what was said on lifting: (endpoint, not ready at, ready at, contradicted, until).

        Slimy rods, and forgotten ones, are past it: they were ready at some time before.
        """
        failed = [(check.at, check.at) for check in checks if check.result in FAILED]
        failed += [(lift.at, lift.until_at) for lift in lifts if lift.state in NOT_READY]
        folded = [(check.at, check.at) for check in checks if check.result in FOLDED]
        folded += [(lift.at, lift.until_at) for lift in lifts if lift.state in READY]
        if not failed and not folded:
            return None
        first = min(folded, key=lambda span: span[1], default=None)
        before = [span for span in failed if first is None or span[0] <= first[1]]
        last = max(before, default=None)
        return FOLDS, last and last[0], first and first[1], len(before) < len(failed), max(failed + folded)[1]

    def at_bench(self, lift):
        """From how the rods of one lift were to work, as they came out of their one soak."""
        told = [each for each in self.bench[lift.pk] if not self.damped_before(lift, each.at)]
        # Steam makes rods bend that the water had not made ready: after it, only a crack speaks of the soak.
        ready_at = [each.at for each in told if each.result in WORKED and not self.steamed_before(lift, each.at)]
        cracked_at = [each.at for each in told if each.result == BenchResult.Result.CRACKED]
        if self.past_it(lift):
            cracked_at = []
        if not cracked_at and not ready_at:
            return None
        # What cracked and was right a few days of mellowing later had soaked for long enough.
        unready = cracked_at and not (ready_at and max(cracked_at) < max(ready_at))
        return (
            BENCH,
            lift.at if unready else None,
            lift.until_at if ready_at else None,
            bool(cracked_at and ready_at),
            lift.until_at,
        )

    def damped_before(self, lift, at):
        """Whether the rods had dried out and been soaked again by then: that says nothing of the first soak."""
        return any(damped <= at for damped in self.damped[lift.pk])

    def steamed_before(self, lift, at):
        return any(steamed <= at for steamed in self.steamed[lift.pk])

    def past_it(self, lift):
        """Soaked too long, rods break again: a crack then does not mean that they were not ready."""
        slimy = any(c.result in PAST_IT and c.at <= lift.until_at for c in self.checks[lift.batch_id])
        return slimy or lift.state == Lift.State.FORGOTTEN

    def bound(self, batch, ancestry, endpoint, lower_at, upper_at, contradicted, until):
        """Widest where the moments are ranges: surely in the water so long, or at most so long."""
        length = batch.taking.bundle.length_class
        return Bound(
            batch=batch,
            endpoint=endpoint,
            lower_days=max(rules.days(batch.in_until_at, lower_at), 0.0) if lower_at else None,
            upper_days=rules.days(batch.in_at, upper_at) if upper_at else None,
            water=water_over(self.readings[batch.tank_id], batch.in_at, until),
            min_m=length.min_m,
            max_m=length.max_m,
            label=length.label,
            winters=ancestry.winters,
            contradicted=contradicted,
        )
