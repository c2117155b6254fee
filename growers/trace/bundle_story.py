"""A bundle's page: what it is, how dry, where from, what happened to it, what it became."""

from django.shortcuts import get_object_or_404, render

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of, came_out, dried_again_from, makings_from, parents_of
from growers.bundles.rules import WHOLE
from growers.customers.queries import sheet_of, stands_open
from growers.drying.queries import assess, in_words
from growers.people.rules import winter_of
from growers.stock.queries import what_is_left

from .story import story_of


def bundle(request, uid):
    bundles = Bundle.objects.of(request.holding).with_place()
    bundles = bundles.select_related("length_class", "holding", "stack", "making", "dried_from")
    found = get_object_or_404(bundles, uid=uid)
    sheet = sheet_of(request.holding, bundle=found)
    context = {
        "bundle": found,
        "left": what_is_left(found, request.today),
        "sources": sources_of(found),
        "answer": in_words(assess(found, request.today)),
        "story": story_of(found),
        "sisters": sisters_of(found),
        "shared": stands_open(sheet, now=request.now),
        **family(found),
    }
    return render(request, "trace/bundle.html", context)


def sources_of(bundle):
    """What the bundle came from: (part of it, cut with its winter, or what stands in its place)."""
    origins = bundle.origins.of(bundle.holding).select_related(
        "cut__planting__bed", "cut__planting__variety", "purchase__variety", "find__variety", "find__likely_variety"
    )
    month = bundle.holding.winter_begins_month
    return [
        (origin.part_ppb / WHOLE, origin, winter_of(origin.cut.first_on, month) if origin.cut else "")
        for origin in origins.order_by("-part_ppb", "pk")
    ]


def family(bundle):
    """Parents and children, each with what it is of."""
    parents = parents_of(bundle)
    children = [child for making in makings_from(bundle) for child in came_out(making)] + dried_again_from(bundle)
    of = ancestry_of({*parents, *children})
    return {
        "parents": [(parent, of[parent.pk]) for parent in dict.fromkeys(parents)],
        "children": [(child, of[child.pk]) for child in dict.fromkeys(children)],
    }


def sisters_of(bundle):
    if bundle.stack is None:
        return []
    sisters = Bundle.objects.of(bundle.holding).filter(stack=bundle.stack).exclude(pk=bundle.pk)
    return list(sisters.select_related("length_class").order_by("-telltale", "-length_class__min_m", "pk"))
