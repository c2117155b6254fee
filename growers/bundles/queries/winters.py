"""The winters that bundles are of: cut here, or as told."""

from django.db.models import Q

from growers.harvest.models import Cut
from growers.harvest.queries import cuts_of_winter
from growers.people.rules import is_winter, winter_of

from ..models import Origin


def winters_in(holding):
    """The winters that bundles of this book are of, the latest first."""
    origins = Origin.objects.of(holding)
    cuts = Cut.objects.of(holding).filter(pk__in=origins.filter(cut__isnull=False).values("cut"))
    month = holding.winter_begins_month
    winters = {winter_of(first_on, month) for first_on in cuts.values_list("first_on", flat=True)}
    for told in ("purchase__told_winter", "find__told_winter"):
        winters |= set(filter(None, origins.values_list(told, flat=True)))
    return sorted(winters, reverse=True)


def of_winter(holding, winter):
    """The origins that are of a winter: cut in it, or told to be of it."""
    of_it = Q(purchase__told_winter=winter) | Q(find__told_winter=winter)
    if is_winter(winter, holding.winter_begins_month):
        of_it |= Q(cut__in=cuts_of_winter(holding, winter))
    return Origin.objects.of(holding).filter(of_it)
