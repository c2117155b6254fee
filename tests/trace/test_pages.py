import uuid

import pytest

from growers.baskets import actions as baskets
from growers.bundles import actions as bundles
from growers.customers import actions as customers
from growers.drying import actions as drying
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.science import units
from growers.soaking import actions as soaking
from growers.stock import actions as stock
from tests import ground
from tests.pages import words


@pytest.fixture(autouse=True)
def march(clock):
    clock("2026-03-20 12:00")


@pytest.fixture
def much():
    return lambda text: read_much(text, "kg")


@pytest.fixture
def basket(hand, bundle, day, utc, much):
    """A basket of a third of the bundle, soaked in the trough."""
    tank = soaking.add_tank(**hand, name="Trough")
    at, out = utc("2026-03-02 07:00"), utc("2026-03-07 07:00")
    batch = soaking.put_in(**hand, bundle=bundle, tank=tank, moment=Moment(at, at, ""), much=much("a third"))
    soaking.lift(**hand, batch=batch, moment=Moment(out, out, ""))
    made = baskets.make_basket(**hand, name="Log basket", made_on=day("2026-03-09"))
    batch.refresh_from_db()
    baskets.use_rods(**hand, basket=made, batch=batch, much=much("half"))
    return made


def test_a_bundles_story_is_told_in_order(pages, bundle, hand, day, sell, orla, basket, much):
    drying.weigh(**hand, bundle=bundle, on=day("2026-01-25"), mass=units.read_mass("5.1 kg"))
    sell("1 kg", on="2026-02-01", customer=orla)
    stock.take_out(**hand, bundle=bundle, on=day("2026-02-03"), purpose="gone", gone="mouse", much=much("a tenth"))
    text = pages.text("trace:bundle", bundle.uid)
    told = text[text.index("What happened to it") :]
    parts = [
        "Tied: graded from a cut, 6 kg, 100 rods", "Weighed: 5.1 kg", "1 kg taken out → sold to Orla Fenn",
        "a tenth taken out → mouse", "a third taken out → batch put in Trough", "Log basket",
    ]  # fmt: skip
    places = [told.index(part) for part in parts]
    assert places == sorted(places)


def test_a_bundle_shows_where_it_came_from(pages, bundle, cut):
    page = pages.open("trace:bundle", bundle.uid).content.decode()
    assert "winter 2025/26" in words(pages.open("trace:bundle", bundle.uid))
    for name, record in (("trace:cut", cut), ("beds:planting", cut.planting), ("beds:bed", cut.planting.bed)):
        assert pages.address(name, record.uid) in page


def test_parents_and_children_lead_to_each_other(pages, bundle, hand, day, much):
    making = stock.split(**hand, bundle=bundle, on=day("2026-03-01"), much=much("half"))
    child = making.bundles.get()
    assert (
        pages.address("people:record", "making", making.uid) in pages.open("trace:bundle", bundle.uid).content.decode()
    )
    assert pages.address("trace:bundle", child.uid) in pages.open("trace:bundle", bundle.uid).content.decode()
    page = pages.open("trace:bundle", child.uid)
    assert "Made from" in words(page)
    assert pages.address("trace:bundle", bundle.uid) in page.content.decode()


def test_an_empty_bundle_offers_a_count_and_no_taking(pages, bundle, sell):
    sell("the rest")
    page = pages.open("trace:bundle", bundle.uid).content.decode()
    assert pages.address("stock:count", bundle.uid) in page
    assert pages.address("stock:take_out", bundle.uid) not in page


def test_sisters_are_named(pages, bundle, hand, cut, day):
    sister = ground.tied(hand, cut, on=day("2026-01-11"))[0]
    bundles.stack_up(**hand, name="North wall", bundles=[bundle, sister], on=day("2026-01-12"), telltales=[sister])
    text = pages.text("trace:bundle", bundle.uid)
    assert "Dries in “North wall”" in text
    assert f"{sister.tag_shown} (tell-tale)" in text


def test_everything_that_became_of_a_cut(pages, bundle, cut, hand, day, sell, orla, basket, much):
    sell("1 kg", on="2026-02-01", customer=orla)
    making = stock.split(**hand, bundle=bundle, on=day("2026-03-10"), much=much("half"))
    child = making.bundles.get()
    stock.take_out(**hand, bundle=child, on=day("2026-03-11"), purpose="gone", gone="burnt", much=much("the rest"))
    text = pages.text("trace:cut", cut.uid)
    assert "What became of Pellock from Beck Side, winter 2025/26" in text
    for head, what in (("Sold", "sold to Orla Fenn"), ("Soaked", "Trough"), ("Woven", "Log basket"), ("Gone", "burnt")):
        assert what in text[text.index(head) :]
    assert bundle.tag_shown in text
    assert child.tag_shown in text


def test_a_mixed_bundle_is_a_part_of_each_cut(pages, bundle, cut, hand, day):
    other = ground.cut(hand, ground.planted(hand, variety="Merrow Red", bed="Top Carr"))
    second = ground.tied(hand, other, on=day("2026-01-15"), mass=units.read_mass("2 kg"))[0]
    stock.merge(**hand, bundles=[bundle, second], on=day("2026-03-01"))
    # 6 kg of one, 2 kg of the other: three quarters and a quarter.
    assert "three quarters of it from this cut" in pages.text("trace:cut", cut.uid)
    assert "a quarter of it from this cut" in pages.text("trace:cut", other.uid)


def test_a_tag_scanned_by_who_keeps_the_book_leads_to_the_bundle(pages, client, bundle):
    assert client.get(f"/t/{bundle.token}/").url == pages.address("trace:bundle", bundle.uid)


def test_a_tag_scanned_by_a_stranger_leads_to_its_sheet_only_while_it_is_shared(client, hand, bundle, day, ida, other):
    address = f"/t/{bundle.token}/"
    said = set()
    for stranger in (None, ida):
        client.force_login(stranger) if stranger else client.logout()
        answer = client.get(address)
        assert answer.status_code == 404
        assert "noindex" in answer["X-Robots-Tag"]
        unknown = client.get(f"/t/{uuid.uuid4()}/")
        said |= {words(answer) == words(unknown)}
    sheet = customers.share_sheet(**hand, bundle=bundle, today=day("2026-03-20"))
    answer = client.get(address, follow=True)
    assert "Pellock" in words(answer)
    customers.withdraw_sheet(**hand, sheet=sheet)
    assert client.get(address).status_code == 404
    assert said == {True}


def test_a_shared_variety_opens_no_bundle(client, hand, bundle, pellock, day):
    customers.share_sheet(**hand, variety=pellock, today=day("2026-03-20"))
    assert client.get(f"/t/{bundle.token}/").status_code == 404


def test_a_typed_tag_leads_to_its_bundle_and_a_mistyped_one_to_those_near(pages, bundle):
    answer = pages.client.get(pages.address("trace:tag"), {"code": bundle.tag_shown})
    assert answer.url == pages.address("trace:bundle", bundle.uid)
    first = (int(bundle.tag[0]) + 1) % 10
    near = pages.client.get(pages.address("trace:tag"), {"code": f"{first}{bundle.tag[1:]}"})
    assert near.status_code == 404
    assert "Perhaps one of these" in words(near)
    assert bundle.tag_shown in words(near)
    assert "has seven figures" in words(pages.client.get(pages.address("trace:tag"), {"code": "48"}))
    assert "Type a tag" in pages.text("trace:tag")


def test_another_holdings_bundle_and_cut_are_not_found(client, ida, other, bundle, cut):
    client.force_login(ida)
    for page in (f"bundle/{bundle.uid}/", f"cut/{cut.uid}/"):
        assert client.get(f"/nether-sallow/trace/{page}").status_code == 404
    assert client.get("/nether-sallow/trace/tag/", {"code": bundle.tag}).status_code == 404


def test_a_struck_out_sale_is_no_part_of_the_story(pages, bundle, sell, orla, wren, now):
    from growers.people.actions import strike_out

    line = sell(customer=orla)
    strike_out(record=line.sale, by=wren, reason="changed their mind", at=now)
    assert "Orla Fenn" not in pages.text("trace:bundle", bundle.uid)
