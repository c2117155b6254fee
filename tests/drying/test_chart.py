"""The curve of a bundle's weighings, drawn in a real browser under the site's own content security policy."""

from pathlib import Path

import pytest
from django.contrib.staticfiles import finders

pytestmark = pytest.mark.browser
CHROMIUM = next((p for p in map(Path, ("/usr/bin/chromium", "/usr/bin/chromium-browser")) if p.exists()), None)
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]


@pytest.fixture
def browser():
    if CHROMIUM is None:
        pytest.skip("there is no Chromium on this machine")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture
def sent(book, bundle, pages):
    """The page as the site sends it, with its policy; read before the browser starts, which forbids the database."""
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    book.weigh(bundle, "2026-06-22", "5.6 kg")
    page = pages.open("drying:answer", bundle.uid)
    return page.content.decode(), page.headers["Content-Security-Policy"]


def served(sent):
    html, policy = sent

    def answer(route):
        path = route.request.url.removeprefix("http://book.test/")
        if path.startswith("static/"):
            route.fulfill(path=finders.find(path.removeprefix("static/")))
        else:
            route.fulfill(body=html, content_type="text/html", headers={"Content-Security-Policy": policy})

    return answer


def test_it_draws_and_breaks_no_rule(sent, browser):
    page = browser.new_page(viewport={"width": 390, "height": 844})
    complaints = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.route("**/*", served(sent))
    page.goto("http://book.test/")
    page.wait_for_selector(".chart .main-svg")
    assert complaints == []
    # Three weighings (one as it was tied), two days of known moisture.
    assert page.locator(".chart .xy .points path").count() == 3
    assert page.locator(".chart .xy2 .points path").count() == 2
    assert page.locator(".chart").get_by_text("Moisture, %").count() == 1
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    ink = page.evaluate("getComputedStyle(document.querySelector('.chart .xy .points path')).fill")
    page.evaluate("document.documentElement.dataset.mode = 'dark'")
    page.wait_for_timeout(300)
    assert page.evaluate("getComputedStyle(document.querySelector('.chart .xy .points path')).fill") != ink
    assert complaints == []
