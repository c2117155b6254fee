"""What strangers see: a sheet and its tag, open, withdrawn, run out, unknown; and nothing else of the book."""

from datetime import date
from uuid import uuid4

import pytest

from growers.customers.models import Sheet
from growers.people import actions
from tests.attack.house import entries
from tests.conftest import OverHttps
from tests.ledger.book import NOON


@pytest.fixture
def stranger():
    return OverHttps()


@pytest.fixture
def sheets(mine):
    """The sheet of a variety and that of a bundle."""
    return list(Sheet.objects.of(mine).order_by("pk"))


def ways_to(sheet):
    return [
        f"/sheet/{sheet.token}/",
        *([f"/sheet/{sheet.bundle.token}/", f"/t/{sheet.bundle.token}/"] if sheet.bundle else []),
    ]


def test_an_open_sheet_tells_its_own_facts_only(stranger, mine, sheets, everything):
    mine.zone = "Europe/London"
    secret = [str(record.uid) for found in everything.values() for record in found]
    secret += [str(bundle.token) for bundle in everything["bundle"]]
    secret += [record.name for kind in ("bed", "place", "tank", "customer", "stack") for record in everything[kind]]
    secret += [bundle.tag_shown for bundle in everything["bundle"] if bundle != sheets[1].bundle]
    secret += ["Grey Tansel", "wren", "Wren", mine.slug]
    for sheet in sheets:
        page = stranger.get(f"/sheet/{sheet.token}/").content.decode()
        assert "Merrow Red" in page
        assert [told for told in secret if told in page] == []
        assert "csrf" not in page


def test_a_sheet_is_kept_by_nobody_and_tells_nobody_where_it_was_read(stranger, sheets):
    for address in [*ways_to(sheets[1]), f"/sheet/{uuid4()}/", f"/t/{uuid4()}/"]:
        answer = stranger.get(address)
        assert "noindex" in answer.headers["X-Robots-Tag"], address
        assert answer.headers["Referrer-Policy"] == "no-referrer", address
        assert "no-store" in answer.headers["Cache-Control"], address
        assert not answer.cookies, address


def closed(sheets, how, wren):
    for sheet in sheets:
        if how == "withdrawn":
            Sheet.objects.of(sheet.holding).filter(pk=sheet.pk).update(shared=False)
        elif how == "run out":
            Sheet.objects.of(sheet.holding).filter(pk=sheet.pk).update(expires_on=date(2026, 6, 1))
        else:
            thing = sheet if how == "struck out" else sheet.variety or sheet.bundle
            said = {"reason": "a trial", "at": NOON, "with_what_stands_on_it": True}
            actions.strike_out(record=thing, by=wren, **said)


@pytest.mark.parametrize("how", ["withdrawn", "run out", "struck out", "of what is struck out"])
def test_what_is_shut_tells_no_more_than_what_never_was(stranger, sheets, wren, how, clock):
    clock("2026-08-20 12:00")
    nothing = stranger.get(f"/sheet/{uuid4()}/")
    assert nothing.status_code == 404
    closed(sheets, how, wren)
    for sheet in sheets:
        for address in ways_to(sheet):
            answer = stranger.get(address)
            told = answer.content.decode().replace(address, nothing.wsgi_request.path)
            assert (answer.status_code, told) == (404, nothing.content.decode()), address


def test_another_books_tag_is_a_strangers_tag(hers, books, theirs):
    for bundle in entries(theirs)["bundle"]:
        answer = hers.get(f"/t/{bundle.token}/")
        shared = Sheet.objects.of(theirs).filter(bundle=bundle).exists()
        assert answer.status_code == (302 if shared else 404)
        assert theirs.slug not in answer.headers.get("Location", "")


@pytest.mark.parametrize(
    "asked",
    [
        "units=nonsense",
        "units=",
        "length=abc&water=-400",
        "length=%00&water=1e999",
        "water=ice",
        "length=5'&units=imperial",
    ],
)
def test_a_reader_may_ask_nonsense_of_a_sheet(stranger, sheets, asked):
    for sheet in sheets:
        assert stranger.get(f"/sheet/{sheet.token}/?{asked}").status_code == 200


def test_nothing_is_sent_to_a_sheet(stranger, sheets):
    assert stranger.post(f"/sheet/{sheets[0].token}/").status_code == 405


def test_links_are_made_by_chance(sheets, everything):
    tokens = [sheet.token for sheet in sheets] + [bundle.token for bundle in everything["bundle"]]
    assert {token.version for token in tokens} == {4}
    assert not {record.uid for found in everything.values() for record in found} & set(tokens)
