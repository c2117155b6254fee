"""Selling: rods out of a bundle to somebody, with what was said of them that day."""

from django.db import transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from growers.bundles.models import Taking
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.stock.actions import take_out

from ..models import Sale, SaleLine
from ..queries import named, open_sale, said_of
from .customers import add_customer


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
    state_said=SaleLine.State.DRY,
    price=None,
    note="",
    **taken,
):
    """Sell rods out of a bundle. What is said of dryness and winter is kept as it stands that day.

    A second bundle on the same day to the same customer, or to the sale given, is a second line of one sale.
    `new_customer` is the name of one to be added. `taken` goes on to stock's `take_out`.
    """
    check_tied(bundle, on)
    if new_customer:
        customer = named(holding, new_customer) or add_customer(holding=holding, by=by, name=new_customer)
    said = said_of(bundle, on)
    sale = sale or open_sale(holding, customer, on) or write(Sale(holding=holding, customer=customer, on=on), by=by)
    if sale.on != on:
        raise Refusal(_("That sale was on %(day)s.") % {"day": date_format(sale.on)}, field="on")
    if note:
        correct(record=sale, by=by, note="\n".join(filter(None, [sale.note, note])))
    taking = take_out(holding=holding, by=by, bundle=bundle, on=on, purpose=Taking.Purpose.SALE, much=much, **taken)
    line = SaleLine(
        holding=holding,
        sale=sale,
        taking=taking,
        state_said=state_said,
        answer_said=said.answer,
        how_known_said=said.how_known,
        winter_said=said.winter,
        **in_currency(holding, price),
    )
    return write(line, by=by)


def in_currency(holding, price):
    return {"price": price, "currency": "" if price is None else holding.currency}


@transaction.atomic
def correct_sale(*, holding, by, sale, on, customer=None, note="", why=""):
    """Correct whom a sale was to, its day or its note. What was said that day stays said."""
    if on != sale.on:
        for line in sale.lines.of(holding).select_related("taking__bundle"):
            check_tied(line.taking.bundle, on)
            correct(record=line.taking, by=by, why=why, on=on, at=None)
    return correct(record=sale, by=by, why=why, on=on, customer=customer, note=note)


def check_tied(bundle, on):
    if on < bundle.tied_on:
        day = date_format(bundle.tied_on)
        raise Refusal(_("%(bundle)s was not tied until %(day)s.") % {"bundle": bundle, "day": day}, field="on")


@transaction.atomic
def correct_sale_line(*, holding, by, line, state_said, price=None, why=""):
    """Correct the price or the state said; how much it was is corrected at the rods taken out."""
    currency = line.currency if price is not None and line.currency else None
    money = {"price": price, "currency": currency} if currency else in_currency(holding, price)
    return correct(record=line, by=by, why=why, state_said=state_said, **money)
