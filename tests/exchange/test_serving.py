import http.client
import socket
import threading

import pytest
from django.contrib.auth import authenticate
from django.core.management import CommandError, call_command
from django.test import RequestFactory

from growers.exchange.management import server
from growers.people.models import Holding, Membership, User

PASSWORD = "osier-and-sallow"


@pytest.fixture
def answers(monkeypatch):
    """What is typed where a password is asked for."""
    typed = []
    monkeypatch.setattr("getpass.getpass", lambda _question: typed.pop(0))
    return typed


def open_book(**also):
    call_command("open_book", "--name", "Hallow Carr", "--user", "wren", **also)


def test_a_book_is_opened_and_its_first_person_can_sign_in(db, answers):
    answers += [PASSWORD, PASSWORD]
    open_book(hemisphere="S", zone="Pacific/Auckland")
    holding = Holding.objects.get()
    assert (holding.name, holding.slug, holding.zone, holding.hemisphere) == (
        "Hallow Carr", "hallow-carr", "Pacific/Auckland", "S",
    )  # fmt: skip
    wren = authenticate(RequestFactory().post("/sign-in/"), username="wren", password=PASSWORD)
    assert Membership.objects.get(user=wren, holding=holding).may_write


def test_opening_a_book_makes_its_tables_first(db, answers, monkeypatch):
    """As docs/reference/settings.md has it, it is the first command that a new home sees."""
    prepared = []
    monkeypatch.setattr(server, "call_command", lambda name, **_: prepared.append((name, User.objects.exists())))
    answers += [PASSWORD, PASSWORD]
    open_book()
    assert prepared == [("migrate", False)]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ([PASSWORD, "something-else"], "The two differ; nothing was made."),
        (["wren1", "wren1"], "too short"),
    ],
)
def test_a_poor_password_makes_nothing(db, answers, typed, sentence):
    answers += typed
    with pytest.raises(CommandError, match=sentence):
        open_book()
    assert not Holding.objects.exists()


def test_a_book_that_is_open_already_is_refused_with_a_sentence(holding, answers):
    with pytest.raises(CommandError, match="hallow-carr"):
        open_book()
    assert Holding.objects.count() == 1


def test_a_zone_that_is_none_is_refused(db, answers):
    answers += [PASSWORD, PASSWORD]
    with pytest.raises(CommandError, match="Europe/London"):
        open_book(zone="Mercia")
    assert not Holding.objects.exists()


def test_serving_by_https_without_a_proxy_says_what_to_do(settings):
    settings.HTTPS, settings.PROXY = True, ""
    with pytest.raises(CommandError, match="GROWERS_PROXY") as refused:
        call_command("serve")
    assert "GROWERS_HTTPS=off" in str(refused.value)


def test_the_first_free_port_is_taken():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with server.first_free("127.0.0.1", port) as door:
            assert door.getsockname()[1] > port


def asked_by_https(port):
    """The status of a page that is nowhere, asked for through something that says it speaks https."""
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    line.request("GET", "/static/nowhere.css", headers={"X-Forwarded-Proto": "https"})
    status = line.getresponse().status
    line.close()
    return status


@pytest.mark.parametrize(
    ("proxy", "status"),
    [
        ("127.0.0.1", 404),  # believed: it was https, and there is no such page
        ("192.0.2.7", 301),  # not the proxy: sent on to https
        ("", 301),
    ],
)
def test_only_the_proxy_is_believed_about_https(settings, proxy, status):
    settings.PROXY, settings.SECURE_SSL_REDIRECT = proxy, True
    listening = server.listening(sockets=[server.first_free("127.0.0.1", 8000)])
    running = threading.Thread(target=listening.run, daemon=True)
    running.start()
    try:
        assert asked_by_https(listening.effective_port) == status
    finally:
        listening.trigger.pull_trigger(listening.close)  # in its own thread, between two answers
        running.join(10)
    assert not running.is_alive()
