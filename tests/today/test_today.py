from datetime import UTC, datetime, timedelta

import pytest

from growers.furniture.due import Due
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.harvest import actions as harvest
from growers.soaking import actions as soaking
from growers.stock import actions as stock
from growers.today import queries
from tests import ground


def test_a_new_book_is_led_step_by_step(pages, hand):
    text = pages.text("today:today")
    assert "A new book" in text
    page = pages.open("today:today").content.decode()
    assert f'href="{pages.address("beds:varieties")}"' in page
    planting = ground.planted(hand)
    assert f'class="button act" href="{pages.address("harvest:lengths")}"' in pages.open("today:today").content.decode()
    harvest.usual_lengths(**hand)
    cut = ground.cut(hand, planting)
    assert f'class="button act" href="{pages.address("bundles:bench")}"' in pages.open("today:today").content.decode()
    ground.tied(hand, cut)
    assert "A new book" not in pages.text("today:today")


def test_nothing_to_do_is_said_plainly(pages, hand, bundle, clock, sell):
    sell("the rest")
    clock("2026-09-01 12:00")
    for each in pages.open("today:today").context["due"]:
        pytest.fail(f"{each['sentence']} wants doing")
    assert "Nothing wants doing today." in pages.text("today:today")


def test_what_wants_doing_leads_to_its_page(pages, hand, bundle, utc, clock, day):
    tank = soaking.add_tank(**hand, name="Trough")
    at = utc("2026-03-02 07:00")
    batch = soaking.put_in(**hand, bundle=bundle, tank=tank, moment=Moment(at, at, ""), much=read_much("half"))
    soaking.check_bend(**hand, batch=batch, at=utc("2026-03-07 07:00"), result="folds")
    clock("2026-03-07 08:00")
    first = pages.open("today:today").context["due"][0]
    assert first["sentence"].startswith("Lift Pellock")
    assert first["urgent"]
    assert first["url"] == pages.address("soaking:batch", batch.uid)
    assert first["tag"] == bundle.tag_shown


def test_the_urgent_comes_first_then_what_has_waited_longest(monkeypatch, holding, day):
    class Stage:
        @staticmethod
        def due(holding, *, today, now):
            yield Due("a", "waits a week", "p", when=today - timedelta(days=7))
            yield Due("b", "no day", "p")
            yield Due("c", "tomorrow", "p", when=today + timedelta(days=1))
            yield Due("d", "urgent today", "p", when=now, urgent=True)
            yield Due("e", "urgent yesterday", "p", when=today - timedelta(days=1), urgent=True)

    monkeypatch.setattr(queries, "STAGES", (Stage,))
    found = queries.due(holding, today=day("2026-03-07"), now=datetime(2026, 3, 7, 8, tzinfo=UTC))
    assert [each.kind for each in found] == ["e", "d", "a", "b", "c"]


def test_what_became_dry_and_who_waits_for_it(pages, hand, bundle, oven, clock, day):
    oven("110 g", "100 g", "2026-07-10")
    stock.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day("2026-02-01"), much=read_much("half"))
    clock("2026-07-12 12:00")
    text = pages.text("today:today")
    assert "Lately become dry" in text
    assert "Orla Fenn waits for it." in text
    assert "is fit to sell: Orla Fenn waits for it" in text
    clock("2026-09-12 12:00")
    assert "Lately become dry" not in pages.text("today:today")


def test_the_page_is_of_ones_own_book_only(client, ida, other, bundle, pages):
    client.force_login(ida)
    assert client.get(pages.address("today:today")).status_code == 404
    assert "A new book" in client.get("/nether-sallow/").content.decode()
