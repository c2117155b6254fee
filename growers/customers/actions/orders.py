"""Orders, and who waits to be told: taken, promised for, filled, cancelled."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.stock.actions import promise as set_aside
from growers.stock.actions import release

from ..models import Order, OrderLine, OrderPromise, SaleLine, Waiting
from ..queries import standing_promises_for
from .customers import whom


def known_customer(**said):
    customer = whom(**said)
    if customer is None:
        raise Refusal(_("Choose a customer, or write a new name."), field="new_customer")
    return customer


@transaction.atomic
def take_order(*, holding, by, on, customer=None, new_customer="", wanted_by=None, note="", **line):
    """Write an order down, with its first line if one is said: `much` and what of."""
    customer = known_customer(holding=holding, by=by, customer=customer, new_customer=new_customer)
    order = write(Order(holding=holding, customer=customer, on=on, wanted_by=wanted_by, note=note), by=by)
    if line.get("much"):
        add_line(holding=holding, by=by, order=order, **line)
    return order


@transaction.atomic
def add_line(*, holding, by, order, much, note="", **what):
    """One thing more of an order. `what`: variety, length_class, type, state; what is left out may be any."""
    check_stands(order)
    return write(OrderLine(holding=holding, order=order, note=note, **wanted(much), **what), by=by)


def wanted(much):
    if much.how not in OrderLine.Wanted.values:
        raise Refusal(_("Say how much is wanted: 3 kg, 40 rods, or 2 bundles."), field="much")
    return {"much_how": much.how, "much_value": much.value, "much_unit": much.unit, "much_text": much.text}


def check_stands(order):
    if order.cancelled_on:
        raise Refusal(_("That order was cancelled on %(day)s.") % {"day": write_day(order.cancelled_on)})
    if order.filled_on:
        raise Refusal(_("That order was filled on %(day)s.") % {"day": write_day(order.filled_on)})


@transaction.atomic
def promise_for_order(*, holding, by, order_line, bundle, on, much, note=""):
    """Set rods of a bundle aside for a line of an order."""
    order = order_line.order
    check_stands(order)
    if on < order.on:
        raise Refusal(_("It was not ordered until %(day)s.") % {"day": write_day(order.on)}, field="on")
    aside = set_aside(holding=holding, by=by, bundle=bundle, whom=order.customer.name, on=on, much=much, note=note)
    return write(OrderPromise(holding=holding, order_line=order_line, promise=aside), by=by)


@transaction.atomic
def cancel_order(*, holding, by, order, on):
    """It is not wanted any more; what was set aside for it is free again."""
    return end(order, holding=holding, by=by, on=on, cancelled_on=on)


@transaction.atomic
def close_order(*, holding, by, order, on):
    """That was all of it, whatever the book reckons; what is still set aside for it is free again."""
    if not SaleLine.objects.of(holding).filter(order_line__order=order).exists():
        raise Refusal(_("Nothing has been sold towards it: cancel it instead."))
    return end(order, holding=holding, by=by, on=on, filled_on=on)


def end(order, *, holding, by, on, **ended):
    check_stands(order)
    ended = correct(record=order, by=by, **ended)
    for promise in standing_promises_for(order):
        release(holding=holding, by=by, promise=promise, on=max(on, promise.on))
    return ended


@transaction.atomic
def reopen_order(*, holding, by, order):
    """It is wanted after all."""
    return correct(record=order, by=by, why=_("wanted after all"), filled_on=None, cancelled_on=None)


@transaction.atomic
def correct_order(*, holding, by, order, customer, on, wanted_by=None, note="", why=""):
    sold = SaleLine.objects.of(holding).filter(order_line__order=order).select_related("sale").order_by("sale__on")
    first = sold.first()
    if first and customer != order.customer:
        raise Refusal(_("Rods have been sold towards it: correct that sale first."), field="customer")
    if first and on > first.sale.on:
        day = write_day(first.sale.on)
        raise Refusal(_("Rods were sold towards it on %(day)s already.") % {"day": day}, field="on")
    return correct(record=order, by=by, why=why, customer=customer, on=on, wanted_by=wanted_by, note=note)


@transaction.atomic
def correct_order_line(*, holding, by, orderline, much, note="", why="", **what):
    return correct(record=orderline, by=by, why=why, note=note, **wanted(much), **what)


@transaction.atomic
def wait_for(
    *, holding, by, on, customer=None, new_customer="", variety=None, length_class=None, type="", note=""
):  # fmt: skip
    """Somebody wants to be told when such rods are dry."""
    customer = known_customer(holding=holding, by=by, customer=customer, new_customer=new_customer)
    what = {"variety": variety, "length_class": length_class, "type": type}
    if Waiting.objects.of(holding).filter(customer=customer, told_on=None, **what).exists():
        raise Refusal(_("%(whom)s waits for that already.") % {"whom": customer})
    return write(Waiting(holding=holding, customer=customer, on=on, note=note, **what), by=by)


@transaction.atomic
def told(*, holding, by, waiting, on):
    if waiting.told_on:
        raise Refusal(_("They were told on %(day)s.") % {"day": write_day(waiting.told_on)})
    return correct(record=waiting, by=by, why=_("told"), told_on=on)


@transaction.atomic
def correct_waiting(
    *, holding, by, waiting, customer, on, variety=None, length_class=None, type="", told_on=None, note="", why=""
):  # fmt: skip
    what = {"variety": variety, "length_class": length_class, "type": type}
    return correct(record=waiting, by=by, why=why, customer=customer, on=on, told_on=told_on, note=note, **what)
