"""Every page of a book, asked for by those who may and those who may not."""

import re

import pytest

from growers.people import actions
from growers.people.models import Membership, User
from tests.attack.house import FOR_KEEPERS, LEADS_ON, NO_GET, addresses, counted, entries, pages
from tests.conftest import PASSWORD


@pytest.fixture
def every(mine, everything):
    return addresses(mine.slug, everything)


def wrong(client, every, right, method="get", **sent):
    """The pages that do not answer as they should: [(page, status)]."""
    answers = [(page, getattr(client, method)(address, **sent).status_code) for page, address in every]
    return [(page.name, status) for page, status in answers if not right(page, status)]


def test_there_is_a_way_to_every_page(every):
    assert {page.name for page in pages()} - {page.name for page, _address in every} == set()


def test_who_is_not_signed_in_is_led_to_the_door(client, every):
    for method in ("get", "post"):
        for page, address in every:
            answer = getattr(client, method)(address)
            assert (answer.status_code, answer.headers["Location"]) == (302, f"/sign-in/?next={address}"), page.name


@pytest.mark.parametrize("method", ["get", "post"])
def test_a_stranger_finds_no_such_book(client, ida, every, method):
    client.force_login(ida)
    assert wrong(client, every, lambda page, status: status == 404, method) == []


@pytest.mark.parametrize("method", ["get", "post"])
def test_another_books_records_are_not_found_under_my_address(hers, mine, theirs, method):
    asking = [each for each in addresses(mine.slug, entries(theirs)) if re.search(r":(uids?|pk)>", each[0].route)]
    unknown = lambda page, status: status == (405 if page.name == NO_GET and method == "get" else 404)  # noqa: E731
    assert wrong(hers, asking, unknown, method) == []


def opens(page, status):
    if page.name == NO_GET:
        return status == 405
    return status == (302 if page.name in LEADS_ON else 200)


def test_every_page_opens_and_nothing_comes_of_looking(hers, every):
    before = counted()
    assert wrong(hers, every, opens) == []
    assert counted() == before


def test_every_page_opens_on_a_book_with_nothing_in_it(client, db, everything):
    actions.open_book(name="Bare Holme", username="una", password=PASSWORD)
    client.force_login(User.objects.get(username="una"))
    empty = [each for each in addresses("bare-holme", everything) if "<" not in each[0].route]
    assert len(empty) > 25
    assert wrong(client, empty, opens) == []
    assert wrong(client, empty, lambda page, status: status in (200, 302, 405, 422), "post") == []


def test_who_only_looks_opens_every_page_but_the_keepers_and_keeps_nothing(reader, every):
    right = lambda page, status: status == 403 if page.name in FOR_KEEPERS else opens(page, status)  # noqa: E731
    assert wrong(reader, every, right) == []
    before = counted()
    assert wrong(reader, every, lambda page, status: status == 403, "post") == []
    assert counted() == before


@pytest.mark.parametrize("method", ["get", "post"])
def test_who_only_writes_is_not_let_at_what_is_the_keepers(client, mine, ida, every, method):
    Membership.objects.create(holding=mine, user=ida, role=Membership.Role.HAND)
    client.force_login(ida)
    keepers = [each for each in every if each[0].name in FOR_KEEPERS]
    assert {page.name for page, _address in keepers} == set(FOR_KEEPERS)
    assert wrong(client, keepers, lambda page, status: status == 403, method) == []


def test_a_form_sent_empty_is_answered_and_keeps_nothing(hers, every):
    every = [each for each in every if each[0].name != "people:take_back"]  # which has no form
    before = counted()
    assert wrong(hers, every, lambda page, status: status in (200, 302, 405, 422), "post") == []
    assert counted() == before
