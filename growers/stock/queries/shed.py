"""The shed list: bundles with something left, by how dry they are."""

from collections import defaultdict
from dataclasses import dataclass

from django.db.models import Case, IntegerField, OuterRef, Subquery, Value, When
from django.db.models.functions import Coalesce

from growers.bundles.models import Bundle
from growers.bundles.queries import Ancestry, ancestry_of
from growers.bundles.rules import WHOLE
from growers.drying.models import DrynessAnswer
from growers.drying.queries import InWords, answers_for, in_words

from ..models import Promise
from .weights import Whole, whole_masses

Answer = DrynessAnswer.Answer
ORDER = (Answer.DRY, Answer.SHED_DRY, Answer.NOT_YET, Answer.CANT_SAY, Answer.DAMP)
"""Fit to use first; what wants looking at last."""


def shed_bundles(holding):
    """Bundles with something left, with `answer`; by answer, then the longest first."""
    kept = DrynessAnswer.objects.of(holding).filter(bundle=OuterRef("pk"))
    bundles = Bundle.objects.of(holding).with_some_left().with_place()
    bundles = bundles.annotate(answer=Coalesce(Subquery(kept.values("answer")[:1]), Value(Answer.CANT_SAY)))
    place = Case(*(When(answer=each, then=Value(n)) for n, each in enumerate(ORDER)), output_field=IntegerField())
    bundles = bundles.select_related("length_class", "holding")
    return bundles.annotate(order=place).order_by("order", "-length_class__min_m", "tied_on", "pk")


@dataclass(frozen=True)
class Row:
    """One bundle in the shed."""

    bundle: Bundle
    ancestry: Ancestry
    words: InWords | None
    whole: Whole | None
    promised_ppb: int
    for_whom: tuple

    @property
    def left_kg(self):
        return self.whole and self.whole.left_kg(self.bundle)

    @property
    def free(self):
        """The part of the whole bundle that may still be promised."""
        return max(0, self.bundle.left_ppb - self.promised_ppb) / WHOLE

    @property
    def free_kg(self):
        return self.whole and self.whole.kg * self.free


def shed_rows(holding, bundles, today):
    bundles = list(bundles)
    ancestries, answers = ancestry_of(bundles), answers_for(bundles)
    wholes = whole_masses(bundles, today)
    promises = promises_by_bundle(holding, bundles)
    return [
        Row(
            bundle=bundle,
            ancestry=ancestries[bundle.pk],
            words=in_words(answers[bundle.pk]) if bundle.pk in answers else None,
            whole=wholes[bundle.pk],
            promised_ppb=sum(promise.share_ppb for promise in promises[bundle.pk]),
            for_whom=tuple(dict.fromkeys(promise.whom for promise in promises[bundle.pk])),
        )
        for bundle in bundles
    ]


def promises_by_bundle(holding, bundles):
    found = defaultdict(list)
    for promise in Promise.objects.of(holding).standing().filter(bundle__in=bundles).order_by("on", "pk"):
        found[promise.bundle_id].append(promise)
    return found
