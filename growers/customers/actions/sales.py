"""Selling: rods out of a bundle to somebody, with what was said of them that day."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import check_tied, lock
from growers.bundles.models import Taking
from growers.furniture.dates import write_day
from growers.furniture.much import REST, Much
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.stock.actions import take_out

from ..models import Complaint, Returned, Sale, SaleLine
from ..queries import line_promised, open_sale, promised_for, said_of
from .customers import whom


@transaction.atomic
def sell(
    *,
    holding,
    by,
    bundle,
    on,
    much,
    customer=None,
    new_customer="",
    sale=None,
    order_line=None,
    promise=None,
    state_said=SaleLine.State.DRY,
    price=None,
    note="",
    **taken,
):
    """Sell rods out of a bundle. What is said of dryness and winter is kept as it stands that day.

    A second bundle on the same day to the same customer, or to the sale given, is a second line of one sale.
    `new_customer` is the name of one to be added. What goes towards an order keeps what was promised for it.
    `taken` goes on to stock's `take_out`.
    """
    check_tied(bundle, on)
    customer = whom(holding=holding, by=by, customer=customer, new_customer=new_customer)
    order_line = order_line or line_promised(promise)
    if order_line is not None:
        customer = ordered_by(order_line, sale.customer if sale else customer, on)
        promise = promise or promised_for(order_line, bundle)
    said = said_of(bundle, on)
    sale = sale or open_sale(holding, customer, on) or write(Sale(holding=holding, customer=customer, on=on), by=by)
    if sale.on != on:
        raise Refusal(_("That sale was on %(day)s.") % {"day": write_day(sale.on)}, field="on")
    if note:
        correct(record=sale, by=by, note="\n".join(filter(None, [sale.note, note])))
    taking = take_out(
        holding=holding, by=by, bundle=bundle, on=on, purpose=Taking.Purpose.SALE, much=much, promise=promise, **taken
    )
    line = SaleLine(
        holding=holding,
        sale=sale,
        taking=taking,
        order_line=order_line,
        state_said=state_said,
        answer_said=said.answer,
        how_known_said=said.how_known,
        winter_said=said.winter,
        **in_currency(holding, price),
    )
    return write(line, by=by)


@transaction.atomic
def sell_bundles(*, holding, by, bundles, on, customer=None, new_customer="", order_line=None, **said):
    """Sell all that is left of several bundles, as the lines of one sale; a price is of each."""
    if not bundles:
        raise Refusal(_("Choose the bundles."), field="bundles")
    customer = whom(holding=holding, by=by, customer=customer, new_customer=new_customer)
    note, lines, sale = said.pop("note", ""), [], None
    # Held in order of id before any is drawn on, so that no two hands wait on each other.
    for bundle in lock(holding=holding, bundles=bundles).values():
        line = sell(
            holding=holding,
            by=by,
            bundle=bundle,
            on=on,
            much=Much(REST, text=_("the rest")),
            customer=customer,
            sale=sale,
            order_line=order_line,
            note="" if sale else note,
            **said,
        )
        lines.append(line)
        sale = line.sale
    return lines


def ordered_by(order_line, customer, on):
    """The customer of an order that a sale goes towards; another customer's sale does not."""
    order = order_line.order
    if order.cancelled_on:
        day = write_day(order.cancelled_on)
        raise Refusal(_("That order was cancelled on %(day)s.") % {"day": day}, field="order_line")
    if on < order.on:
        raise Refusal(_("It was not ordered until %(day)s.") % {"day": write_day(order.on)}, field="on")
    if customer is not None and customer != order.customer:
        raise Refusal(_("%(whom)s ordered that, nobody else.") % {"whom": order.customer}, field="order_line")
    return order.customer


def in_currency(holding, price):
    return {"price": price, "currency": "" if price is None else holding.currency}


@transaction.atomic
def correct_sale(*, holding, by, sale, on, customer=None, note="", why=""):
    """Correct whom a sale was to, its day or its note. What was said that day stays said."""
    lines = list(sale.lines.of(holding).select_related("taking__bundle", "order_line__order__customer"))
    for line in lines:
        if line.order_line and (customer != sale.customer or on != sale.on):
            customer = ordered_by(line.order_line, customer, on)
    if on != sale.on:
        check_nothing_before(lines, on)
        for line in lines:
            check_tied(line.taking.bundle, on)
            correct(record=line.taking, by=by, why=why, on=on, at=None)
    return correct(record=sale, by=by, why=why, on=on, customer=customer, note=note)


def check_nothing_before(lines, on):
    """Nothing came back, and nobody complained, before it was sold."""
    for model in (Returned, Complaint):
        for line in lines:
            first = model.objects.of(line.holding).filter(line=line).order_by("on").first()
            if first and first.on < on:
                words = {"what": first, "day": write_day(first.on)}
                raise Refusal(_("“%(what)s” was on %(day)s already.") % words, field="on")


@transaction.atomic
def correct_sale_line(*, holding, by, saleline, state_said, price=None, order_line=None, why=""):
    """Correct the price, the state said or the order it went towards; how much is corrected at the rods taken out."""
    if order_line is not None and order_line != saleline.order_line:
        ordered_by(order_line, saleline.sale.customer, saleline.sale.on)
    currency = saleline.currency if price is not None and saleline.currency else None
    money = {"price": price, "currency": currency} if currency else in_currency(holding, price)
    return correct(record=saleline, by=by, why=why, state_said=state_said, order_line=order_line, **money)
