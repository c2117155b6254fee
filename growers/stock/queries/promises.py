from django.db.models import Sum

from growers.bundles.rules import WHOLE

from ..models import Promise


def standing_promises(bundle):
    return Promise.objects.of(bundle.holding).standing().filter(bundle=bundle).order_by("on", "pk")


def promised_ppb(bundle, *, but=None):
    """The share of a bundle that stands promised (leaving out one promise, if asked)."""
    promises = standing_promises(bundle)
    if but is not None:
        promises = promises.exclude(pk=but.pk)
    return promises.aggregate(sum=Sum("share_ppb"))["sum"] or 0


def free_ppb(bundle):
    """The share of a bundle that may still be promised or sold."""
    return max(0, min(WHOLE, bundle.left_ppb - promised_ppb(bundle)))
