"""What is out of the water and waits to be used, wrapped damp, and until when it is workable."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime, timedelta

from growers.bundles.rules import WHOLE

from .. import rules
from ..models import Batch, BenchResult, GoneOver, Lift, Mellow, Redamp
from .keeping import Keeping, keeping_by_type
from .tank import by_batch, with_bundles

ASKED_FOR = timedelta(days=30)
"""So long after their last workable day the book asks after lifted rods (our own rule)."""


@dataclass(frozen=True)
class LiftedRods:
    """Rods of one batch out of the water and not yet used; `use_by_at` is a guess for rods wrapped damp."""

    batch: Batch
    name: str
    lift: Lift
    mellow: Mellow | None
    bench: tuple[BenchResult, ...]
    use_by_at: datetime
    keeping: Keeping
    redamped: tuple[Redamp, ...] = ()
    gone_over: GoneOver | None = None

    def long_ago(self, now):
        """So long past its last workable day that nobody will tell any more what became of it."""
        return now > self.use_by_at + ASKED_FOR

    @property
    def bundle(self):
        return self.batch.taking.bundle

    @property
    def part_out(self):
        return self.batch.out_ppb / WHOLE


def kept_of(batch):
    """What of one batch is out of the water and unused, or None."""
    among = Batch.objects.of(batch.holding).with_some_left().filter(pk=batch.pk)
    return next(iter(lifted_rods(batch.holding, among)), None)


def lifted_rods(holding, batches=None):
    """What is out of the water and unused, oldest first."""
    batches, names = with_bundles(Batch.objects.of(holding).with_some_left() if batches is None else batches)
    lifts = by_batch(Lift, holding, batches)
    mellows = {m.lift_id: m for m in Mellow.objects.of(holding).filter(lift__batch__in=batches)}
    bench = defaultdict(list)
    for result in BenchResult.objects.of(holding).filter(lift__batch__in=batches).order_by("at", "pk"):
        bench[result.lift_id].append(result)
    damped, gone = defaultdict(list), {}
    for each in Redamp.objects.of(holding).filter(lift__batch__in=batches).order_by("at", "pk"):
        damped[each.lift_id].append(each)
    for each in GoneOver.objects.of(holding).filter(lift__batch__in=batches):
        gone[each.lift_id] = each
    keeping = keeping_by_type(holding) if batches else {}
    found = []
    for batch in batches:
        lift = rules.oldest_still_there([(lift, lift.part_ppb) for lift in lifts[batch.pk]], batch.out_ppb)
        if lift is None:
            continue
        keeps = keeping[batch.taking.bundle.type]
        found.append(
            LiftedRods(
                batch=batch,
                name=names[batch.taking.bundle_id],
                lift=lift,
                mellow=mellows.get(lift.pk),
                bench=tuple(bench[lift.pk]),
                use_by_at=lift.until_at + timedelta(days=keeps.days),
                keeping=keeps,
                redamped=tuple(damped[lift.pk]),
                gone_over=gone.get(lift.pk),
            )
        )
    return sorted(found, key=lambda each: each.use_by_at)


@dataclass(frozen=True)
class LiftTold:
    lift: Lift
    mellow: Mellow | None
    bench: tuple[BenchResult, ...]
    gone_over: bool = False


def lifts_told(batch):
    """Each lift of a batch with its wrapping and how it was at the bench."""
    holding = batch.holding
    mellows = {mellow.lift_id: mellow for mellow in Mellow.objects.of(holding).filter(lift__batch=batch)}
    bench = defaultdict(list)
    for result in BenchResult.objects.of(holding).filter(lift__batch=batch).order_by("at", "pk"):
        bench[result.lift_id].append(result)
    lifts = Lift.objects.of(holding).filter(batch=batch).order_by("at", "pk")
    gone = set(GoneOver.objects.of(holding).filter(lift__batch=batch).values_list("lift", flat=True))
    return [LiftTold(lift, mellows.get(lift.pk), tuple(bench[lift.pk]), lift.pk in gone) for lift in lifts]
