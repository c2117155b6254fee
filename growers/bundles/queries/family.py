"""What a bundle was made from, and what was made from it."""

from ..models import Bundle, Making, Origin, Taking


def origins_of(bundle):
    origins = Origin.objects.of(bundle.holding).filter(bundle=bundle)
    return list(origins.select_related("cut__planting__variety", "purchase__variety", "find__variety").order_by("pk"))


def makings_from(bundle):
    """The makings that rods of this bundle went into."""
    takings = Taking.objects.of(bundle.holding).filter(bundle=bundle, making__isnull=False)
    return list(Making.objects.of(bundle.holding).filter(pk__in=takings.values("making")).order_by("on", "pk"))


def went_in(making):
    return list(Taking.objects.of(making.holding).filter(making=making).select_related("bundle").order_by("pk"))


def came_out(making):
    return list(Bundle.objects.of(making.holding).filter(making=making).order_by("pk"))


def came_in_with(source):
    """The bundles that came in with a purchase or a find."""
    made = Bundle.objects.of(source.holding).filter(made__in=(Bundle.Made.BOUGHT, Bundle.Made.FOUND))
    return list(made.filter(**{f"origins__{source.kind}": source, "origins__struck_out_at": None}).order_by("pk"))


def dried_again_from(bundle):
    return list(Bundle.objects.of(bundle.holding).filter(dried_from=bundle).order_by("pk"))


def parents_of(bundle):
    """The bundles this one was made from."""
    if bundle.dried_from:
        return [bundle.dried_from]
    return [taking.bundle for taking in went_in(bundle.making)] if bundle.making else []
