"""Bundles in, bundles out."""

from functools import partial

from growers.bundles.queries import came_out

from .. import actions
from ..forms import MakeIntoForm, MergeForm, RegradeForm, SplitForm
from .about import bundle_at, keep_of_bundle


def first_child(request, making):
    """The page of the bundle that came out, or of the first of several."""
    return request.here("trace:bundle", came_out(making)[0].uid)


def keep_making(request, bundle, **kwargs):
    return keep_of_bundle(request, bundle, then=partial(first_child, request), **kwargs)


def split(request, uid):
    return keep_making(request, bundle_at(request, uid), form=SplitForm, template="stock/split.html", act=actions.split)


def merge(request, uid):
    bundle = bundle_at(request, uid)
    return keep_making(request, bundle, form=MergeForm, template="stock/merge.html", act=actions.merge, fixed={})


def regrade(request, uid):
    bundle = bundle_at(request, uid)
    return keep_making(request, bundle, form=RegradeForm, template="stock/regrade.html", act=actions.regrade, fixed={})


def make_into(request, uid):
    bundle = bundle_at(request, uid)
    return keep_making(
        request,
        bundle,
        form=MakeIntoForm,
        template="stock/make_into.html",
        act=actions.make_into,
        fixed={},
        initial={"length_1": bundle.length_class.uid},
    )
