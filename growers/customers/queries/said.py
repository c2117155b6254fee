"""What can be said of a bundle on one day: its dryness, how we know, its winter."""

from dataclasses import dataclass

from growers.bundles.queries import ancestry_of
from growers.drying.models import DrynessAnswer
from growers.drying.queries import Assessment, assess, counts_as_dry, in_words

Answer = DrynessAnswer.Answer


@dataclass(frozen=True)
class Said:
    """`how_known` is for the grower's own eyes: it may name a sister's tag."""

    assessed: Assessment
    how_known: str
    winter: str

    @property
    def answer(self):
        return self.assessed.answer

    @property
    def answer_word(self):
        return Answer(self.answer).label

    @property
    def counts_as_dry(self):
        return counts_as_dry(self.assessed)


def said_of(bundle, on):
    """From what the book held up to that day."""
    assessed = assess(bundle, on)
    words = in_words(assessed)
    return Said(
        assessed=assessed,
        how_known="; ".join(filter(None, [words.how, words.since, words.beside]))[:200],
        winter=", ".join(ancestry_of([bundle])[bundle.pk].winters)[:60],
    )
