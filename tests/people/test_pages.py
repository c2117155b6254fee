"""The pages any record has, and the door of the book."""

import uuid

import pytest

from growers.beds import actions as beds
from growers.beds.models import Bed, Planting, Variety
from growers.furniture.much import read_much
from growers.people.models import Holding, Membership, Receipt
from growers.stock import actions as stock
from tests import ground
from tests.conftest import PASSWORD
from tests.pages import Pages, words


@pytest.fixture
def bed(hand):
    return beds.add_bed(**hand, name="Beck Side")


@pytest.fixture
def planting(hand, bed):
    return beds.plant(**hand, bed=bed, new_variety="Pellock", planted_year=2019)


def test_the_door_leads_to_the_only_book(client, holding):
    page = client.get("/", follow=True)
    assert page.redirect_chain[-1][0].startswith("/sign-in/")
    page = client.post("/sign-in/?next=/", {"username": "wren", "password": PASSWORD}, follow=True)
    assert page.redirect_chain[-1][0] == "/hallow-carr/"


def test_a_wrong_password_is_told_without_saying_which_was_wrong(client, holding):
    page = client.post("/sign-in/", {"username": "wren", "password": "nonsense"})
    assert page.status_code == 200
    assert "That name and password don't go together." in words(page)


def test_a_page_of_a_book_asks_who_you_are(client, holding):
    assert client.get("/hallow-carr/").headers["Location"].startswith("/sign-in/?next=/hallow-carr/")


def test_another_holding_is_no_book_of_mine(signed_in, other):
    assert signed_in.get("/nether-sallow/").status_code == 404


def test_two_books_are_chosen_from(signed_in, wren, other):
    Membership.objects.create(holding=other, user=wren)
    text = words(signed_in.get("/"))
    assert "Hallow Carr" in text
    assert "Nether Sallow" in text


def test_the_same_form_twice_is_one_record(signed_in, pages):
    sent = {"client_id": str(uuid.uuid4()), "name": "Beck Side"}
    first, second = (signed_in.post(pages.address("beds:add_bed"), sent) for _again in range(2))
    assert first.status_code == second.status_code == 302
    assert Bed.objects.count() == 1


def test_the_same_form_with_other_words_is_asked_about_and_nothing_is_lost(signed_in, pages):
    sent = {"client_id": str(uuid.uuid4()), "name": "Beck Side"}
    signed_in.post(pages.address("beds:add_bed"), sent)
    page = signed_in.post(pages.address("beds:add_bed"), sent | {"name": "Top Carr"})
    assert page.status_code == 422
    assert "kept already, with something else" in words(page)
    assert 'value="Top Carr"' in page.content.decode()
    again = page.context["form"]["client_id"].value()
    assert again != sent["client_id"]
    signed_in.post(pages.address("beds:add_bed"), {"client_id": again, "name": "Top Carr"})
    assert Bed.objects.count() == 2


def test_a_refused_form_leaves_no_receipt_and_keeps_what_was_typed(pages, bed):
    text = pages.refused("beds:add_bed", name="  beck SIDE ")
    assert "has a bed of that name already" in text
    assert not Receipt.objects.exists()


def test_who_only_looks_can_not_write(client, holding, ida, bed):
    Membership.objects.create(holding=holding, user=ida, role=Membership.Role.READER)
    client.force_login(ida)
    looking = Pages(client, holding.slug)
    assert "Beck Side" in looking.text("people:record", "bed", bed.uid)
    assert looking.send("beds:add_bed", name="Top Carr").status_code == 403
    assert looking.send("people:strike_out", "bed", bed.uid, reason="no").status_code == 403
    assert client.post(looking.address("people:take_back", "bed", bed.uid)).status_code == 403
    assert Bed.objects.of(holding).count() == 1


def test_a_record_is_struck_out_with_a_reason_and_put_back(pages, bed, holding):
    assert "This is needed" in pages.refused("people:strike_out", "bed", bed.uid, reason=" ")
    pages.keep("people:strike_out", "bed", bed.uid, reason="entered twice")
    assert not Bed.objects.of(holding).exists()
    text = pages.text("people:record", "bed", bed.uid)
    assert "by wren: entered twice" in text
    pages.keep("people:put_back", "bed", bed.uid)
    assert Bed.objects.of(holding).count() == 1


def test_what_stands_on_a_record_is_named_and_goes_only_if_asked(pages, bed, planting, holding):
    text = pages.refused("people:strike_out", "bed", bed.uid, reason="sold")
    assert "can't be struck out while this stands on it: Pellock – Beck Side" in text
    pages.keep("people:strike_out", "bed", bed.uid, reason="sold", with_what_stands_on_it="on")
    assert not Planting.objects.of(holding).exists()
    assert Variety.objects.of(holding).exists()


def test_kept_is_taken_back_with_one_tap(pages, signed_in, holding):
    page = signed_in.get(pages.keep("beds:add_bed", name="Beck Side").headers["Location"])
    bed = Bed.objects.get()
    address = pages.address("people:take_back", "bed", bed.uid)
    assert address in page.content.decode()
    signed_in.post(address)
    assert not Bed.objects.of(holding).exists()


def test_taken_back_on_its_own_page_leads_to_its_history(pages, signed_in, holding):
    page = pages.keep("beds:add_bed", name="Beck Side").headers["Location"]
    bed = Bed.objects.get()
    back = signed_in.post(
        pages.address("people:take_back", "bed", bed.uid), headers={"referer": f"https://testserver{page}"}, follow=True
    )
    assert back.status_code == 200
    assert "taken back at once" in words(back)


def test_several_are_taken_back_together_or_not_at_all(pages, signed_in, hand, holding):
    top, beck = (beds.add_bed(**hand, name=name) for name in ("Top Carr", "Beck Side"))
    beds.plant(**hand, bed=beck, new_variety="Pellock", planted_year=2019)
    page = signed_in.post(pages.address("people:take_back", "bed", f"{top.uid},{beck.uid}"), follow=True)
    assert "can't be struck out while this stands on it" in words(page)
    assert Bed.objects.of(holding).count() == 2


def test_of_much_that_stands_on_a_record_the_first_are_named_and_the_rest_counted(pages, bed, hand):
    for number in range(23):
        beds.plant(**hand, bed=bed, new_variety=f"Seedling {number + 1}", planted_year=2019)
    for page in ("record", "strike_out"):
        text = pages.text(f"people:{page}", "bed", bed.uid)
        assert "Seedling 20 – Beck Side and 3 more" in text
        assert "Seedling 21" not in text


def test_history_shows_who_changed_what(pages, bed, hand):
    beds.correct_bed(**hand, bed=bed, name="Beckside", why="spelling")
    text = pages.text("people:record", "bed", bed.uid)
    assert "Beck Side → Beckside" in text
    assert "spelling" in text
    assert "wren" in text


@pytest.mark.parametrize("kind", ["bed", "holding", "nonsense", "receipt", "historicalbed"])
def test_no_record_of_another_holding_or_of_no_kind_is_found(pages, signed_in, ida, other, kind):
    theirs = beds.add_bed(holding=other, by=ida, name="Their Bed")
    for page in ("record", "strike_out", "put_back"):
        assert signed_in.get(pages.address(f"people:{page}", kind, theirs.uid)).status_code == 404
    assert signed_in.post(pages.address("people:take_back", kind, theirs.uid)).status_code == 404
    assert signed_in.post(pages.address("people:take_back", "bed", "not-a-uid")).status_code == 404
    theirs.refresh_from_db()
    assert theirs.struck_out_at is None


def settings(**changed):
    return {
        "name": "Hallow Carr",
        "zone": "Europe/London",
        "hemisphere": "N",
        "winter_begins_month": "7",
        "mass_unit": "kg",
        "length_unit": "ft",
        "temperature_unit": "C",
        "currency": "GBP",
        "indoor_temperature_c": "20 C",
        "indoor_humidity": "50 %",
        "shrink_limit": "2",
    } | changed


def test_settings_are_kept_and_make_every_answer_stale(pages, holding):
    pages.keep("people:settings", **settings(indoor_temperature_c="68 F", shrink_limit="1.5", mass_unit="lb"))
    evidence_no = holding.evidence_no
    holding = Holding.objects.get()
    assert holding.indoor_temperature_c == pytest.approx(20)
    assert holding.shrink_limit == pytest.approx(0.015)
    assert holding.mass_unit == "lb"
    assert holding.evidence_no == evidence_no + 1


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"zone": "Mars/Base"}, "no time zone"),
        ({"shrink_limit": "0"}, "greater than or equal to 0.1"),
        ({"shrink_limit": "50"}, "less than or equal to 8.6"),
        ({"indoor_humidity": "120 %"}, "120"),
        ({"currency": "pounds"}, "Three capital letters"),
        ({"name": ""}, "needed"),
    ],
)
def test_settings_that_can_not_be_are_refused(pages, holding, changed, sentence):
    assert sentence in pages.refused("people:settings", **settings(**changed))
    assert Holding.objects.get().zone == "Europe/London"


def test_only_who_keeps_the_book_changes_its_settings(client, holding, tam):
    client.force_login(tam)
    assert client.get("/hallow-carr/settings/").status_code == 403


def test_understand_says_what_a_text_means(pages, clock):
    clock("2026-08-20 12:00")
    assert pages.text("people:understand", kind="mass", text="12 lb 3 oz").startswith("12 lb 3 oz = 5.53 kg")
    assert "Wed 19 Aug 2026" in pages.text("people:understand", kind="day", text="yesterday")
    assert pages.text("people:understand", kind="nonsense", text="1") == ""


def test_a_second_person_is_let_in_and_writes(pages, client, holding):
    said = {"username": "tam", "password": "carr-rods-and-rain", "role": "hand"}
    pages.keep("people:let_in", **said)
    tam = Membership.objects.get(user__username="tam")
    assert tam.user.check_password("carr-rods-and-rain")
    client.force_login(tam.user)
    Pages(client, holding.slug).keep("beds:add_bed", name="Top Carr")
    assert Bed.objects.get().made_by == tam.user
    assert client.get("/hallow-carr/hands/").status_code == 403


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"username": "tam", "password": "short"}, "too short"),
        ({"username": "tam", "password": ""}, "too short"),
        ({"username": "wren"}, "in this book already"),
        ({"username": "ida", "password": "another-password"}, "has a password already"),
        ({"username": "two words"}, "valid username"),
    ],
)
def test_who_can_not_be_let_in(pages, other, said, sentence):
    assert sentence in pages.refused("people:let_in", role="hand", **said)
    assert Membership.objects.filter(holding__slug="hallow-carr").count() == 1


def test_somebody_always_keeps_the_book(pages, tam, holding):
    wren = Membership.objects.get(user__username="wren", holding=holding)
    assert "Somebody must keep the book" in pages.refused("people:role", wren.pk, role="reader")
    theirs = Membership.objects.get(user=tam)
    pages.keep("people:role", theirs.pk, role="keeper")
    pages.keep("people:role", wren.pk, role="reader")
    wren.refresh_from_db()
    assert wren.role == "reader"


def test_a_person_of_another_book_is_out_of_reach(pages, other):
    theirs = Membership.objects.get(holding=other)
    assert pages.client.get(pages.address("people:role", theirs.pk)).status_code == 404


def test_what_was_struck_out_can_be_found_again(pages, bed):
    pages.keep("people:strike_out", "bed", bed.uid, reason="entered twice")
    text = pages.text("people:struck_out")
    assert "Beck Side" in text
    assert "entered twice" in text


def test_a_taking_is_corrected_by_the_stage_that_reads_it(pages, hand, planting, day):
    taking = stock.take_out(
        **hand,
        bundle=ground.tied(hand, ground.cut(hand, planting))[0],
        on=day("2026-02-01"),
        purpose="work",
        much=read_much("half"),
    )
    page = pages.open("people:record", "taking", taking.uid)
    assert pages.address("stock:correct_taking", taking.uid) in page.content.decode()
