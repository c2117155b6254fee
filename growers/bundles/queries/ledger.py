"""What is left of a bundle, by the book."""

from ..models import Adjustment, Taking
from ..rules import WHOLE


def takings_of(bundle, *, struck_out=False):
    takings = Taking.objects.of(bundle.holding, struck_out=struck_out).filter(bundle=bundle)
    return takings.order_by("on", "at", "pk")


def left_when_weighed(bundle, on, at=None):
    """The share of a bundle (ppb) that a weighing of that day saw: on one day it comes before takings and counts."""
    return left_of(
        bundle, on, at, list(takings_of(bundle)), list(Adjustment.objects.of(bundle.holding).filter(bundle=bundle))
    )


def left_of(bundle, on, at, takings, adjustments):
    gone = sum(taking.share_ppb for taking in takings if came_before(taking, on, at))
    right = sum(adjustment.share_ppb for adjustment in adjustments if adjustment.on < on)
    return max(0, min(WHOLE, WHOLE - gone - right))


def came_before(taking, on, at):
    return taking.on < on or (taking.on == on and bool(at and taking.at and taking.at < at))
