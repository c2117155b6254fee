from django.db import transaction

from growers.people.actions import correct, write
from growers.people.rules import name_key, tidy

from ..models import Customer
from ..queries import named


@transaction.atomic
def add_customer(*, holding, by, name, contact="", note=""):
    customer = Customer(holding=holding, name=tidy(name), name_key=name_key(name), contact=contact, note=note)
    return write(customer, by=by)


@transaction.atomic
def correct_customer(*, holding, by, customer, name, contact="", note="", why=""):
    return correct(
        record=customer, by=by, why=why, name=tidy(name), name_key=name_key(name), contact=contact, note=note
    )


def whom(*, holding, by, customer=None, new_customer=""):
    """The customer chosen, or the one whose name was typed: found in the book, else added to it."""
    if not new_customer:
        return customer
    return named(holding, new_customer) or add_customer(holding=holding, by=by, name=new_customer)
