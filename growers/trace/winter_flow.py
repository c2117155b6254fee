"""Where the winter went: from the beds through lengths to what became of the rods."""

from dataclasses import dataclass
from datetime import date

from django.http import Http404
from django.shortcuts import redirect, render
from django.utils.translation import gettext_lazy as _

from growers.bundles.queries import Balance, balances_of, winters_in
from growers.furniture.dates import OLDEST_YEAR
from growers.harvest.models import Cut, GreenOut
from growers.harvest.queries import CameOff, came_off, cuts_of_winter, this_winter
from growers.people.rules import is_winter, winter_of

from .fates import fates_of
from .flow import EACH, flow_of, line_of, lines_by, roots_of, ways_of

BY = {"planting": _("by planting"), "variety": _("by variety"), "length": _("by length")}


def latest_winter(request):
    """The last winter of which anything is in the book; else this one."""
    years = years_of(request.holding) or [int(this_winter(request.holding, request.today)[:4])]
    return redirect(request.here("trace:winter_flow", years[0]))


def winter_flow(request, year):
    holding = request.holding
    winter = winter_named(holding, year)
    by = request.GET.get("by")
    by = by if by in BY else "planting"
    origins, off = roots_of(holding, winter), off_the_beds(holding, winter)
    ends, ways = fates_of(holding)
    flow = flow_of(origins, ends)
    context = {
        "winter": winter,
        "year": year,
        "winters": [(each, winter_named(holding, each)) for each in years_of(holding)],
        "off": off,
        "whole": line_of(flow, EACH) if origins else None,
        "ways": ways_of(origins, ways),
        "by": by,
        "bys": BY.items(),
        "lines": lines_by(flow, by),
    }
    return render(request, "trace/winter_flow.html", context)


def winter_named(holding, year):
    if not OLDEST_YEAR <= year < 9999:
        raise Http404
    return winter_of(date(year, holding.winter_begins_month, 1), holding.winter_begins_month)


def years_of(holding):
    """The years in which winters began of which anything is in the book, the newest first."""
    begins = holding.winter_begins_month
    days = Cut.objects.of(holding).values_list("first_on", flat=True)
    named = {*winters_in(holding), *(winter_of(on, begins) for on in days)}
    years = {int(winter[:4]) for winter in named if is_winter(winter, begins)}
    return sorted((year for year in years if year >= OLDEST_YEAR), reverse=True)


@dataclass(frozen=True)
class Off:
    """One cut, from the bed to the bench, in green weight."""

    came_off: CameOff
    balance: Balance
    green_outs: list

    @property
    def cut(self):
        return self.came_off.cut


def off_the_beds(holding, winter):
    found = came_off(cuts_of_winter(holding, winter))
    cuts = [each.cut for each in found]
    balances = balances_of(holding, cuts)
    outs = list(GreenOut.objects.of(holding).filter(cut__in=cuts).order_by("on", "pk"))
    found = [Off(each, balances[each.cut.pk], [out for out in outs if out.cut_id == each.cut.pk]) for each in found]
    return sorted(found, key=lambda off: (str(off.cut.planting), off.cut.age_years))
