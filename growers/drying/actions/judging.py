"""Answers are kept with the evidence they were judged by, and judged anew when it or the day has changed."""

from collections import defaultdict
from dataclasses import asdict

from django.db import transaction

from growers.bundles.models import Bundle, Stack
from growers.people.models import Holding

from ..models import DrynessAnswer
from ..queries import answers_for, assess_all


def judge_stale(holding, today):
    """Judge anew every bundle with something left whose evidence or day has changed; how many there were."""
    return len(judge_all(holding, stale(Bundle.objects.of(holding).with_some_left(), holding, today), today))


def judged(bundles, today):
    """The answers about some bundles, by id, after judging anew what is stale of them."""
    bundles = list(bundles)
    if not bundles:
        return {}
    holding = bundles[0].holding
    among = Bundle.objects.of(holding).filter(pk__in=[bundle.pk for bundle in bundles])
    judge_all(holding, stale(among, holding, today), today)
    return answers_for(bundles)


def stale(bundles, holding, today):
    bundles = list(bundles.select_related("holding"))
    kept = answers_for(bundles)
    numbers = evidence_numbers(holding, bundles)
    return [b for b in bundles if b.pk not in kept or as_judged(kept[b.pk]) != (today, *numbers[b.pk])]


def as_judged(answer):
    return answer.judged_on, answer.bundle_evidence_no, answer.stack_evidence_no, answer.holding_evidence_no


def evidence_numbers(holding, bundles):
    """(bundle's, stack's, holding's) evidence numbers of each bundle now; its sisters' count with the stack's."""
    holding_no = Holding.objects.values_list("evidence_no", flat=True).get(pk=holding.pk)
    stacks = {bundle.stack_id for bundle in bundles if bundle.stack_id}
    of_stack = defaultdict(int, Stack.objects.of(holding).filter(pk__in=stacks).values_list("pk", "evidence_no"))
    # So that what was taken out of a tell-tale, or a sister gone from the stack, makes her sisters' answers stale.
    sisters = Bundle.objects.of(holding).filter(stack__in=stacks)
    for stack, number in sisters.values_list("stack_id", "evidence_no"):
        of_stack[stack] += number
    own = dict(Bundle.objects.of(holding).filter(pk__in=[b.pk for b in bundles]).values_list("pk", "evidence_no"))
    return {
        b.pk: (own.get(b.pk, b.evidence_no), of_stack[b.stack_id] if b.stack_id else 0, holding_no) for b in bundles
    }


@transaction.atomic
def judge_all(holding, bundles, today):
    """Judge some bundles and keep the answers, by id."""
    bundles = list(bundles)
    if not bundles:
        return {}
    # Read before judging: what is written meanwhile makes the answer stale, not wrong unnoticed.
    numbers = evidence_numbers(holding, bundles)
    among = Bundle.objects.of(holding).filter(pk__in=[b.pk for b in bundles])
    assessed = assess_all(among.select_related("length_class", "making", "holding"), today)
    answers = [kept_answer(holding, bundle, today, numbers[bundle.pk], assessed[bundle.pk]) for bundle in bundles]
    columns = [
        f.name for f in DrynessAnswer._meta.concrete_fields if f.name not in ("id", "uid", "made_by", "created_at")
    ]
    DrynessAnswer.objects.of(holding).bulk_create(  # answers keep no history: they can always be judged again
        answers, update_conflicts=True, unique_fields=["bundle"], update_fields=[c for c in columns if c != "bundle"]
    )
    return answers_for(bundles)


def kept_answer(holding, bundle, today, numbers, assessment):
    return DrynessAnswer(
        holding=holding,
        bundle=bundle,
        made_by_id=bundle.made_by_id,
        judged_on=today,
        bundle_evidence_no=numbers[0],
        stack_evidence_no=numbers[1],
        holding_evidence_no=numbers[2],
        **asdict(assessment),
    )
