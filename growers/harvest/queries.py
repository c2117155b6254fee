from collections import defaultdict
from dataclasses import dataclass, field
from datetime import timedelta

from django.utils.translation import gettext as _

from growers.beds.models import Planting
from growers.beds.queries import planted_winter, plantings, standing
from growers.furniture.dates import write_day
from growers.furniture.due import Due
from growers.people.rules import winter_of, winter_span

from .models import Cut, CuttingDay, GreenOut, LengthClass

LAST_MONTHS = {"N": (2, 3), "S": (8, 9)}
"""When what still stands wants cutting before the buds break (common practice, no source)."""
OLDEST_GROWTH = 10
NAMED_ONE_BY_ONE = 5


def lengths(holding):
    return LengthClass.objects.of(holding).order_by("min_m", "max_m", "pk")


def cuts_of_winter(holding, winter):
    first, after = winter_span(winter, holding.winter_begins_month)
    return Cut.objects.of(holding).filter(first_on__gte=first, first_on__lt=after)


def winter_of_cut(cut):
    return winter_of(cut.first_on, cut.holding.winter_begins_month)


def this_winter(holding, today):
    return winter_of(today, holding.winter_begins_month)


def winters(holding, today):
    """The winters in which anything was cut, and this one; newest first."""
    days = Cut.objects.of(holding).values_list("first_on", flat=True)
    return sorted(
        {winter_of(on, holding.winter_begins_month) for on in days} | {this_winter(holding, today)}, reverse=True
    )


def growth_of(planting, on):
    """Years of growth that rods cut on a day are likely to have: since the last winter in which it was cut.

    Where the book knows of no earlier cut it takes one year.
    """
    begins = planting.holding.winter_begins_month
    winter = winter_of(on, begins)
    start = winter_span(winter, begins)[0]
    earlier = (
        Cut.objects.of(planting.holding).filter(planting=planting, first_on__lt=start).order_by("-first_on").first()
    )
    if earlier is None:
        return 1
    years = int(winter[:4]) - int(winter_of(earlier.first_on, begins)[:4])
    return min(max(years, 1), OLDEST_GROWTH)


def said_of_day(planting, on):
    """What is written of a planting and a day, in words."""
    days = CuttingDay.objects.of(planting.holding).filter(cut__planting=planting, on=on).order_by("pk")
    return "; ".join(day.much for day in days if day.much)


def green_outs_of(cut):
    return GreenOut.objects.of(cut.holding).filter(cut=cut).order_by("on", "pk")


@dataclass
class CameOff:
    """What came off in one cut: its days, and their sum."""

    cut: Cut
    days: list = field(default_factory=list)

    @property
    def bundles(self):
        return sum(day.bundles or 0 for day in self.days)

    @property
    def armfuls(self):
        return sum(day.armfuls or 0 for day in self.days)

    @property
    def mass_kg(self):
        """What was weighed; None where nothing was."""
        weighed = [day.mass_kg for day in self.days if day.mass_kg is not None]
        return sum(weighed) if weighed else None

    @property
    def some_unweighed(self):
        return self.mass_kg is not None and any(day.mass_kg is None for day in self.days)

    @property
    def dates(self):
        return sorted({day.on for day in self.days}) or [self.cut.first_on]

    @property
    def faults(self):
        return list(dict.fromkeys(day.get_fault_display() for day in self.days if day.fault))

    @property
    def winter(self):
        return winter_of_cut(self.cut)


def came_off(cuts):
    """Each cut with its days, in two queries."""
    cuts = list(cuts.select_related("planting__bed", "planting__variety", "holding"))
    found = {cut.pk: CameOff(cut) for cut in cuts}
    if cuts:
        for day in CuttingDay.objects.of(cuts[0].holding).filter(cut__in=cuts).order_by("on", "pk"):
            found[day.cut_id].days.append(day)
    return list(found.values())


def so_far(cuts, today):
    """What came off on a day in some cuts of one planting: one CameOff for each fault, the faultless first."""
    by_fault = defaultdict(list)
    for day in sorted((day for each in cuts for day in each.days if day.on == today), key=lambda day: day.fault):
        by_fault[day.fault].append(day)
    return [CameOff(cuts[0].cut, days) for days in by_fault.values()]


def cuts_of_planting(planting):
    """What came off a planting, winter by winter, the newest first."""
    return came_off(Cut.objects.of(planting.holding).filter(planting=planting).order_by("-first_on", "pk"))


@dataclass(frozen=True)
class Row:
    """One planting on a winter's board."""

    planting: Planting
    cuts: list

    @property
    def stands(self):
        return not self.cuts


def winter_board(holding, winter):
    """Per planting, what has been cut this winter and what still stands: a list of Row."""
    first, _next = winter_span(winter, holding.winter_begins_month)
    by_planting = defaultdict(list)
    for each in came_off(cuts_of_winter(holding, winter).order_by("first_on", "pk")):
        by_planting[each.cut.planting_id].append(each)
    rows = [Row(planting, by_planting[planting.pk]) for planting in plantings(holding).select_related("holding")]
    return [row for row in rows if row.cuts or had_rods(row.planting, winter, first)]


def had_rods(planting, winter, first):
    """Whether a planting had a season's growth by this winter, and was not grubbed out before it."""
    grown = planted_winter(planting, planting.holding) < int(winter[:4])
    return grown and (planting.grubbed_on is None or planting.grubbed_on >= first)


def still_standing(holding, today):
    winter = this_winter(holding, today)
    there = set(standing(holding, today).values_list("pk", flat=True))
    return [row.planting for row in winter_board(holding, winter) if row.stands and row.planting.pk in there]


def due(holding, *, today, now):
    """Late in winter: what still stands uncut."""
    if (
        today.month not in LAST_MONTHS[holding.hemisphere]
        or not cuts_of_winter(holding, this_winter(holding, today)).exists()
    ):
        return []
    last = today.month == LAST_MONTHS[holding.hemisphere][1]
    why = _("left a winter, it grows side shoots")
    uncut = still_standing(holding, today)
    if len(uncut) > NAMED_ONE_BY_ONE:
        sentence = _("%(n)d plantings still stand uncut") % {"n": len(uncut)}
        return [Due("cut", sentence, "harvest:winter", why=why, urgent=last)]
    return [
        Due(
            "cut",
            _("Cut %(planting)s") % {"planting": planting},
            "harvest:cut_today",
            (planting.uid,),
            why=why,
            urgent=last,
        )
        for planting in uncut
    ]


def words_of(cut):
    """A cut as it is named where one is chosen: variety, bed, first day."""
    age = _(", %(n)d-year rods") % {"n": cut.age_years} if cut.age_years > 1 else ""
    planting = cut.planting
    return f"{planting.variety} – {planting.bed}, {write_day(cut.first_on)}{age}"


RECENT = timedelta(days=400)


def recent_cuts(holding, today):
    return (
        Cut.objects.of(holding)
        .filter(first_on__gt=today - RECENT, first_on__lte=today)
        .select_related("planting__bed", "planting__variety")
        .order_by("-first_on", "pk")
    )
