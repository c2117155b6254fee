"""Every page within a book, found by walking the addresses, with arguments that lead somewhere."""

import re
from dataclasses import dataclass

from django.apps import apps
from django.db import connection
from django.urls import get_resolver
from django.urls.resolvers import URLResolver

from growers.people.models import Membership
from growers.people.queries import kinds

# What a page is about stands before its uid in the address; where that is no kind's name, it is told here.
ABOUT = {
    "stock": "bundle",
    "bench": "cut",
    "patterns": "pattern",
    "put-in": "bundle",
    "sell": "bundle",
    "store": "place",
    "tanks": "tank",
    "whole-soak": "bundle",
    "wrapped": "mellow",
    "more": "bundle",
}
IN_A_STACK = ("bundles:leave_stack", "bundles:telltale")
SAMPLED = ("bundle", "stack", "cut")  # what a drying test is made of
NO_GET = "people:take_back"
LEADS_ON = ("customers:more", "customers:sell_bundles", "trace:latest_winter")
FOR_KEEPERS = ("people:hands", "people:let_in", "people:role", "people:settings")


@dataclass(frozen=True)
class Page:
    """One address of a book, such as `beds/bed/<uuid:uid>/plant/`, without the book itself."""

    name: str
    route: str

    def addresses(self, slug, book):
        """The page for one record of each kind that it takes, as (address, arguments)."""
        wants = re.findall(r"([\w-]*)/?<\w+:(\w+)>", self.route)
        for choice in self.choices(wants, book):
            yield f"/{slug}/" + re.sub(r"<\w+:(\w+)>", lambda found, args=choice: str(args[found[1]]), self.route)

    def choices(self, wants, book):
        names = [name for _before, name in wants]
        # One page for every kind of record: its own page is tried with each, what it leads to with a few.
        few = list(book) if self.name == "people:record" else list(book)[::16]
        for asked, kinds_asked in (("kind", few), ("what", SAMPLED)):
            if asked in names:
                yield from ({asked: kind, "uid": book[kind][0].uid, "uids": book[kind][0].uid} for kind in kinds_asked)
                return
        if names in (["pk"], ["year"]):
            hands = Membership.objects.filter(holding=book["bed"][0].holding)
            yield {"pk": hands.first().pk, "year": 2025}
            return
        about = [book.get(self.kind(before)) for before, _name in wants]
        if all(about):
            yield {name: self.one(found).uid for name, found in zip(names, about, strict=True)}

    def kind(self, before):
        if self.name == "customers:promise_line" and before == "promise":
            return "bundle"
        return ABOUT.get(before, before)

    def one(self, found):
        return next(each for each in found if each.stack) if self.name in IN_A_STACK else found[0]


def pages():
    """All pages with a book in their address."""
    return sorted(walk(get_resolver(), "", ""), key=lambda page: page.name)


def walk(resolver, before, space):
    for pattern in resolver.url_patterns:
        route = before + str(pattern.pattern)
        if isinstance(pattern, URLResolver):
            inner = f"{pattern.namespace}:" if pattern.namespace else space
            yield from walk(pattern, route, inner)
        elif route.startswith("<slug:holding>/"):
            yield Page(f"{space}{pattern.name}", route.removeprefix("<slug:holding>/"))


def entries(holding):
    """Every living entry of a book, by kind."""
    found = {kind: list(model.objects.of(holding).order_by("pk")) for kind, model in sorted(kinds().items())}
    return {kind: each for kind, each in found.items() if each}


def addresses(slug, book):
    """(page, address) of every page, for each kind of record that it takes."""
    return [(page, address) for page in pages() for address in page.addresses(slug, book)]


def counted():
    """How many rows there are of everything that a person writes, with its history and receipts."""
    tables = [
        model._meta.db_table
        for model in apps.get_models()
        if model._meta.app_label not in ("sessions", "axes", "contenttypes", "admin")
        and "DrynessAnswer" not in model.__name__  # reckoned anew whenever a list is shown
    ]
    with connection.cursor() as cursor:
        cursor.execute("SELECT " + ", ".join(f'(SELECT COUNT(*) FROM "{table}")' for table in tables))  # noqa: S608
        return dict(zip(tables, cursor.fetchone(), strict=True))
