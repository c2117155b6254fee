"""Bundles as lists show them."""

from collections import Counter, defaultdict

from django.db.models import Q

from ..models import Bundle, Origin, Place, Stack


def listed(holding):
    """The bundles as a list shows them: something left first, the newest first."""
    bundles = Bundle.objects.of(holding).select_related("length_class", "holding", "stack").with_place()
    return bundles.alias(used_up=Q(left_ppb=0)).order_by("used_up", "-tied_on", "-pk")


def places_now(holding):
    """Each place with how many bundles with something left stand there."""
    standing = Bundle.objects.of(holding).with_some_left().with_place().values_list("place_id", flat=True)
    counts = Counter(standing)
    return [(place, counts[place.pk]) for place in Place.objects.of(holding).order_by("name_key")]


def stacks_now(holding):
    """Each stack with its bundles, the newest first."""
    sisters = defaultdict(list)
    for bundle in listed(holding).filter(stack__isnull=False):
        sisters[bundle.stack_id].append(bundle)
    return [(stack, sisters[stack.pk]) for stack in Stack.objects.of(holding).order_by("-stacked_on", "name_key")]


def unsettled_finds(holding):
    """Finds of no known variety yet, while something is left of them: one origin each, the found bundle's own first."""
    origins = Origin.objects.of(holding).filter(find__isnull=False, find__variety=None, find__struck_out_at=None)
    origins = origins.filter(bundle__left_ppb__gt=0).select_related("find", "bundle").order_by("find__on", "bundle__pk")
    first = {}
    for origin in origins:
        first.setdefault(origin.find_id, origin)
    return list(first.values())
