"""What withy.js adds to a page, in a real browser."""

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.template.loader import render_to_string

from growers.furniture import fields as f
from growers.furniture.forms import BaseForm

pytestmark = pytest.mark.browser
STATIC = Path(settings.BASE_DIR, "growers/static/growers")
CHROMIUM = next((p for p in map(Path, ("/usr/bin/chromium", "/usr/bin/chromium-browser")) if p.exists()), None)
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]


class Weigh(BaseForm):
    mass = f.MassField(label="Weight")
    on = f.DayField(label="Day")


@pytest.fixture(scope="module")
def browser():
    if CHROMIUM is None:
        pytest.skip("there is no Chromium on this machine")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture
def page(browser, book):
    """A phone with the page open, served from nowhere but this test."""
    sent = []
    form = render_to_string("_parts/form.html", {"form": Weigh(**book)})
    html = f"""<!doctype html><html lang="en">
        <head><meta name="viewport" content="width=device-width">
        <link rel="stylesheet" href="/withy.css"><script src="/withy.js" defer></script></head>
        <body data-understand="/understand/">{form}
        <div data-modes hidden><button data-mode-to="">plain</button><button data-mode-to="sun">sun</button></div>
        </body></html>"""

    def answer(route):
        request = route.request
        path = re.sub(r"^http://book\.test", "", request.url)
        if request.method == "POST":
            sent.append(request.post_data)
            return  # never answered, like a server far away
        if path.startswith("/understand/"):
            route.fulfill(body=f"heard {path.partition('?')[2]}", content_type="text/plain")
        elif path.startswith("/withy"):
            route.fulfill(path=STATIC / path[1:])
        else:
            route.fulfill(body=html, content_type="text/html")

    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    context.route("**/*", answer)
    page = context.new_page()
    page.sent = sent
    page.goto("http://book.test/")
    yield page
    context.close()


def test_unit_keys_write_the_unit_and_change_it(page):
    page.fill("#id_mass", "12")
    page.get_by_role("button", name="kg", exact=True).tap()
    assert page.input_value("#id_mass") == "12 kg "
    page.get_by_role("button", name="lb", exact=True).tap()
    assert page.input_value("#id_mass") == "12 lb "
    page.fill("#id_mass", "12 lb 3")
    page.get_by_role("button", name="oz", exact=True).tap()
    assert page.input_value("#id_mass") == "12 lb 3 oz "


def test_a_day_is_one_tap_and_opens_no_keyboard(page):
    page.get_by_role("button", name="yesterday").tap()
    assert page.input_value("#id_on") == "yesterday"
    assert page.evaluate("document.activeElement.tagName") != "INPUT"


def test_the_number_pad_opens_for_numbers_and_letters_are_a_tap_away(page):
    assert page.get_attribute("#id_mass", "inputmode") == "decimal"
    page.get_by_role("button", name="abc").tap()
    assert page.get_attribute("#id_mass", "inputmode") == "text"


def test_what_is_understood_is_said_under_the_field_while_typing(page):
    page.fill("#id_mass", "12 lb 3")
    page.wait_for_function("document.getElementById('id_mass_understood').textContent !== ''")
    assert page.text_content("#id_mass_understood") == "heard kind=mass&text=12+lb+3"


def test_a_double_tap_sends_once(page):
    page.get_by_role("button", name="Keep it").dblclick()
    page.wait_for_timeout(300)
    assert len(page.sent) == 1


def test_buttons_are_big_enough_for_a_cold_thumb_and_apart(page):
    boxes = [box for button in page.query_selector_all(".form button") if (box := button.bounding_box())]
    assert len(boxes) == 8
    assert min(box["height"] for box in boxes) >= 64 - 0.01
    assert min(box["width"] for box in boxes) >= 48
    for one in boxes:
        for other in boxes:
            if one is not other:
                across = max(one["x"], other["x"]) - min(one["x"] + one["width"], other["x"] + other["width"])
                down = max(one["y"], other["y"]) - min(one["y"] + one["height"], other["y"] + other["height"])
                assert max(across, down) >= 12 - 0.01


def test_nothing_runs_off_a_narrow_screen(page):
    page.set_viewport_size({"width": 320, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_the_mode_is_kept(page):
    page.get_by_role("button", name="sun").tap()
    assert page.get_attribute("html", "data-mode") == "sun"
    assert page.evaluate("document.cookie") == "mode=sun"
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(0, 0, 0)"
    page.get_by_role("button", name="plain").tap()
    assert page.get_attribute("html", "data-mode") is None
    assert page.evaluate("document.cookie") == ""
