"""Which bundle a tag leads to: for one who keeps the book, for a stranger, and for a code typed by hand."""

from django.http import HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse

from growers.bundles.models import Bundle
from growers.bundles.queries import by_tag, near_tags
from growers.customers.pages import for_strangers, says_nothing
from growers.customers.queries import open_sheet
from growers.people.queries import books_of


def tag_address(request, token):
    """Where the code on a tag leads: the bundle, else its sheet if that is shared now, else nowhere."""
    bundle = own_bundle(request.user, token)
    if bundle is not None:
        return for_strangers(HttpResponseRedirect(reverse("trace:bundle", args=[bundle.holding.slug, bundle.uid])))
    if open_sheet(token, now=request.now) is not None:
        return for_strangers(redirect("sheet", token))
    return says_nothing(request)


def own_bundle(user, token):
    if not user.is_authenticated:
        return None
    for holding in books_of(user):
        if bundle := Bundle.objects.of(holding).select_related("holding").filter(token=token).first():
            return bundle
    return None


def tag(request):
    """A tag's code typed by hand: leads to the bundle, or says what it may have been."""
    code = request.GET.get("code", "").strip()
    bundle = by_tag(request.holding, code) if code else None
    if bundle is not None:
        return redirect(request.here("trace:bundle", bundle.uid))
    near = near_tags(request.holding, code) if code else []
    context = {"code": code, "near": near, "figures": sum(c.isdigit() for c in code)}
    return render(request, "trace/tag.html", context, status=404 if code else 200)
