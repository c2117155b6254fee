"""What each planting yielded in each winter, and what several of them did together."""

from collections import defaultdict
from dataclasses import dataclass

from growers.beds.models import GapUp, HealthNote, Planting
from growers.beds.queries import FULL_FROM, nth_winter, plantings, season_of, stools_of_full_age
from growers.bundles.queries import balances_of
from growers.harvest.queries import came_off, had_rods
from growers.people.rules import winter_span

ARE_M2 = 100


@dataclass(frozen=True)
class Crop:
    """What one planting yielded in one winter. `stools` are those of full age; `alone` in its bed or not."""

    planting: Planting
    winter: str
    cuts: list
    balances: list
    stools: int | None
    nth: int
    notes: list
    alone: bool

    @property
    def young(self):
        return self.nth < FULL_FROM

    @property
    def came_off_kg(self):
        """Green; None unless all of it was weighed."""
        weights = [balance.came_off_kg for balance in self.balances]
        return None if None in weights else sum(weights)

    @property
    def tied(self):
        return sum(balance.bundles for balance in self.balances)


@dataclass(frozen=True)
class Line:
    """One line of the yields: some crops of one winter."""

    winter: str
    crops: list
    area_m2: float | None

    @property
    def young(self):
        return all(crop.young for crop in self.crops)

    @property
    def partly_young(self):
        return not self.young and any(crop.young for crop in self.crops)

    @property
    def growths(self):
        """The ages of growth that were cut, where any was more than a year's."""
        ages = sorted({each.cut.age_years for crop in self.crops for each in crop.cuts})
        return [] if ages == [1] else ages

    @property
    def notes(self):
        return [note for crop in self.crops for note in crop.notes]

    @property
    def cuts(self):
        return [each for crop in self.crops for each in crop.cuts]

    def of_days(self, name):
        return sum(getattr(each, name) or 0 for each in self.cuts)

    @property
    def bundles(self):
        return self.of_days("bundles")

    @property
    def armfuls(self):
        return self.of_days("armfuls")

    @property
    def mass_kg(self):
        return self.of_days("mass_kg") or None

    @property
    def some_unweighed(self):
        return self.mass_kg is not None and self.came_off_kg is None

    @property
    def came_off_kg(self):
        return whole_sum(crop.came_off_kg for crop in self.crops)

    def balances(self):
        return [balance for crop in self.crops for balance in crop.balances]

    @property
    def tied(self):
        return sum(crop.tied for crop in self.crops)

    @property
    def tied_kg(self):
        return sum(balance.bundles_kg for balance in self.balances()) or None

    @property
    def tied_unweighed(self):
        return sum(balance.bundles_unweighed for balance in self.balances())

    @property
    def rejects_part(self):
        """Of what came off; of several cuts only where each was weighed."""
        balances = self.balances()
        if len(balances) == 1:
            return balances[0].rejects_part
        rejects = whole_sum(balance.rejects_kg for balance in balances)
        return rejects / self.came_off_kg if self.came_off_kg and rejects is not None else None

    @property
    def full_grown(self):
        """Young plantings say nothing of a full-grown stool, so they are left out beside full-grown ones."""
        return [crop for crop in self.crops if self.young or not crop.young]

    @property
    def stools(self):
        return whole_sum(crop.stools for crop in self.full_grown) or None

    @property
    def kg_a_stool(self):
        kg = whole_sum(crop.came_off_kg for crop in self.full_grown)
        return kg / self.stools if kg and self.stools else None

    @property
    def bundles_a_hundred(self):
        """Bundles tied from a hundred stools: where nothing was weighed."""
        tied = sum(crop.tied for crop in self.full_grown)
        return 100 * tied / self.stools if tied and self.stools else None

    @property
    def kg_an_are(self):
        return self.came_off_kg / self.area_m2 * ARE_M2 if self.came_off_kg and self.area_m2 else None

    @property
    def bundles_an_are(self):
        return self.tied / self.area_m2 * ARE_M2 if self.tied and self.area_m2 else None


def whole_sum(numbers):
    """The sum of numbers that are all known, else None."""
    numbers = list(numbers)
    return None if None in numbers or not numbers else sum(numbers)


def crops_of(holding, cuts):
    """The Crop of each planting and winter that cuts are of, in a fixed number of queries."""
    by_crop, gaps, notes, standing = defaultdict(list), defaultdict(list), defaultdict(list), defaultdict(list)
    for each in came_off(cuts):
        by_crop[each.cut.planting_id, each.winter].append(each)
    for gap in GapUp.objects.of(holding):
        gaps[gap.planting_id].append(gap)
    for note in HealthNote.objects.of(holding).order_by("on", "pk"):
        notes[note.planting_id].append(note)
    for planting in plantings(holding).select_related("bed", "variety", "holding"):
        standing[planting.bed_id].append(planting)
    balances = balances_of(holding, [each.cut for some in by_crop.values() for each in some])
    found = []
    for (planting_id, winter), some in by_crop.items():
        planting = some[0].cut.planting
        planting.holding = holding
        first, after = season_of(winter, holding)
        found.append(
            Crop(
                planting=planting,
                winter=winter,
                cuts=some,
                balances=[balances[each.cut.pk] for each in some],
                stools=stools_of_full_age(planting, winter, gaps[planting_id]),
                nth=nth_winter(planting, winter),
                notes=[note for note in notes[planting_id] if first <= note.on < after],
                alone=[each.pk for each in stood(standing[planting.bed_id], winter)] == [planting_id],
            )
        )
    return found


def stood(there, winter):
    if not there:
        return []
    first, _after = winter_span(winter, there[0].holding.winter_begins_month)
    return [planting for planting in there if had_rods(planting, winter, first)]


def lines_by(crops, by):
    """Crops put together by planting, bed or variety, a Line for each winter: the newest first, then by name."""
    together = defaultdict(list)
    for crop in crops:
        together[OF[by](crop.planting), crop.winter].append(crop)
    return [
        (of, Line(winter, some, area_of(some, by)))
        for (of, winter), some in sorted(
            together.items(), key=lambda item: (-int(item[0][1][:4]), str(item[0][0]).casefold())
        )
    ]


def winters_of(crops):
    """By winter, the oldest first: a DataFrame of `winter`, `bundles` tied, `kg` green (NaN if not all was weighed)."""
    from pandas import DataFrame

    together = defaultdict(list)
    for crop in crops:
        together[crop.winter].append(crop)
    lines = [Line(winter, together[winter], None) for winter in sorted(together)]
    rows = [(line.winter, line.tied, float("nan") if line.came_off_kg is None else line.came_off_kg) for line in lines]
    return DataFrame(rows, columns=["winter", "bundles", "kg"])


OF = {
    "planting": lambda planting: planting,
    "bed": lambda planting: planting.bed,
    "variety": lambda planting: planting.variety,
}


def area_of(crops, by):
    """The ground that crops grew on (m²): known of a whole bed, and of a planting that has a bed to itself."""
    whole = by == "bed" or (by == "planting" and crops[0].alone)
    return crops[0].planting.bed.area_m2 if whole else None
