"""What wants doing for customers."""

from datetime import timedelta

from django.utils.translation import gettext as _

from growers.drying.models import DrynessAnswer
from growers.furniture.due import Due

from ..models import SaleLine
from .complaints import complaints_of
from .orders import STANDING, orders_now, orders_of
from .waiting import waiting_now, waiting_of

TELL_WITHIN = timedelta(days=365)
AHEAD = timedelta(days=7)


def due(holding, *, today, now):
    return [
        *sold_as_dry_and_damp_since(holding, today),
        *unanswered(holding),
        *to_be_told(holding),
        *orders_wanted(holding, today),
    ]


def unanswered(holding):
    for complaint in complaints_of(holding).filter(answered_on=None):
        words = {"whom": complaint.whom or _("somebody"), "what": complaint.get_what_display()}
        yield Due(
            "answer",
            _("Answer %(whom)s: %(what)s") % words,
            page="customers:complaint",
            args=(complaint.uid,),
            when=complaint.on,
            tag=complaint.about.tag,
        )


def to_be_told(holding):
    """Somebody waits for such rods, and some are dry and free."""
    for each in waiting_now(holding, waiting_of(holding).filter(told_on=None)):
        if each.fit:
            first = min(each.fit, key=lambda fit: fit.since)
            words = {"whom": each.record.customer, "what": each.record.what}
            yield Due(
                "tell_waiting",
                _("Tell %(whom)s: %(what)s is there") % words,
                page="customers:told",
                args=(each.record.uid,),
                when=max(first.since, each.record.on),
                why=first.how,
                tag=first.bundle.tag,
            )


def orders_wanted(holding, today):
    """Standing orders that are wanted within the week, or were."""
    orders = orders_of(holding).filter(cancelled_on=None, filled_on=None, wanted_by__lte=today + AHEAD)
    for each in orders_now(holding, orders):
        if each.status == STANDING:
            order = each.record
            yield Due(
                "order",
                _("%(whom)s wants what they ordered") % {"whom": order.customer},
                page="customers:order",
                args=(order.uid,),
                when=order.wanted_by,
                why="; ".join(str(line.record) for line in each.lines if not line.filled),
                urgent=order.wanted_by < today,
            )


def sold_as_dry_and_damp_since(holding, today):
    """Damp was found in a bundle out of which rods were sold as dry: whoever has them should know."""
    damp = DrynessAnswer.objects.of(holding).filter(answer=DrynessAnswer.Answer.DAMP).values("bundle")
    lines = SaleLine.objects.of(holding).filter(
        taking__bundle__in=damp, state_said=SaleLine.State.DRY, sale__on__gt=today - TELL_WITHIN
    )
    lines = lines.select_related("sale__customer", "taking__bundle").order_by("-sale__on", "pk")
    for line in lines:
        whom = line.sale.customer or _("somebody")
        yield Due(
            "tell",
            _("Tell %(whom)s: damp was found in a bundle you sold as dry") % {"whom": whom},
            page="customers:sale",
            args=(line.sale.uid,),
            when=line.sale.on,
            why=_("sold on that day, damp found since"),
            urgent=True,
            tag=line.taking.bundle.tag_shown,
        )
