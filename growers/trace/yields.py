"""What each bed, variety and planting yielded, winter by winter."""

import django_filters
from django.shortcuts import render
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Bed, Variety
from growers.charts.yields import yields_figure
from growers.furniture.lists import ListFilter, RecordFilter, paged
from growers.harvest.models import Cut
from growers.harvest.queries import cuts_of_winter
from growers.people.rules import winter_of

from .crops import crops_of, lines_by, winters_of

BY = {"planting": _("by planting"), "bed": _("by bed"), "variety": _("by variety")}


class YieldFilter(ListFilter):
    """Narrows cuts."""

    bed = RecordFilter(
        label=_("Bed"), field_name="planting__bed", records=lambda holding: Bed.objects.of(holding).order_by("name_key")
    )
    variety = RecordFilter(
        label=_("Variety"),
        field_name="planting__variety",
        records=lambda holding: Variety.objects.of(holding).order_by("name_key"),
    )
    winter = django_filters.ChoiceFilter(empty_label=_("any"), label=_("Winter"), method="of_winter")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        days = Cut.objects.of(self.holding).values_list("first_on", flat=True)
        winters = sorted({winter_of(on, self.holding.winter_begins_month) for on in days}, reverse=True)
        self.filters["winter"].extra["choices"] = [(winter, winter) for winter in winters]

    def of_winter(self, cuts, name, winter):
        return cuts.filter(pk__in=cuts_of_winter(self.holding, winter).values("pk"))


def yields(request):
    cuts = Cut.objects.of(request.holding).order_by("first_on", "pk")
    narrow = YieldFilter(request.GET, cuts, holding=request.holding)
    by = request.GET.get("by")
    by = by if by in BY else "planting"
    crops = crops_of(request.holding, narrow.qs)
    context = {
        "filter": narrow,
        "by": by,
        "bys": kept_apart(request, by),
        "page": paged(request, lines_by(crops, by)),
        "figure": figure_of(crops, request.holding.mass_unit) if len({crop.winter for crop in crops}) > 1 else None,
    }
    return render(request, "trace/yields.html", context)


def figure_of(crops, unit):
    labels = {"bundles": gettext("Bundles tied"), "mass": gettext("Came off green, %(unit)s")}
    return yields_figure(winters_of(crops), unit, labels).to_plotly_json()


def kept_apart(request, by):
    """The ways to put the crops together: (label, the address that asks for it), keeping the filter."""
    query = request.GET.copy()
    query.pop("page", None)
    found = []
    for key, label in BY.items():
        query["by"] = key
        found.append((label, "" if key == by else f"?{query.urlencode()}"))
    return found
