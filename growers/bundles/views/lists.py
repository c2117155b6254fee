from django.shortcuts import render

from growers.furniture.lists import paged

from .. import queries
from ..filters import BundleFilter


def bundles(request):
    narrowed = BundleFilter(request.GET, queries.listed(request.holding), holding=request.holding)
    page = paged(request, narrowed.qs)
    context = {"filter": narrowed, "page": page, "bundles": queries.with_ancestry(page.object_list)}
    return render(request, "bundles/bundles.html", context)
