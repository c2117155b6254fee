"""What wants doing for customers."""

from datetime import timedelta

from django.utils.translation import gettext as _

from growers.drying.models import DrynessAnswer
from growers.furniture.due import Due

from ..models import SaleLine

TELL_WITHIN = timedelta(days=365)


def due(holding, *, today, now):
    return list(sold_as_dry_and_damp_since(holding, today))


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
