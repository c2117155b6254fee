import uuid

import pytest

from growers.beds import actions as beds
from growers.customers import actions
from growers.customers.models import Customer, SaleLine, Sheet
from growers.customers.queries import sheet_says
from growers.drying import actions as drying
from growers.people.models import Membership
from growers.science import units
from tests import ground
from tests.pages import words


@pytest.fixture(autouse=True)
def february(clock):
    clock("2026-02-05 12:00")


def test_selling_from_a_bundle(pages, bundle):
    typed = {"much": "2.3 kg", "new_customer": "Orla Fenn", "price": "23", "state_said": "green", "on": "today"}
    answer = pages.send("customers:sell", bundle.uid, **typed)
    assert answer.status_code == 302, words(answer)
    line = SaleLine.objects.get()
    assert (line.taking.share_ppb, str(line.price), line.state_said) == (383_333_333, "23.00", "green")
    text = pages.text("customers:sale", line.sale.uid)
    assert "Sold to Orla Fenn" in text
    assert "23.00 GBP" in text
    assert "2025/26" in text
    assert "Orla Fenn" in pages.text("customers:customers")
    assert "2.3 kg" in pages.text("customers:customer", line.sale.customer.uid)


def test_rods_not_known_to_be_dry_are_asked_about_before_they_are_sold_as_dry(pages, bundle):
    typed = {"much": "half", "state_said": "dry", "on": "today"}
    answer = pages.send("customers:sell", bundle.uid, **typed)
    assert "Sell it as dry?" in words(answer)
    assert not SaleLine.objects.exists()
    pages.keep("customers:sell", bundle.uid, **typed, sure=answer.context["form"].sure)
    assert SaleLine.objects.get().answer_said == "not_yet"


def test_dry_is_ticked_beforehand_only_where_the_book_counts_it_as_dry(pages, bundle, hand, day):
    def ticked(name, *args, **query):
        return pages.open(name, *args, **query).context["form"]["state_said"].value()

    assert ticked("customers:sell", bundle.uid) is None
    assert ticked("customers:sell_bundles", bundle=bundle.uid) is None
    assert "Tap one." in pages.refused("customers:sell", bundle.uid, much="half")
    drying.give_word(**hand, of=bundle, on=day("2026-02-04"), says="dry")
    assert ticked("customers:sell", bundle.uid) == "dry"
    assert ticked("customers:sell_bundles", bundle=bundle.uid) == "dry"


def test_the_growers_word_counts_for_a_sale(pages, bundle, hand, day):
    drying.give_word(**hand, of=bundle, on=day("2026-02-04"), says="dry")
    pages.keep("customers:sell", bundle.uid, much="half", state_said="dry", on="today")
    assert "You call it dry" in SaleLine.objects.get().how_known_said


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"much": ""}, "Say how much"),
        ({"much": "7 kg"}, "Say “the rest”"),
        ({"much": "2,3 kg", "on": "tomorrow"}, "has not come yet"),
        ({"much": "1 kg", "on": "9 Jan 2026"}, "not tied until"),
        ({"much": "1 kg", "price": "a lot"}, "not an amount of money"),
    ],
)
def test_what_a_tired_person_types_is_answered_beside_the_field(pages, bundle, typed, sentence):
    typed = {"state_said": "green", "on": "today", "new_customer": "Orla Fenn"} | typed
    answer = pages.send("customers:sell", bundle.uid, **typed)
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert 'value="Orla Fenn"' in answer.content.decode()
    assert not Customer.objects.exists()


def test_a_second_bundle_is_added_to_the_sale_by_its_tag(pages, bundle, hand, cut, sell, day):
    second = ground.tied(hand, cut, on=day("2026-01-12"))[0]
    sale = sell().sale
    answer = pages.client.get(pages.address("customers:more", sale.uid), {"code": second.tag_shown})
    assert answer.url == pages.address("customers:sell_more", sale.uid, second.uid)
    pages.keep("customers:sell_more", sale.uid, second.uid, much="half", state_said="green")
    assert SaleLine.objects.filter(sale=sale).count() == 2
    answer = pages.client.get(pages.address("customers:more", sale.uid), {"code": "12"}, follow=True)
    assert "No bundle has the tag" in words(answer)


def test_every_kind_can_be_corrected(pages, sell, orla):
    line = sell(customer=orla)
    for record in (orla, line.sale, line):
        name = f"customers:correct_{record.kind}"
        form = pages.open(name, record.uid).context["form"]
        shown = {field: form[field].value() for field in form.fields if field != "client_id"}
        pages.keep(name, record.uid, **{field: value for field, value in shown.items() if value is not None})
        assert record.history.count() == 2


def test_a_double_tap_is_one_sale(pages, bundle):
    sent = {"client_id": str(uuid.uuid4()), "much": "half", "state_said": "green", "on": "today"}
    for _tap in range(2):
        assert pages.client.post(pages.address("customers:sell", bundle.uid), sent).status_code == 302
    assert SaleLine.objects.count() == 1


def test_a_reader_may_not_sell(client, pages, bundle, tam):
    Membership.objects.filter(user=tam).update(role=Membership.Role.READER)
    client.force_login(tam)
    assert client.post(pages.address("customers:sell", bundle.uid), {"much": "half"}).status_code == 403


def test_another_holdings_customers_and_sheets_are_not_found(
    client, ida, other, bundle, orla, sell, hand, pellock, day
):
    sale = sell(customer=orla).sale
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-02-01"))
    client.force_login(ida)
    for page in (
        f"customer/{orla.uid}/", f"sale/{sale.uid}/", f"bundle/{bundle.uid}/sell/", f"bundle/{bundle.uid}/sheet/",
        f"variety/{pellock.uid}/sheet/", f"sheet/{sheet.uid}/withdraw/",
    ):  # fmt: skip
        assert client.get(f"/nether-sallow/customers/{page}").status_code == 404, page


def test_sharing_withdrawing_and_counting_the_looks(pages, pellock, client, clock):
    pages.keep("customers:variety_sheet", pellock.uid)
    sheet = Sheet.objects.get()
    address = f"/sheet/{sheet.token}/"
    assert address in pages.open("customers:variety_sheet", pellock.uid).content.decode()
    assert client.get(address).status_code == 200
    assert "Not looked at yet" in pages.text("customers:variety_sheet", pellock.uid)  # her own look does not count
    client.logout()
    client.get(address)
    sheet.refresh_from_db()
    assert sheet.looked_at == 1


def test_a_sheet_that_is_not_shared_says_nothing_more_than_one_that_never_was(client, hand, pellock, day, clock):
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-02-05"), expires_on=day("2026-02-06"))
    address = f"/sheet/{sheet.token}/"
    assert "Pellock" in words(client.get(address))
    clock("2026-02-07 12:00")
    expired = client.get(address)
    clock("2026-02-05 12:00")
    actions.withdraw_sheet(**hand, sheet=sheet)
    withdrawn = client.get(address)
    unknown = client.get(f"/sheet/{uuid.uuid4()}/")
    assert {answer.status_code for answer in (expired, withdrawn, unknown)} == {404}
    assert words(expired) == words(withdrawn) == words(unknown)
    assert "Pellock" not in words(withdrawn)


def test_links_can_not_be_guessed(hand, pellock, bundle, day):
    today = day("2026-02-05")
    tokens = [actions.share_sheet(**hand, today=today, **of).token for of in ({"variety": pellock}, {"bundle": bundle})]
    for token in tokens:
        assert token.version == 4  # 122 random bits
    assert not {*tokens} & {pellock.uid, bundle.uid, bundle.token}


def test_a_sheet_is_for_no_search_engine_and_no_cache(client, hand, pellock, day):
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-02-05"))
    for address in (f"/sheet/{sheet.token}/", f"/sheet/{uuid.uuid4()}/"):
        answer = client.get(address)
        assert "noindex" in answer["X-Robots-Tag"]
        assert '<meta name="robots" content="noindex' in answer.content.decode()
        assert "no-store" in answer["Cache-Control"]
        assert answer["Referrer-Policy"] == "no-referrer"


@pytest.fixture
def busy_book(hand, cut, bundle, sell, orla, day):
    """What a stranger must see nothing of: other varieties, beds, customers, stacks, tags, notes, people."""
    beds.correct_variety(
        **hand, variety=cut.planting.variety, name="Pellock", note="bad with rust", opinion="Kind to borders."
    )
    sell(customer=orla)
    other = ground.cut(hand, ground.planted(hand, variety="Merrow Red", bed="Top Carr"))
    others = ground.tied(hand, other, on=day("2026-01-15"), how_many=2)
    beds.correct_bed(**hand, bed=cut.planting.bed, name="Beck Side", note="the key is under the stone")
    return [other.tag for other in others] + [other.tag_shown for other in others]


SECRETS = ["Merrow Red", "Beck Side", "Top Carr", "Orla Fenn", "Nether Ford", "rust", "the stone", "wren", "Wren"]


@pytest.mark.parametrize("what", ["variety", "bundle"])
def test_a_sheet_shows_nothing_else_of_the_book(client, hand, busy_book, pellock, bundle, day, what):
    of = {"variety": pellock} if what == "variety" else {"bundle": bundle}
    sheet = actions.share_sheet(**hand, today=day("2026-02-05"), **of)
    page = client.get(f"/sheet/{sheet.token}/").content.decode()
    assert "Pellock" in page
    assert "Kind to borders." in page
    leaks = [secret for secret in [*SECRETS, *busy_book] if secret in page]
    assert leaks == []
    assert "/hallow-carr/" not in page


def test_a_sheet_does_not_name_the_sister_that_speaks_for_a_bundle(client, hand, cut, bundle, oven, day, clock):
    from growers.bundles import actions as bundles

    tale = ground.tied(hand, cut, on=day("2026-01-11"))[0]
    bundles.stack_up(**hand, name="North wall", bundles=[bundle, tale], on=day("2026-01-12"), telltales=[tale])
    oven("110 g", "100 g", "2026-11-10", of=tale)
    clock("2026-11-12 12:00")
    sheet = actions.share_sheet(**hand, bundle=bundle, today=day("2026-11-12"))
    page = client.get(f"/sheet/{sheet.token}/").content.decode()
    assert "by a bundle that dried beside it" in page
    assert tale.tag_shown not in page
    assert "North wall" not in page


def test_the_first_eight_parts_stand_in_their_order(client, hand, busy_book, bundle, day):
    sheet = actions.share_sheet(**hand, bundle=bundle, today=day("2026-02-05"))
    text = words(client.get(f"/sheet/{sheet.token}/"))
    heads = [
        "How long to soak", "How to know it is ready", "Then", "Is it dry, and of which winter", "What it is like",
        "Weight", "How we know", "Take care",
    ]  # fmt: skip
    places = [text.index(head) for head in heads]
    assert places == sorted(places)
    # 5 ft are 1.524 to 1.8288 m: five to six times 0.3048 m.
    assert "5 to 6 days" in text
    assert "2025/26" in text
    # 6 kg, 2.3 of it sold.
    assert "3.7 kg as weighed on" in text
    assert "only the rule" in text
    assert "not measured" in text


def test_a_sheet_in_the_readers_units(client, hand, bundle, day):
    sheet = actions.share_sheet(**hand, bundle=bundle, today=day("2026-02-05"))
    metric = words(client.get(f"/sheet/{sheet.token}/", {"units": "metric"}))
    imperial = words(client.get(f"/sheet/{sheet.token}/", {"units": "imperial"}))
    assert "152 cm to 183 cm" in metric
    assert "6 kg as weighed" in metric
    assert "5' to 6'" in imperial
    # 6 kg / 0.45359237 kg = 13.228 lb = 13 lb 3.6 oz
    assert "13 lb 4 oz as weighed" in imperial


def test_the_rule_at_the_readers_own_length(client, hand, pellock, bundle, day):
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-02-05"))
    text = words(client.get(f"/sheet/{sheet.token}/", {"length": "4'6", "water": "9 C"}))
    # 4.5 feet, a day each.
    assert "Rods of 4'6\": about 4½ days by the rule" in text
    assert "a weight is" not in text
    wrong = words(client.get(f"/sheet/{sheet.token}/", {"length": "9 kg"}))
    assert "a length is wanted" in wrong


def test_own_soaks_are_told_as_bounds(client, hand, pellock, bundle, day, utc, clock):
    from growers.furniture.moments import Moment
    from growers.furniture.much import read_much
    from growers.soaking import actions as soaking

    tank = soaking.add_tank(**hand, name="Trough")
    at = utc("2026-03-02 07:00")
    water = units.read_temperature("9 C")
    batch = soaking.put_in(
        **hand, bundle=bundle, tank=tank, moment=Moment(at, at, ""), much=read_much("half"), water=water
    )
    soaking.check_bend(**hand, batch=batch, at=utc("2026-03-05 19:00"), result="cracks")
    soaking.check_bend(**hand, batch=batch, at=utc("2026-03-07 07:00"), result="folds")
    clock("2026-03-08 12:00")
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-03-08"))
    text = words(client.get(f"/sheet/{sheet.token}/", {"water": "10 C"}))
    # In on the 2nd at 7, cracked on the 5th at 19: three and a half days; folded on the 7th at 7: five.
    assert "water at about 9 °C: not ready yet at 3½ days, folded by 5 days" in text
    assert "Soaks here in water like yours" in text
    assert "1 soak of this variety was written down here, of rods of the winter 2025/26, in water at about 9 °C" in text
    assert "That is thin" in text
    assert "Trough" not in text
    # What the bench says of the same soak stands in the same line: still one soak.
    soaking.lift(**hand, batch=batch, moment=Moment(utc("2026-03-07 07:00"), utc("2026-03-07 07:00"), ""))
    soaking.bench_result(**hand, lift=batch.lifts.get(), at=utc("2026-03-08 09:00"), result="right")
    told = sheet_says(sheet, day("2026-03-08"), "kg")
    assert (told.number, len(told.soaks)) == (1, 1)
    assert told.soaks[0].sentence == (
        "not ready yet at 3½ days, folded by 5 days; right at the bench, lifted after 5 days or less"
    )
    far = words(client.get(f"/sheet/{sheet.token}/", {"water": "18 C"}))
    assert "None of the soaks here was in water like yours" in far
