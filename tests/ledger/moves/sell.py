"""Customers: orders, sales, and what comes back after them."""

from decimal import Decimal

from hypothesis import strategies as st

from growers.beds.models import Variety
from growers.bundles.models import Bundle, Place
from growers.customers import actions as customers
from growers.customers.models import Complaint, Customer, Order, OrderLine, Returned, Sale, SaleLine, Sheet, Waiting
from growers.harvest.models import LengthClass
from growers.stock.models import Promise

from .said import (
    Move,
    a,
    days,
    hours,
    muches,
    names,
    notes,
    of_kind,
    or_its_own,
    perhaps_a,
    perhaps_a_day,
    perhaps_felt,
    readings,
    some,
    wanted,
    yes_or_no,
)

perhaps_named = st.just("") | names
to_whom = {"customer": perhaps_a(Customer), "new_customer": perhaps_named}
kind_of_rods = {"variety": perhaps_a(Variety), "length_class": perhaps_a(LengthClass), "type": of_kind(Bundle.Type)}
prices = st.sampled_from([None, Decimal(0), Decimal("9.50")])
sold = {"on": days, "state_said": of_kind(SaleLine.State), "price": prices}
told = {"on": days, "what": of_kind(Complaint.What), "water": perhaps_felt, "hours": hours, "note": notes}
answers = st.sampled_from(["", "a day longer"])

MOVES = [
    Move(customers.add_customer, name=names, note=notes),
    Move(customers.correct_customer, customer=a(Customer), name=names),
    Move(customers.take_order, on=days, wanted_by=perhaps_a_day, **to_whom),
    Move(customers.take_order, on=days, much=wanted, **to_whom, **kind_of_rods),
    Move(customers.add_line, order=a(Order), much=wanted, **kind_of_rods),
    Move(customers.promise_for_order, order_line=a(OrderLine), bundle=a(Bundle), on=days, much=muches),
    Move(customers.cancel_order, order=a(Order), on=days),
    Move(customers.close_order, order=a(Order), on=days),
    Move(customers.reopen_order, order=a(Order)),
    Move(customers.correct_order, order=a(Order), customer=a(Customer), on=days, wanted_by=perhaps_a_day),
    Move(customers.correct_order_line, orderline=a(OrderLine), much=wanted, **kind_of_rods),
    Move(customers.wait_for, on=days, **to_whom, **kind_of_rods),
    Move(customers.told, waiting=a(Waiting), on=days),
    Move(
        customers.correct_waiting, waiting=a(Waiting), customer=a(Customer), on=days, told_on=perhaps_a_day,
        **kind_of_rods,
    ),
    Move(customers.sell, bundle=a(Bundle), much=muches, sale=perhaps_a(Sale), note=notes, **to_whom, **sold),
    Move(
        customers.sell, bundle=a(Bundle), much=muches, order_line=a(OrderLine), promise=perhaps_a(Promise),
        promised_too=yes_or_no, **sold,
    ),
    Move(customers.sell_bundles, bundles=some(Bundle), order_line=perhaps_a(OrderLine), **to_whom, **sold),
    Move(customers.correct_sale, sale=a(Sale), on=days, customer=perhaps_a(Customer)),
    Move(
        customers.correct_sale_line, saleline=a(SaleLine), order_line=perhaps_a(OrderLine), state_said="green",
        price=prices,
    ),
    Move(customers.complain, line=a(SaleLine), **told),
    Move(customers.complain, bundle=a(Bundle), customer=perhaps_a(Customer), **told),
    Move(customers.answer_complaint, complaint=a(Complaint), on=days, answer=answers),
    Move(
        customers.correct_complaint, complaint=a(Complaint), customer=perhaps_a(Customer), answered_on=perhaps_a_day,
        answer=answers, **told,
    ),
    Move(
        customers.bring_back, line=a(SaleLine), on=days, much=muches, soaked=yes_or_no, place=perhaps_a(Place)
    ),
    Move(customers.correct_returned, returned=a(Returned), on=or_its_own(days, "returned"), part=readings),
    Move(customers.share_sheet, today=days, variety=a(Variety), expires_on=perhaps_a_day),
    Move(customers.share_sheet, today=days, bundle=a(Bundle)),
    Move(customers.withdraw_sheet, sheet=a(Sheet)),
    Move(customers.count_look, sheet=a(Sheet)),
]  # fmt: skip
