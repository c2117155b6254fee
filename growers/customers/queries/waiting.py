"""Who waits for what, and what there is to tell them of."""

from dataclasses import dataclass

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of
from growers.bundles.rules import WHOLE
from growers.drying.models import DrynessAnswer
from growers.drying.queries import answers_for, counts_as_dry, in_words
from growers.stock.queries.shed import promises_by_bundle

from ..models import Waiting
from .orders import answers_to

FIT = (DrynessAnswer.Answer.DRY, DrynessAnswer.Answer.SHED_DRY)


@dataclass(frozen=True)
class FitBundle:
    """A bundle fit to sell as dry, of which `free` is not promised to anybody."""

    bundle: Bundle
    ancestry: object
    answer: object
    free: float

    @property
    def words(self):
        return in_words(self.answer)

    @property
    def how(self):
        """What it rests on, in a few words: the grower's word where nothing else says it is dry."""
        words = self.words
        return f"{words.word}, {words.how}" if self.answer.answer in FIT else words.beside

    @property
    def since(self):
        return self.answer.dried_out_on or self.answer.judged_on


def fit_bundles(holding):
    """What could be promised today as dry: by the kept answers, soaked rods never. In a few queries."""
    bundles = Bundle.objects.of(holding).with_some_left().filter(soaked_before=False)
    bundles = list(bundles.select_related("length_class", "holding").order_by("tied_on", "pk"))
    answers = answers_for(bundles)
    bundles = [each for each in bundles if each.pk in answers and counts_as_dry(answers[each.pk])]
    ancestries, promised = ancestry_of(bundles), promises_by_bundle(holding, bundles)
    found = []
    for bundle in bundles:
        free_ppb = bundle.left_ppb - sum(promise.share_ppb for promise in promised[bundle.pk])
        if free_ppb > 0:
            found.append(FitBundle(bundle, ancestries[bundle.pk], answers[bundle.pk], free_ppb / WHOLE))
    return found


@dataclass(frozen=True)
class WaitingNow:
    """Somebody waiting, with what is fit for them now."""

    record: Waiting
    fit: tuple[FitBundle, ...]


def waiting_of(holding, customer=None):
    """Those still to be told first, then the latest told."""
    waiting = Waiting.objects.of(holding).select_related("customer", "variety", "length_class")
    if customer is not None:
        waiting = waiting.filter(customer=customer)
    return waiting.order_by("told_on", "on", "pk")


def waiting_now(holding, waiting):
    """With what is fit for those who are not told yet."""
    waiting = list(waiting)
    fit = fit_bundles(holding) if any(each.told_on is None for each in waiting) else []
    return [
        WaitingNow(each, () if each.told_on else tuple(f for f in fit if answers_to(f.bundle, f.ancestry, each)))
        for each in waiting
    ]
