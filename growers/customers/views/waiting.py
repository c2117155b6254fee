"""Who waits to be told."""

from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.drying.actions import judge_stale
from growers.furniture.lists import paged
from growers.people.pages import keep

from .. import actions
from ..filters import WaitingFilter
from ..forms import CorrectWaitingForm, ToldForm, WaitForm
from ..models import Waiting
from ..queries import waiting_now, waiting_of
from .customers import narrow
from .orders import customer_asked


def waiting(request):
    judge_stale(request.holding, request.today)
    narrowed = narrow(request, WaitingFilter, waiting_of(request.holding))
    page = paged(request, narrowed.qs)
    context = {"filter": narrowed, "page": page, "waiting": waiting_now(request.holding, page.object_list)}
    return render(request, "customers/waiting.html", context)


def waiting_at(request, uid):
    rows = Waiting.objects.of(request.holding).select_related("customer", "variety", "length_class")
    return get_object_or_404(rows, uid=uid)


def wait_for(request):
    customer = customer_asked(request)
    return keep(
        request,
        form=WaitForm,
        template="_parts/form_page.html",
        act=actions.wait_for,
        then=request.here("customers:waiting"),
        initial={"customer": customer and customer.uid},
        context={
            "title": _("Tell me when it is dry"),
            "save": _("They wait for it"),
            "intro": _("Today says when such rods are dry and not promised to anybody."),
        },
    )


def told(request, uid):
    found = waiting_at(request, uid)
    judge_stale(request.holding, request.today)
    [now] = waiting_now(request.holding, [found])
    return keep(
        request,
        form=ToldForm,
        template="customers/told.html",
        act=actions.told,
        fixed={"waiting": found},
        then=request.here("customers:waiting"),
        undo=False,
        kept=lambda row: _("%(whom)s is told.") % {"whom": row.customer},
        context={"now": now},
    )


def correct_waiting(request, uid):
    found = waiting_at(request, uid)
    return keep(
        request,
        form=CorrectWaitingForm,
        template="customers/correct.html",
        act=actions.correct_waiting,
        undo=False,
        fixed={"waiting": found},
        then=request.here("customers:waiting"),
        initial={
            "customer": found.customer.uid,
            "variety": found.variety and found.variety.uid,
            "length_class": found.length_class and found.length_class.uid,
            "type": found.type,
            "on": found.on,
            "told_on": found.told_on,
            "note": found.note,
        },
        context={"record": found, "title": _("Correct who waits for what")},
    )
