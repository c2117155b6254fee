"""What every page about one bundle shows above its form."""

from django.shortcuts import get_object_or_404

from growers.bundles.models import Bundle
from growers.people.pages import keep

from ..queries import what_is_left


def bundle_at(request, uid):
    return get_object_or_404(Bundle.objects.of(request.holding).select_related("length_class", "holding"), uid=uid)


def keep_of_bundle(request, bundle, *, form, act, fixed=None, form_kwargs=None, context=None, **kwargs):
    """A page that keeps something of one bundle, and goes back to the bundle's story."""
    return keep(
        request,
        form=form,
        act=act,
        fixed={"bundle": bundle} if fixed is None else fixed,
        form_kwargs={"bundle": bundle} if form_kwargs is None else form_kwargs,
        then=kwargs.pop("then", request.here("trace:bundle", bundle.uid)),
        context={"bundle": bundle, "left": what_is_left(bundle, request.today), **(context or {})},
        **kwargs,
    )
