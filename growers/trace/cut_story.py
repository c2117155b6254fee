"""Everything that became of a cut."""

from dataclasses import dataclass

from django.shortcuts import get_object_or_404, render

from growers.bundles.models import Bundle, Grading, Origin, Taking
from growers.bundles.queries import balance_of
from growers.bundles.rules import WHOLE
from growers.harvest.models import Cut, CuttingDay, GreenOut
from growers.people.rules import winter_of

from .what_became import Fate, what_became

ENDS = ("sold", "returned", "soaked", "woven", "dried_again", "spoiled", "gone")


@dataclass(frozen=True)
class OfCut:
    """A bundle with rods of the cut in it: `part` of it is of this cut."""

    bundle: Bundle
    part: float


@dataclass(frozen=True)
class End:
    """Something that rods of the cut came to, and the bundle it was out of."""

    fate: Fate
    taking: Taking
    bundle: Bundle


def cut(request, uid):
    cuts = Cut.objects.of(request.holding).select_related("planting__bed", "planting__variety", "holding")
    found = get_object_or_404(cuts, uid=uid)
    bundles = bundles_of(found)
    grading = Grading.objects.of(request.holding).filter(cut=found).first()
    context = {
        "cut": found,
        "winter": winter_of(found.first_on, request.holding.winter_begins_month),
        "days": list(CuttingDay.objects.of(request.holding).filter(cut=found).order_by("on", "pk")),
        "green_outs": list(GreenOut.objects.of(request.holding).filter(cut=found).order_by("on", "pk")),
        "grading": grading,
        "rejects": grading and grading.rejects_part_ppb and grading.rejects_part_ppb / WHOLE,
        "balance": balance_of(found),
        "bundles": bundles,
        "ends": ends_of(request.holding, bundles),
    }
    return render(request, "trace/cut.html", context)


def bundles_of(cut):
    """Every bundle with rods of the cut in it, however many makings later; the tying order."""
    origins = Origin.objects.of(cut.holding).filter(cut=cut, bundle__struck_out_at=None)
    origins = origins.select_related("bundle__length_class", "bundle__holding")
    return [OfCut(each.bundle, each.part_ppb / WHOLE) for each in origins.order_by("bundle__tied_on", "bundle__pk")]


def ends_of(holding, bundles):
    """What became of the rods, by kind: [(kind, [End, …])], leaving out kinds that nothing came to."""
    by_id = {each.bundle.pk: each.bundle for each in bundles}
    takings = list(Taking.objects.of(holding).filter(bundle__in=by_id).order_by("on", "pk"))
    fates = what_became(holding, takings)
    ends = [End(fate, taking, by_id[taking.bundle_id]) for taking in takings for fate in fates.get(taking.pk, ())]
    return [(kind, found) for kind in ENDS if (found := [end for end in ends if end.fate.kind == kind])]
