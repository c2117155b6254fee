"""What may be sold, and promised, as dry."""

from ..models import DrynessAnswer, Word

Answer = DrynessAnswer.Answer
FIT = (Answer.DRY, Answer.SHED_DRY)


def counts_as_dry(found):
    """By what was found, or by the grower's word where nothing speaks against it: of an Assessment or a kept answer."""
    return found.answer in FIT or (found.word == Word.Says.DRY and found.answer != Answer.DAMP)
