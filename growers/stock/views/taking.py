from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from growers.bundles.models import Taking
from growers.furniture.much import Much

from .. import actions
from ..forms import CorrectTakingForm, GoneForm, TakeOutForm
from .about import bundle_at, keep_of_bundle


def take_out(request, uid):
    return keep_of_bundle(
        request, bundle_at(request, uid), form=TakeOutForm, template="stock/take_out.html", act=actions.take_out
    )


def gone(request, uid):
    return keep_of_bundle(
        request, bundle_at(request, uid), form=GoneForm, template="stock/gone.html", act=actions.take_out
    )


def correct_taking(request, uid):
    taking = get_object_or_404(Taking.objects.of(request.holding).select_related("bundle__length_class"), uid=uid)
    return keep_of_bundle(
        request,
        taking.bundle,
        form=CorrectTakingForm,
        template="stock/correct.html",
        act=actions.correct_taking,
        undo=False,
        fixed={"taking": taking},
        form_kwargs={"taking": taking},
        initial={"much": as_said(taking), "on": taking.on, "gone": taking.gone, "note": taking.note},
        context={"record": taking, "title": _("Correct what was taken out")},
    )


def as_said(record):
    """What was typed; where nothing was typed, the way in which it was said."""
    return Much(record.said_how, record.said_value, record.said_unit, record.said_text or record.get_said_how_display())
