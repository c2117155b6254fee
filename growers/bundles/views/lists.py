from django.shortcuts import redirect, render

from growers.furniture.lists import paged

from .. import forms, queries
from ..filters import BundleFilter


def bundles(request):
    narrowed = BundleFilter(request.GET, queries.listed(request.holding), holding=request.holding)
    page = paged(request, narrowed.qs)
    context = {
        "filter": narrowed,
        "page": page,
        "bundles": queries.with_ancestry(page.object_list),
        "tag_form": tag_form(request),
    }
    return render(request, "bundles/bundles.html", context)


def tag_form(request, data=None):
    return forms.TagForm(data, holding=request.holding, today=request.today, now=request.now, auto_id="tag_%s")


def go(request):
    """To the bundle of a typed tag; a mistyped one is said to be so, with those near it."""
    typed = request.GET.get("code", "").strip()
    found = queries.by_tag(request.holding, typed)
    if found:
        return redirect(request.here("trace:bundle", found.uid))
    near = queries.with_ancestry(queries.near_tags(request.holding, typed)) if typed else []
    context = {"typed": typed, "near": near, "tag_form": tag_form(request, {"code": typed} if typed else None)}
    return render(request, "bundles/go.html", context, status=404 if typed else 200)
