from django.db import transaction

from growers.people.actions import correct, write
from growers.people.rules import name_key, tidy

from ..models import Customer


@transaction.atomic
def add_customer(*, holding, by, name, contact="", note=""):
    customer = Customer(holding=holding, name=tidy(name), name_key=name_key(name), contact=contact, note=note)
    return write(customer, by=by)


@transaction.atomic
def correct_customer(*, holding, by, customer, name, contact="", note="", why=""):
    return correct(
        record=customer, by=by, why=why, name=tidy(name), name_key=name_key(name), contact=contact, note=note
    )
