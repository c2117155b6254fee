"""The ways into the house: forged and foreign requests, nonsense in addresses, headers and cookies."""

from uuid import uuid4

import pytest

from growers.bundles.actions import buy_in
from tests.attack.house import addresses, counted
from tests.attack.odd import ODD
from tests.conftest import PASSWORD, OverHttps
from tests.ledger.book import TIED_ON


@pytest.fixture
def password(wren):
    """Wren's, in the tests' quick hash."""
    wren.set_password(PASSWORD)
    wren.save()


def test_nothing_is_sent_without_the_mark_of_its_page(wren, mine, everything):
    careful = OverHttps(enforce_csrf_checks=True)
    careful.force_login(wren)
    before = counted()
    asked = [address for _page, address in addresses(mine.slug, everything)]
    for address in [*asked, "/sign-in/", "/sign-out/"]:
        assert careful.post(address, {"name": "forged"}).status_code == 403, address
    assert counted() == before
    assert careful.get("/").status_code == 302  # still signed in


def test_looking_signs_nobody_out_and_takes_nothing_back(hers, mine, everything):
    assert hers.get("/sign-out/").status_code == 405
    assert hers.get(f"/{mine.slug}/record/bed/{everything['bed'][0].uid}/take-back/").status_code == 405
    assert hers.get(f"/{mine.slug}/").status_code == 200


@pytest.mark.parametrize(
    "there", ["https://evil.example/", "//evil.example/", "/\\evil.example", "javascript:alert(1)"]
)
def test_signing_in_leads_nowhere_else(client, password, there):
    answer = client.post("/sign-in/", {"username": "wren", "password": PASSWORD, "next": there})
    assert answer.headers["Location"] == "/"


@pytest.mark.parametrize("there", ["https://evil.example/hallow-carr/", "//evil.example/hallow-carr/", "nonsense", ""])
def test_taking_back_leads_nowhere_else(hers, mine, everything, there):
    address = f"/{mine.slug}/record/healthnote/{everything['healthnote'][0].uid}/take-back/"
    assert hers.post(address, headers={"referer": there}).headers["Location"] == f"/{mine.slug}/"


def test_another_host_is_not_answered(hers, mine):
    assert hers.get(f"/{mine.slug}/", headers={"host": "evil.example"}).status_code == 400
    forwarded = hers.get(f"/{mine.slug}/", headers={"x-forwarded-host": "evil.example"})
    assert "evil.example" not in forwarded.content.decode()


def test_cookies_are_kept_to_the_site_and_from_scripts(client, password):
    client.get("/sign-in/")
    client.post("/sign-in/", {"username": "wren", "password": PASSWORD})
    session, csrf = client.cookies["sessionid"], client.cookies["csrftoken"]
    assert (session["secure"], session["httponly"], session["samesite"]) == (True, True, "Lax")
    assert (csrf["secure"], csrf["samesite"]) == (True, "Lax")


def test_every_page_bears_the_same_guard(hers, mine, everything):
    for address in [f"/{mine.slug}/", "/sign-in/", f"/sheet/{uuid4()}/", "/nowhere/at/all/"]:
        answer = hers.get(address)
        policy = answer.headers["Content-Security-Policy"]
        assert "default-src 'self'" in policy, address
        assert "unsafe" not in policy, address
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] in ("same-origin", "no-referrer")
        for attribute in (b" onclick=", b" style=", b"<style", b"javascript:"):
            assert attribute not in answer.content, address


QUESTIONS = {
    "page": ("abc", "-1", "99999", "1e999", "9" * 5000),
    "code": ("482 17 06", "0", "9" * 5000, "4821706\0", "٣", ""),
    "bundle": ("nonsense", str(uuid4())),
    "kind": ("mass", "day", "moment", "much", "nonsense"),
    "text": tuple(ODD.values()),
}


def nonsense(page, context):
    """Odd things to ask of a page, in its address."""
    if page.name in ("trace:tag", "customers:more"):
        yield from ({"code": value} for value in QUESTIONS["code"])
    if "page" in context:
        yield from ({"page": value} for value in QUESTIONS["page"])
    if "filter" in context:
        yield from ({"bundle": value} for value in QUESTIONS["bundle"])
        yield from ({name: odd} for name in context["filter"].filters for odd in ("x\0'😀", str(uuid4())))
    if "form" in context:
        yield from (dict.fromkeys(context["form"].fields, ODD[odd]) for odd in ("NUL", "a long number", "mark-up"))
    yield {"by": "nonsense", "units": "nonsense", "all": "x", "name": "\0"}


def test_nonsense_in_an_address_is_no_error_of_ours(hers, mine, everything):
    for page, address in addresses(mine.slug, everything):
        if "<" not in page.route and page.name != "people:understand":
            context = hers.get(address).context or {}
            for query in nonsense(page, context):
                assert hers.get(address, query).status_code in (200, 302, 404, 422), (page.name, query)


@pytest.mark.parametrize("told", ["9999", "0000/01", "1234/35", "20²5", "2025/99", "🧺"])
def test_a_winter_told_in_any_words_breaks_no_list(hers, books, mine, told):
    base = books.mine
    base.book.do(
        buy_in, supplier="Tansel", variety=base.varieties[0], told_winter=told, on=TIED_ON, length_class=base.lengths[1]
    )
    for address in ("bundles/", "stock/"):
        assert hers.get(f"/{mine.slug}/{address}", {"winter": told}).status_code == 200
    assert hers.get(f"/{mine.slug}/trace/winter/", follow=True).status_code == 200


@pytest.mark.parametrize("year", [0, 1, 9999, 10_000, 10**30])
def test_a_winter_that_can_not_be_is_no_error_of_ours(hers, mine, year):
    assert hers.get(f"/{mine.slug}/trace/winter/{year}/").status_code in (200, 404)


def test_what_is_typed_is_always_understood_or_not(hers, mine):
    for kind in QUESTIONS["kind"]:
        for text in QUESTIONS["text"]:
            answer = hers.get(f"/{mine.slug}/understand/", {"kind": kind, "text": text})
            assert answer.status_code == 200, (kind, text[:40])
            assert answer.headers["Content-Type"].startswith("text/plain")
