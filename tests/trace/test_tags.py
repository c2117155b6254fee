"""Printable tags; their codes are read back from the very squares that stand in the page."""

import re

import numpy as np
import pytest
import zxingcpp

from growers.drying import actions as drying
from growers.furniture.much import read_much
from growers.science import units
from growers.stock import actions as stock
from tests import ground
from tests.pages import words


@pytest.fixture(autouse=True)
def august(clock):
    clock("2026-08-20 12:00")


def squares(svg, a_square=6):
    """A QR code's SVG as a grey picture, drawn by its path alone: each h is a run of dark squares, each m a step."""
    side = int(re.search(r'viewBox="0 0 (\d+) \1"', svg)[1])
    picture = np.full((side, side), 255, np.uint8)
    path = re.search(r'stroke="#000" d="M(\d+) (\d+)\.5([^"]+)"', svg)
    x, y = int(path[1]), int(path[2])
    for step, along, down in re.findall(r"([hm])(-?\d+)(?: (-?\d+))?", path[3]):
        if step == "h":
            picture[y, x : x + int(along)] = 0
        x, y = x + int(along), y + int(down or 0)
    return picture.repeat(a_square, 0).repeat(a_square, 1)


def codes(page):
    return re.findall(r'<svg[^>]*class="qr".*?</svg>', page.content.decode(), re.S)


def read(svg):
    [found] = zxingcpp.read_barcodes(squares(svg))
    assert str(found.format) in ("BarcodeFormat.QRCode", "QR Code", "QRCode")
    return found.text


def test_the_code_leads_to_the_bundle(pages, bundle):
    page = pages.open("trace:tags", bundle=bundle.uid)
    [svg] = codes(page)
    assert read(svg) == f"https://testserver/t/{bundle.token}/"
    answer = pages.client.get(read(svg).removeprefix("https://testserver"))
    assert answer.url == pages.address("trace:bundle", bundle.uid)


def test_each_tag_has_its_own_code(pages, hand, bundle, cut, day):
    others = ground.tied(hand, cut, on=day("2026-01-12"), how_many=3)
    page = pages.open("trace:tags", print="all")
    assert sorted(map(read, codes(page))) == sorted(f"https://testserver/t/{b.token}/" for b in [bundle, *others])


def test_what_stands_on_a_tag(pages, hand, bundle, day):
    drying.weigh(**hand, bundle=bundle, on=day("2026-07-02"), mass=units.read_mass("3.2 kg"))
    stock.take_out(**hand, bundle=bundle, on=day("2026-07-03"), purpose="work", much=read_much("half"))
    text = pages.text("trace:tags", bundle=bundle.uid)
    tag = text.split("The code leads")[1]
    assert "5 ft Pellock, brown" in tag
    # Half of the 3.2 kg is left. 28 December to 2 July is 186 days: dry by the calendar (150 days).
    assert "1.6 kg as weighed dry on Thu 2 Jul 2026" in tag
    assert "winter 2025/26, Beck Side" in tag
    assert "soak 5 to 6 days by the rule" in tag
    assert bundle.tag_shown in tag


@pytest.mark.parametrize(
    ("on", "state"),
    # From the cut of 28 December: 14 days, 42 days (8 February), 150 days (27 May).
    [
        ("2026-01-11", "green"),
        ("2026-02-07", "green"),
        ("2026-02-08", "semi-dry"),
        ("2026-05-26", "semi-dry"),
        ("2026-05-27", "dry"),
    ],
)
def test_a_weight_is_of_the_state_of_its_day(pages, hand, bundle, day, on, state):
    drying.weigh(**hand, bundle=bundle, on=day(on), mass=units.read_mass("4 kg"))
    assert f"4 kg as weighed {state} on" in pages.text("trace:tags", bundle=bundle.uid)


def test_an_oven_test_beats_the_calendar(pages, hand, bundle, oven, day):
    # 140 g to 100 g on that day: 40 %, neither above 60 % nor below 25 %. By the calendar it would be green.
    drying.weigh(**hand, bundle=bundle, on=day("2026-01-20"), mass=units.read_mass("4 kg"))
    oven("140 g", "100 g", "2026-01-20")
    assert "4 kg as weighed semi-dry on" in pages.text("trace:tags", bundle=bundle.uid)


def test_a_bundle_never_weighed_has_no_weight_on_its_tag(pages, hand, cut, day):
    unweighed = ground.tied(hand, cut, on=day("2026-01-12"), how_many=1)[0]
    ground.tied(hand, cut, on=day("2026-01-12"), how_many=4, mass=units.read_mass("6 kg"))
    assert "as weighed" not in pages.text("trace:tags", bundle=unweighed.uid)


def test_bundles_are_chosen_by_ticks_or_by_the_narrowed_list(pages, hand, bundle, cut, day):
    four = ground.tied(hand, cut, on=day("2026-01-12"), label="4 ft")[0]
    choosing = pages.open("trace:tags")
    assert choosing.content.decode().count('type="checkbox"') == 2
    assert len(codes(pages.open("trace:tags", bundle=[bundle.uid, four.uid]))) == 2
    found = pages.open("trace:tags", print="all", length=four.length_class.uid)
    assert [tag.bundle for tag in found.context["tags"]] == [four]


@pytest.mark.parametrize("asked", ["twelve", "", "00000000-0000-4000-8000-000000000000"])
def test_what_is_no_bundle_has_no_tag(pages, bundle, asked):
    assert "None of these bundles is in your book" in pages.text("trace:tags", bundle=asked)


def test_another_books_bundles_have_no_tags_here(client, ida, other, bundle):
    client.force_login(ida)
    page = client.get(f"/nether-sallow/trace/tags/?bundle={bundle.uid}")
    assert "None of these bundles is in your book" in words(page)


def test_nothing_on_the_page_needs_a_loosened_content_policy(pages, bundle):
    page = pages.open("trace:tags", bundle=bundle.uid).content.decode()
    assert not re.search(r"<style|\sstyle=|javascript:|data:", page)


def test_the_number_of_questions_grows_only_with_the_days_of_weighing(
    pages, hand, bundle, cut, day, django_assert_max_num_queries
):
    ground.tied(hand, cut, on=day("2026-01-12"), how_many=20)
    with django_assert_max_num_queries(80):
        pages.open("trace:tags", print="all")
