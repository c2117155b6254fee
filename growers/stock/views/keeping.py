"""Counting what is left, and promising it."""

from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from growers.furniture.writing import typed

from .. import actions
from ..forms import CorrectCountForm, CorrectPromiseForm, CountForm, PromiseForm, ReleaseForm
from ..models import Count, Promise
from .about import bundle_at, keep_of_bundle
from .taking import as_said


def count(request, uid):
    bundle = bundle_at(request, uid)
    return keep_of_bundle(
        request, bundle, form=CountForm, template="stock/count.html", act=actions.count, form_kwargs={}
    )


def correct_count(request, uid):
    old = get_object_or_404(Count.objects.of(request.holding).select_related("bundle__length_class"), uid=uid)

    def put_right(**said):
        return actions.correct_count(old=old, struck_out_at=request.now, **said)

    return keep_of_bundle(
        request,
        old.bundle,
        form=CorrectCountForm,
        template="stock/correct.html",
        act=put_right,
        undo=False,
        fixed={},
        form_kwargs={},
        initial={
            "mass": typed(old.mass_text, old.mass_unit),
            "rods": old.rods,
            "why": old.why,
            "on": old.on,
            "note": old.note,
        },
        context={"record": old, "title": _("Correct a count")},
    )


def promise(request, uid):
    return keep_of_bundle(
        request, bundle_at(request, uid), form=PromiseForm, template="stock/promise.html", act=actions.promise
    )


def promise_at(request, uid):
    return get_object_or_404(Promise.objects.of(request.holding).select_related("bundle__length_class"), uid=uid)


def correct_promise(request, uid):
    promise = promise_at(request, uid)
    return keep_of_bundle(
        request,
        promise.bundle,
        form=CorrectPromiseForm,
        template="stock/correct.html",
        act=actions.correct_promise,
        undo=False,
        fixed={"promise": promise},
        initial={"whom": promise.whom, "much": as_said(promise), "on": promise.on, "note": promise.note},
        context={"record": promise, "title": _("Correct a promise")},
    )


def release(request, uid):
    promise = promise_at(request, uid)
    return keep_of_bundle(
        request,
        promise.bundle,
        form=ReleaseForm,
        template="stock/release.html",
        act=actions.release,
        undo=False,
        fixed={"promise": promise},
        form_kwargs={},
        context={"promise": promise},
    )
