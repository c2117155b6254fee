"""A cut at the grading bench."""

from collections import defaultdict
from dataclasses import dataclass

from django.db.models import Count

from growers.harvest.models import CuttingDay, GreenOut
from growers.harvest.queries import recent_cuts

from ..models import Bundle, Grading
from ..rules import WHOLE


@dataclass(frozen=True)
class Balance:
    """A cut at the grading bench, in green kg: what came off, and what is accounted for."""

    came_off_kg: float | None
    bundles: int
    bundles_kg: float
    bundles_unweighed: int
    rejects_kg: float | None
    rejects_part: float | None
    green_out_kg: float
    green_out_unweighed: int

    @property
    def open_kg(self):
        """What came off and is neither bundled, rejected nor gone green; None where too little was weighed."""
        if self.came_off_kg is None or self.rejects_kg is None or self.bundles_unweighed or self.green_out_unweighed:
            return None
        # To the milligram: sums of floats differ in the last places.
        return round(self.came_off_kg - self.bundles_kg - self.rejects_kg - self.green_out_kg, 6)

    @property
    def over_kg(self):
        """By how much more is accounted for than came off; None where it is not."""
        return -self.open_kg if self.open_kg is not None and self.open_kg < 0 else None


def balance_of(cut):
    return balances_of(cut.holding, [cut])[cut.pk]


def balances_of(holding, cuts):
    """The Balance of each cut by its id, in four queries however many cuts."""
    days, green, tied = defaultdict(list), defaultdict(list), defaultdict(list)
    for model, found in ((CuttingDay, days), (GreenOut, green)):
        for row in model.objects.of(holding).filter(cut__in=cuts).order_by("pk"):
            found[row.cut_id].append(row)
    for bundle in Bundle.objects.of(holding).filter(grading__cut__in=cuts).select_related("grading").order_by("pk"):
        tied[bundle.grading.cut_id].append(bundle)
    gradings = {grading.cut_id: grading for grading in Grading.objects.of(holding).filter(cut__in=cuts)}
    return {cut.pk: balance(days[cut.pk], tied[cut.pk], green[cut.pk], gradings.get(cut.pk)) for cut in cuts}


def balance(days, tied, green, grading):
    weighed = [day.mass_kg for day in days if day.mass_kg]
    came_off = sum(weighed) if days and len(weighed) == len(days) else None
    return Balance(
        came_off_kg=came_off,
        bundles=len(tied),
        bundles_kg=sum(bundle.tied_mass_kg or 0.0 for bundle in tied),
        bundles_unweighed=sum(bundle.tied_mass_kg is None for bundle in tied),
        rejects_kg=rejects_kg(grading, came_off),
        rejects_part=rejects_part(grading, came_off),
        green_out_kg=sum(gone.mass_kg or 0.0 for gone in green),
        green_out_unweighed=sum(gone.mass_kg is None for gone in green),
    )


def rejects_part(grading, came_off_kg):
    """What part of what came off was rejected: as said, or by the weights; None where nobody can say."""
    if grading and grading.rejects_part_ppb is not None:
        return grading.rejects_part_ppb / WHOLE
    if grading and grading.rejects_mass_kg is not None and came_off_kg:
        return min(1.0, grading.rejects_mass_kg / came_off_kg)
    return None


def rejects_kg(grading, came_off_kg):
    if grading is None:
        return None
    if grading.rejects_mass_kg is not None:
        return grading.rejects_mass_kg
    if grading.rejects_part_ppb is not None and came_off_kg is not None:
        return came_off_kg * grading.rejects_part_ppb / WHOLE
    return None


def tally_of(cut):
    """What has been tied from a cut at the bench, by length: (length, bundles, weight of those weighed)."""
    tied = Bundle.objects.of(cut.holding).filter(grading__cut=cut).select_related("length_class")
    lots = defaultdict(list)
    for bundle in tied.order_by("length_class__min_m", "length_class__pk"):
        lots[bundle.length_class].append(bundle.tied_mass_kg)
    return [
        (length, len(masses), sum(kg for kg in masses if kg) if any(masses) else None)
        for length, masses in lots.items()
    ]


def cuts_at_bench(holding, today):
    """Cuts whose grading is not finished, the newest first, with `tied` bundles so far."""
    closed = Grading.objects.of(holding).filter(closed_on__isnull=False)
    cuts = recent_cuts(holding, today).exclude(pk__in=closed.values("cut"))
    tied = Bundle.objects.of(holding).filter(grading__cut__in=cuts).values_list("grading__cut").annotate(n=Count("pk"))
    counts = dict(tied.order_by())
    found = list(cuts)
    for cut in found:
        cut.tied = counts.get(cut.pk, 0)
    return found


def grading_of(cut):
    return Grading.objects.of(cut.holding).filter(cut=cut).first()
