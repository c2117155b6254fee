"""What is left of one bundle and what of it is free, as a page says it."""

from dataclasses import dataclass

from growers.bundles.models import Bundle
from growers.bundles.queries import Ancestry, ancestry_of
from growers.bundles.rules import WHOLE

from .promises import free_ppb, standing_promises
from .weights import believed_rods, whole_mass


@dataclass(frozen=True)
class Left:
    """`kg` and `rods` are about, or None where the book can't say; `typical` where such bundles' weight stands in."""

    bundle: Bundle
    ancestry: Ancestry
    kg: float | None
    typical: bool
    rods: int | None
    promises: tuple
    free: float
    free_kg: float | None


def what_is_left(bundle, today):
    whole, rods = whole_mass(bundle, today), believed_rods(bundle)
    free = free_ppb(bundle) / WHOLE
    return Left(
        bundle=bundle,
        ancestry=ancestry_of([bundle])[bundle.pk],
        kg=whole.left_kg(bundle) if whole else None,
        typical=whole is not None and whole.known == "typical",
        rods=None if rods is None else round(rods * bundle.left),
        promises=tuple(standing_promises(bundle)),
        free=free,
        free_kg=whole.kg * free if whole else None,
    )
