"""What wants doing now, gathered from every stage; and how a new book is begun."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from growers.baskets import queries as baskets
from growers.beds import queries as beds
from growers.beds.models import Planting, Variety
from growers.bundles import queries as bundles
from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of
from growers.bundles.rules import is_tag, shown
from growers.customers import queries as customers
from growers.drying import queries as drying
from growers.drying.models import DrynessAnswer
from growers.harvest import queries as harvest
from growers.harvest.models import Cut, LengthClass
from growers.soaking import queries as soaking
from growers.stock import queries as stock
from growers.stock.models import Promise

# In the order of a day: what stands in water first, the ledger last.
STAGES = (soaking, drying, harvest, bundles, beds, stock, customers, baskets)
NEWS_FOR = timedelta(days=21)


def due(holding, *, today, now):
    """Everything that wants doing: the urgent first, then what has waited longest."""
    found = [tagged(each) for stage in STAGES for each in stage.due(holding, today=today, now=now)]
    zone = ZoneInfo(holding.zone)
    return sorted(found, key=lambda each: (not each.urgent, day_of(each.when, zone) or today))


def tagged(each):
    return replace(each, tag=shown(each.tag)) if is_tag(each.tag) else each


def day_of(when, zone):
    return when.astimezone(zone).date() if isinstance(when, datetime) else when


@dataclass(frozen=True)
class BecameDry:
    bundle: Bundle
    name: str
    answer: DrynessAnswer
    for_whom: tuple


def became_dry(holding, today):
    """What was lately found to have dried out, and who waits for it."""
    answers = DrynessAnswer.objects.of(holding).filter(
        answer=DrynessAnswer.Answer.DRY, dried_out_on__gt=today - NEWS_FOR, bundle__left_ppb__gt=0
    )
    answers = answers.exclude(how_known="before").filter(bundle__struck_out_at=None)
    answers = list(
        answers.select_related("bundle__length_class", "bundle__holding").order_by("-dried_out_on", "bundle__tag")
    )
    names = ancestry_of([answer.bundle for answer in answers])
    waiting = {}
    for promise in Promise.objects.of(holding).standing().filter(bundle__in=[a.bundle for a in answers]).order_by("pk"):
        waiting.setdefault(promise.bundle_id, []).append(promise.whom)
    return [
        BecameDry(
            answer.bundle, names[answer.bundle_id].name, answer, tuple(dict.fromkeys(waiting.get(answer.bundle_id, ())))
        )
        for answer in answers
    ]


def first_steps(holding):
    """What a new book begins with: [(code, done)]; nothing once the first bundle is tied."""
    kinds = {"variety": Variety, "planting": Planting, "lengths": LengthClass, "cut": Cut, "bundle": Bundle}
    if Bundle.objects.of(holding).exists():
        return []
    return [(code, model.objects.of(holding).exists()) for code, model in kinds.items()]
