"""The demo as a stranger runs it: in a clone of its own, beside surroundings that belong to a real book."""

import http.cookiejar
import os
import re
import shutil
import socket
import subprocess
import sys
from contextlib import contextmanager
from io import StringIO
from types import SimpleNamespace
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, build_opener

import pytest
from django.core.management import CommandError, call_command

from growers.exchange.management.commands import demo
from tests.flow.house import ROOT

NOT_COPIED = shutil.ignore_patterns("__pycache__")


@pytest.fixture(scope="module")
def clone(tmp_path_factory):
    folder = tmp_path_factory.mktemp("clone")
    shutil.copy(ROOT / "manage.py", folder)
    for part in ("growers", "fixtures"):
        shutil.copytree(ROOT / part, folder / part, ignore=NOT_COPIED)
    return folder


def command(clone, *arguments):
    real = {
        "GROWERS_HOME": str(clone / "real"),
        "GROWERS_HTTPS": "on",
        "DATABASE_URL": f"sqlite:///{clone}/real.sqlite3",
    }
    return {
        "args": [sys.executable, "manage.py", "demo", *arguments],
        "cwd": clone,
        "env": os.environ | real,
        "text": True,
    }


@contextmanager
def served(clone, *arguments):
    """Runs the demo until it has printed where it is, and stops it afterwards."""
    running = subprocess.Popen(**command(clone, *arguments), stdout=subprocess.PIPE)
    try:
        said = ""
        for line in running.stdout:
            said += line
            if "Ctrl-C" in line:
                break
        found = re.search(r"(http://127\.0\.0\.1:(\d+)/)\nSign in +(\S+)\nPassword +(\S+)\n", said)
        yield SimpleNamespace(address=found[1], port=int(found[2]), username=found[3], password=found[4], said=said)
    finally:
        running.terminate()
        running.wait(20)
        running.stdout.close()


def sign_in(at):
    """The page that the printed address and sign-in lead to."""
    cookies = http.cookiejar.CookieJar()
    browser = build_opener(HTTPCookieProcessor(cookies))
    with browser.open(at.address, timeout=20) as page:
        form, where = page.read().decode(), page.url
    token = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', form)[1]
    answers = {"csrfmiddlewaretoken": token, "username": at.username, "password": at.password}
    with browser.open(where, urlencode(answers).encode(), timeout=20) as page:
        return page.status, page.url, page.read().decode()


def test_the_demo_is_served_and_kept_and_touches_nothing_real(clone):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with served(clone, "--port", str(port)) as first:
            status, where, page = sign_in(first)
    assert first.port > port  # the next free one
    assert "Everything in this book is invented" in first.said
    assert status == 200
    assert "sign-in" not in where
    assert "Hallow Carr" in page
    assert not (clone / "real").exists()
    assert not (clone / "real.sqlite3").exists()

    book = clone / ".demo" / "book.sqlite3"
    made = book.stat().st_ino
    with served(clone, "--port", str(port)) as again:
        assert sign_in(again)[0] == 200
    assert (again.username, again.password) == (first.username, first.password)
    assert book.stat().st_ino == made


def test_a_fresh_demo_keeps_the_old_book(settings, tmp_path):
    settings.HOME = tmp_path / ".demo"
    settings.HOME.mkdir()
    (settings.HOME / "book.sqlite3").write_text("the old book")
    said = StringIO()
    demo.Command(stdout=said).set_aside()
    assert not settings.HOME.exists()
    (kept,) = tmp_path.iterdir()
    assert (kept / "book.sqlite3").read_text() == "the old book"
    assert f"kept in {kept}." in said.getvalue()


def test_the_demo_opens_no_book_but_its_own(settings, tmp_path):
    settings.HOME = tmp_path / "book"
    with pytest.raises(CommandError, match="is started as"):
        call_command("demo")
    assert not settings.HOME.exists()
