"""The site as the reference pages have to tell it."""

import re

from django.urls import get_resolver

from growers.people.models import Entry, Holding, Membership, Receipt
from growers.people.queries import kinds


def pages(resolver=None, before="/", space=""):
    """(name, address) of every page, with <book> and <uid> where the address has them."""
    for each in (resolver or get_resolver()).url_patterns:
        address = before + str(each.pattern)
        if hasattr(each, "url_patterns"):
            yield from pages(each, address, space + (f"{each.namespace}:" if each.namespace else ""))
        else:
            yield space + each.name, re.sub(r"<(?:\w+:)?(\w+)>", as_told, address)


def as_told(part):
    return "<book>" if part[1] == "holding" else f"<{part[1]}>"


def records():
    """Every kind of record by the name that stands in addresses, and what a book itself is made of."""
    return kinds() | {model._meta.model_name: model for model in (Holding, Membership, Receipt)}


COMMON = {field.name for field in Entry._meta.get_fields()} | {"id"}


def own_fields(model):
    """What a kind of record has beside what all of them have."""
    common = COMMON if issubclass(model, Entry) else {"id"}
    return {field.name: field for field in model._meta.fields if field.name not in common}


def rows(page):
    """The first cell of each row of a page's tables, without its ticks, and the rest of the row."""
    return [(row[1], row[2]) for row in re.finditer(r"^\| `([^`]+)`(?: \*)? \|(.*)\|$", page, re.MULTILINE)]
