"""Orders: taken, seen with what remains, promised for, filled, cancelled."""

from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.drying.actions import judge_stale
from growers.furniture.lists import paged
from growers.furniture.much import Much
from growers.people.pages import keep
from growers.stock.queries import what_is_left

from .. import actions
from ..filters import OrderFilter
from ..forms import CorrectLineForm, CorrectOrderForm, EndForm, LineForm, OrderForm, PromiseLineForm, ReopenForm
from ..models import Customer, Order
from ..queries import bundles_for, orders_now, orders_of
from .customers import narrow
from .sales import is_uid, line_at, wanted_of


def orders(request):
    narrowed = narrow(request, OrderFilter, orders_of(request.holding))
    page = paged(request, narrowed.qs)
    context = {"filter": narrowed, "page": page, "orders": orders_now(request.holding, page.object_list)}
    return render(request, "customers/orders.html", context)


def order_at(request, uid):
    return get_object_or_404(Order.objects.of(request.holding).select_related("customer"), uid=uid)


def order(request, uid):
    found = order_at(request, uid)
    judge_stale(request.holding, request.today)
    [now] = orders_now(request.holding, [found])
    open_lines = [] if now.status != "standing" else [line for line in now.lines if not line.filled]
    fitting = bundles_for(request.holding, [line.record for line in open_lines], request.today)
    context = {"order": found, "now": now, "lines": [(line, fitting.get(line.record.pk, ())) for line in now.lines]}
    return render(request, "customers/order.html", context)


def customer_asked(request):
    """The customer whose page one came from."""
    uid = request.GET.get("customer", "")
    return Customer.objects.of(request.holding).filter(uid=uid).first() if is_uid(uid) else None


def take_order(request):
    customer = customer_asked(request)
    return keep(
        request,
        form=OrderForm,
        template="_parts/form_page.html",
        act=actions.take_order,
        then=lambda order: request.here("customers:order", order.uid),
        initial={"customer": customer and customer.uid},
        context={"title": _("An order"), "save": _("Ordered")},
    )


def keep_of_order(request, order, **kwargs):
    return keep(
        request,
        template=kwargs.pop("template", "_parts/form_page.html"),
        fixed=kwargs.pop("fixed", {"order": order}),
        then=request.here("customers:order", order.uid),
        context={"about": order, **kwargs.pop("context")},
        **kwargs,
    )


def add_line(request, uid):
    return keep_of_order(
        request,
        order_at(request, uid),
        form=LineForm,
        act=actions.add_line,
        context={"title": _("More of the order"), "save": _("Ordered too")},
    )


def cancel_order(request, uid):
    return keep_of_order(
        request,
        order_at(request, uid),
        form=EndForm,
        act=actions.cancel_order,
        undo=False,
        context={
            "title": _("Cancel the order"),
            "save": _("It is not wanted any more"),
            "intro": _("What is set aside for it is free again. What was sold towards it stays sold."),
        },
    )


def close_order(request, uid):
    return keep_of_order(
        request,
        order_at(request, uid),
        form=EndForm,
        act=actions.close_order,
        undo=False,
        context={
            "title": _("The order is filled"),
            "save": _("That was all of it"),
            "intro": _("Whatever the book reckons to remain: nothing more of it is wanted."),
        },
    )


def reopen_order(request, uid):
    return keep_of_order(
        request,
        order_at(request, uid),
        form=ReopenForm,
        act=actions.reopen_order,
        undo=False,
        context={"title": _("The order stands again"), "save": _("It is wanted after all")},
    )


def promise_line(request, line_uid, uid):
    """Set rods of a bundle aside for a line of an order."""
    line = line_at(request, line_uid)
    bundle = get_object_or_404(Bundle.objects.of(request.holding).select_related("length_class", "holding"), uid=uid)
    return keep_of_order(
        request,
        line.order,
        form=PromiseLineForm,
        template="stock/promise.html",
        act=actions.promise_for_order,
        fixed={"order_line": line, "bundle": bundle},
        initial={"much": wanted_of(request, line, bundle)["much"]},
        context={"bundle": bundle, "left": what_is_left(bundle, request.today)},
    )


def correct_order(request, uid):
    found = order_at(request, uid)
    return keep_of_order(
        request,
        found,
        form=CorrectOrderForm,
        template="customers/correct.html",
        act=actions.correct_order,
        undo=False,
        initial={"customer": found.customer.uid, "on": found.on, "wanted_by": found.wanted_by, "note": found.note},
        context={"record": found, "title": _("Correct an order")},
    )


def correct_order_line(request, uid):
    line = line_at(request, uid)
    return keep_of_order(
        request,
        line.order,
        form=CorrectLineForm,
        template="customers/correct.html",
        act=actions.correct_order_line,
        undo=False,
        fixed={"orderline": line},
        initial={
            "much": Much(line.much_how, line.much_value, line.much_unit, line.much_text),
            "variety": line.variety and line.variety.uid,
            "length_class": line.length_class and line.length_class.uid,
            "type": line.type,
            "state": line.state,
            "note": line.note,
        },
        context={"record": line, "title": _("Correct what was ordered")},
    )
