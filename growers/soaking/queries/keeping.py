"""How long soaked rods stay workable, wrapped damp: a guess, until the book's own records stand in its place."""

from collections import defaultdict
from dataclasses import dataclass

from growers.bundles.models import Bundle

from .. import rules
from ..models import BenchResult, GoneOver


@dataclass(frozen=True)
class Keeping:
    """`days` to use rods within; `own` where it is the soonest that rods of this type went over in this book.

    `gone_days` are days from lifting until rods were found past it, shortest first; `worked_days` the longest after
    which they were still right at the bench. Days, not averaged.
    """

    days: float
    own: bool = False
    gone_days: tuple[float, ...] = ()
    worked_days: float | None = None


def keeping_by_type(holding):
    """{type: Keeping} of every type of rods."""
    gone, worked = defaultdict(list), defaultdict(list)
    records = GoneOver.objects.of(holding).select_related("lift__batch__taking__bundle", "holding")
    for each in records:
        lift = each.lift
        gone[lift.batch.taking.bundle.type].append(rules.days_to_day(lift.at, each.on, holding.zone))
    right = BenchResult.objects.of(holding).filter(result=BenchResult.Result.RIGHT)
    for each in right.select_related("lift__batch__taking__bundle"):
        worked[each.lift.batch.taking.bundle.type].append(rules.days(each.lift.until_at, each.at))
    return {str(type): keeping_of(type, sorted(gone[type]), worked[type]) for type in Bundle.Type}


def keeping_of(type_, gone, worked):
    own = len(gone) >= rules.OWN_KEEPING_FROM
    return Keeping(
        days=max(gone[0], 1) if own else rules.WORKABLE_DAYS[type_],
        own=own,
        gone_days=tuple(gone),
        worked_days=max(worked, default=None),
    )
