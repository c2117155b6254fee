"""The sound books of two holdings, made once for a module of tests; each test's changes are taken back."""

import copy
from types import SimpleNamespace

import pytest
from django.db import transaction

from growers.people import actions
from growers.people.models import User
from tests.ledger.book import sound_book


@pytest.fixture(scope="module")
def written_books(django_db_setup, django_db_blocker):
    with django_db_blocker.unblock(), transaction.atomic():
        books = []
        for name, username in [("Hallow Carr", "wren"), ("Nether Sallow", "ida")]:
            holding = actions.open_book(name=name, username=username, password="osier-and-sallow")
            books.append(sound_book(holding, User.objects.get(username=username)))
        yield SimpleNamespace(mine=books[0], theirs=books[1])
        transaction.set_rollback(True)


@pytest.fixture
def books(written_books, db):
    """`mine` is Hallow Carr's and `theirs` Nether Sallow's."""
    return copy.deepcopy(written_books)


@pytest.fixture
def book(books):
    return books.mine
