from django.utils.translation import gettext as _

from .. import actions, forms, queries
from ..models import Lift, Mellow
from .about import batch_at, find, keep_of_batch


def lift(request, uid):
    batch = batch_at(request, uid)
    return keep_of_batch(
        request,
        batch,
        title=_("Lift rods out"),
        form=forms.LiftForm,
        act=actions.lift,
        fixed={"batch": batch},
        context={"save": _("Lift them"), "caution": "lifting"},
    )


def of_lift(request, uid, **kwargs):
    lifted = find(request, Lift, uid)
    context = {"lifted": lifted} | kwargs.pop("context", {})
    return keep_of_batch(
        request, batch_at(request, lifted.batch.uid), fixed={"lift": lifted}, context=context, **kwargs
    )


def wrap(request, uid):
    return of_lift(request, uid, title=_("Wrap them damp"), form=forms.WrapForm, act=actions.wrap)


def bench(request, uid):
    return of_lift(request, uid, title=_("How was it at the bench?"), form=forms.BenchForm, act=actions.bench_result)


def steam(request, uid):
    return of_lift(
        request,
        uid,
        title=_("Steamed"),
        form=forms.SteamForm,
        act=actions.steam,
        context={"caution": "steam"},
    )


def redamp(request, uid):
    return of_lift(
        request,
        uid,
        title=_("Dried out, and damp again"),
        form=forms.RedampForm,
        act=actions.redamp,
        context={"caution": "redamp"},
    )


def gone_over(request, uid):
    return of_lift(request, uid, title=_("Past it"), form=forms.GoneOverForm, act=actions.gone_over)


def unwrap(request, uid):
    mellow = find(request, Mellow, uid, "lift__batch")
    return keep_of_batch(
        request,
        batch_at(request, mellow.lift.batch.uid),
        title=_("Unwrap them"),
        form=forms.UnwrapForm,
        act=actions.unwrap,
        fixed={"mellow": mellow},
        # Taking it back would strike out the wrapping itself.
        undo=False,
        kept=lambda kept: _("%(name)s: unwrapped") % {"name": queries.name_of(kept.lift.batch.taking.bundle)},
        context={"save": _("Unwrapped"), "lifted": mellow.lift},
    )


def dry_again(request, uid):
    batch = batch_at(request, uid)
    return keep_of_batch(
        request,
        batch,
        title=_("Dried right out again"),
        form=forms.DryAgainForm,
        act=actions.dry_again,
        fixed={"batch": batch},
        context={"caution": "dried_again", "save": _("Tie them as a bundle")},
    )


def spoil(request, uid):
    batch = batch_at(request, uid)
    return keep_of_batch(
        request,
        batch,
        title=_("Spoiled rods"),
        form=forms.SpoilForm,
        act=actions.spoil,
        fixed={"batch": batch},
        context={"save": _("They are spoiled")},
    )
