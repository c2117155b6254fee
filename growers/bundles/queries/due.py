"""What wants doing with bundles."""

from datetime import timedelta

from django.db.models import Max, Q
from django.utils.translation import gettext as _

from growers.furniture.due import Due
from growers.harvest.models import Cut, GreenOut
from growers.harvest.queries import words_of

from ..models import Bundle, Grading
from .lists import unsettled_finds

UNGRADED_AFTER, UNGRADED_UNTIL = timedelta(days=21), timedelta(days=180)
"""Cut rods wait three weeks at most before the bench; after half a year nobody grades them any more (our own rule)."""


def due(holding, *, today, now):
    """Cuts that lie ungraded, and bundles found without a tag that nobody has settled."""
    return [*ungraded(holding, today), *unsettled(holding)]


def ungraded(holding, today):
    done = Bundle.objects.of(holding).filter(grading__isnull=False).values("grading__cut")
    gone = GreenOut.objects.of(holding).values("cut")
    closed = Grading.objects.of(holding).filter(closed_on__isnull=False).values("cut")
    cuts = Cut.objects.of(holding).exclude(pk__in=done).exclude(pk__in=gone).exclude(pk__in=closed)
    last = Max("days__on", filter=Q(days__struck_out_at=None))
    cuts = cuts.annotate(last_on=last).filter(last_on__lte=today - UNGRADED_AFTER, last_on__gt=today - UNGRADED_UNTIL)
    return [
        Due(
            "grade",
            _("Grade the cut %(cut)s") % {"cut": words_of(cut)},
            "bundles:bench_cut",
            (cut.uid,),
            when=cut.last_on + UNGRADED_AFTER,
            why=_("nothing tied from it yet"),
        )
        for cut in cuts.select_related("planting__bed", "planting__variety").order_by("last_on", "pk")
    ]


def unsettled(holding):
    return [
        Due(
            "settle",
            _("Say what variety %(bundle)s is") % {"bundle": origin.bundle},
            "bundles:settle",
            (origin.find.uid,),
            when=origin.find.on,
            why=_("found without a tag"),
            tag=origin.bundle.tag,
        )
        for origin in unsettled_finds(holding)
    ]
