import datetime

import pytest
from django.test import Client

from growers.people import actions
from growers.people.models import Membership, User
from tests.pages import Pages

PASSWORD = "osier-and-sallow"


class OverHttps(Client):
    """The site answers over https alone, as in real use."""

    def generic(self, *args, **kwargs):
        return super().generic(*args, **(kwargs | {"secure": True}))


@pytest.fixture
def client():
    return OverHttps()


@pytest.fixture(autouse=True)
def quick_passwords(settings):
    """A slow hash guards real passwords; these are not."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


def person(username, password=PASSWORD):
    return User.objects.create_user(username=username, password=password)


@pytest.fixture
def wren(db):
    """Wren Askew, who keeps the book of Hallow Carr."""
    return person("wren")


@pytest.fixture
def holding(wren):
    return actions.open_book(name="Hallow Carr", slug="hallow-carr", username="wren", password=PASSWORD)


@pytest.fixture
def tam(holding):
    """Tam Birk, who writes in Hallow Carr's book."""
    tam = person("tam")
    actions.join(holding=holding, user=tam, role=Membership.Role.HAND)
    return tam


@pytest.fixture
def other(db):
    """Nether Sallow, another holding, which is Ida Rushby's."""
    return actions.open_book(name="Nether Sallow", slug="nether-sallow", username="ida", password=PASSWORD)


@pytest.fixture
def ida(other):
    return User.objects.get(username="ida")


@pytest.fixture
def hand(holding, wren):
    """Who does it and where: what every action is told."""
    return {"holding": holding, "by": wren}


@pytest.fixture
def signed_in(client, wren, holding):
    client.force_login(wren)
    return client


@pytest.fixture
def day():
    """A short way to write a day: day("2025-12-28")."""
    return datetime.date.fromisoformat


@pytest.fixture
def pages(signed_in, holding):
    """The pages of Hallow Carr, as Wren sees them."""
    return Pages(signed_in, holding.slug)


@pytest.fixture
def clock(monkeypatch):
    """Set the pages' clock: clock("2026-08-20 12:00") in UTC."""

    def clock(text):
        at = datetime.datetime.fromisoformat(text).replace(tzinfo=datetime.UTC)
        monkeypatch.setattr("growers.middleware.clock", lambda: at)

    return clock
