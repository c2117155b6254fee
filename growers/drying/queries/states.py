"""Green, semi-dry or dry on a day, in a word."""

from django.utils.translation import gettext as _

from growers.bundles.models import Bundle

from .assess import assess
from .evidence import evidence_of

GREEN_ABOVE, DRY_BELOW = 0.6, 0.25
"""Moistures, of the dry mass (our own choice): rods are green above the one and dry below the other."""
CLUNG_AFTER, DRY_AFTER = 42, 150
"""Days since the cut, where nothing was measured: six weeks, five months (common practice, no source)."""


def state_on(bundle, on):
    """What a weight of that day was the weight of; nothing where the book can't say."""
    found = assess(bundle, on)
    if found.dried_out_on or bundle.made == Bundle.Made.DRIED_AGAIN:
        return _("dry")
    if found.moisture is not None:
        return by_moisture(found.moisture)
    cuts = evidence_of([bundle], on)[bundle.pk].cuts
    if bundle.type != Bundle.Type.BROWN or not cuts:
        return ""
    return by_days((on - max(cut.first_on for cut in cuts)).days)


def by_moisture(moisture):
    return _("green") if moisture > GREEN_ABOVE else _("semi-dry") if moisture > DRY_BELOW else _("dry")


def by_days(days):
    return _("green") if days < CLUNG_AFTER else _("semi-dry") if days < DRY_AFTER else _("dry")
