"""The frame of every page, and the pages for what goes wrong."""

import re
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.conf import settings
from django.contrib import messages
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.messages.storage.cookie import CookieStorage
from django.template.loader import get_template, render_to_string
from django.test import RequestFactory

from tests.furniture.conftest import carr

TEMPLATES = Path(settings.BASE_DIR, "growers/templates")
STYLE = Path(settings.BASE_DIR, "growers/static/growers/withy.css")


def asked(holding=None):
    request = RequestFactory().get("/")
    request.holding = holding
    request.here = lambda name, *args: "/" + "/".join([name, *map(str, args)])
    request.user = SimpleNamespace(is_authenticated=False)
    request.resolver_match = SimpleNamespace(app_name="stock")
    request._messages = CookieStorage(request)
    return request


def test_the_frame_has_its_landmarks_and_says_what_is_invented():
    page = get_template("_parts/base.html").render({}, asked(carr()))
    assert '<a class="skip" href="#main">' in page
    assert '<main id="main" tabindex="-1">' in page
    assert re.search(r'<html lang="\w', page)
    assert "Everything in this book is invented." in page
    assert "invented" not in get_template("_parts/base.html").render({}, asked(carr(invented=False)))


def test_kept_can_be_taken_back():
    request = asked(carr())
    messages.success(request, "Pellock: 5.53 kg", extra_tags="weighing:abc")
    messages.info(request, "The shed's air is not known.")
    page = get_template("_parts/base.html").render({}, request)
    assert "<strong>Kept.</strong> Pellock: 5.53 kg" in page
    assert re.search(r'<form method="post" action="/people:take_back/weighing/abc">.*?Take it back', page, re.S)
    assert re.search(r'class="note note-info" role="status">The shed', page)
    assert page.count("Kept.") == 1


@pytest.mark.parametrize("name", ["404.html", "403.html", "403_csrf.html", "400.html"])
def test_pages_for_what_goes_wrong_stand_with_and_without_a_request(name):
    for page in (get_template(name).render({}, asked()), get_template(name).render({})):
        assert "<h1>" in page
        assert "Nothing" in page or "nothing" in page or "To the front of the book" in page


def test_a_refusal_to_enter_gives_its_reason():
    page = get_template("403.html").render({"exception": "You may look into this book but not write in it."})
    assert "You may look into this book but not write in it." in page


def test_the_page_for_our_own_faults_leans_on_nothing():
    source = (TEMPLATES / "500.html").read_text()
    assert "extends" not in source
    assert "not kept" in render_to_string("500.html")


def test_the_sign_in_page_has_no_marks_of_optional_fields(db):
    page = get_template("people/sign_in.html").render({"form": AuthenticationForm(), "next": "/hallow-carr/"}, asked())
    assert 'type="password"' in page
    assert 'name="next" value="/hallow-carr/"' in page
    assert "if you like" not in page


def test_no_template_holds_what_the_content_security_policy_forbids():
    for path in TEMPLATES.rglob("*.html"):
        source = path.read_text()
        assert not re.search(r"\sstyle=|\son[a-z]+=[\"']|<style|javascript:", source), path
        assert all(" src=" in tag for tag in re.findall(r"<script[^>]*>", source)), path
        assert "autofocus" not in source, path


def tokens(block):
    return dict(re.findall(r"--([\w-]+): (#[0-9A-F]{6})", block))


def colours():
    """The tokens of each mode; dark is written twice, for the device's choice and for the reader's."""
    style = STYLE.read_text()
    light = tokens(style[style.index(":root {") : style.index("@media")])
    device = tokens(re.search(r":root:not\(\[data-mode\]\) \{(.*?)\}", style, re.S)[1])
    dark = tokens(re.search(r':root\[data-mode="dark"\] \{(.*?)\}', style, re.S)[1])
    sun = tokens(re.search(r':root\[data-mode="sun"\] \{(.*?)\}', style, re.S)[1])
    assert device == dark
    return {"light": light, "dark": light | dark, "sun": light | sun}


def luminance(colour):
    """WCAG 2.2, relative luminance: https://www.w3.org/TR/WCAG22/#dfn-relative-luminance"""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, two):
    lighter, darker = sorted((luminance(one), luminance(two)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_is_reckoned_as_published():
    # WCAG: black on white is 21:1; #767676 on white is the well-known grey that just passes 4.5:1.
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("mode", ["light", "dark", "sun"])
def test_every_word_can_be_read(mode):
    """WCAG 2.2 AA: 4.5:1 for text, 3:1 for the lines of fields and buttons. In the sun 7:1."""
    found = colours()[mode]
    least = 7 if mode == "sun" else 4.5
    for surface in ("ground", "card"):
        for word in ("ink", "soft", "act", "dry", "shed-dry", "not-yet", "alarm"):
            assert contrast(found[word], found[surface]) >= least, (word, surface)
        assert contrast(found["line"], found[surface]) >= 3
    assert contrast(found["on-act"], found["act"]) >= least
    assert contrast(found["on-tie"], found["tie"]) >= least
    assert contrast(found["ground"], found["alarm"]) >= 4.5
    assert contrast(found["ground"], found["ink"]) >= least
