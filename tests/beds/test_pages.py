import pytest

from growers.beds.models import Bed, HealthNote, Planting
from growers.people.models import Membership
from tests import ground


@pytest.fixture
def planting(hand):
    return ground.planted(hand, stools=300, rows="1 to 6")


def test_an_empty_book_says_what_to_do_first(pages):
    assert "Add a bed" in pages.text("beds:beds")
    assert "Add a variety" in pages.text("beds:varieties")


def test_from_a_bed_to_a_planting_with_a_new_variety(pages, holding):
    pages.keep("beds:add_bed", name="Top Carr", area_m2="400")
    bed = Bed.objects.get()
    pages.keep("beds:plant", bed.uid, new_variety="Long Hesper", planted_year="2019", stools="120", rows="1 to 3")
    text = pages.text("beds:bed", bed.uid)
    assert "Long Hesper" in text
    assert "120 stools" in text
    assert "planted 2019" in text


def test_what_a_tired_person_types(pages, planting):
    text = pages.refused("beds:plant", planting.bed.uid, new_variety="Merrow Red", planted_year="2091")
    assert "2091 has not come yet" in text
    assert (
        'value="Merrow Red"'
        in pages.send("beds:plant", planting.bed.uid, new_variety="Merrow Red", planted_year="19x").content.decode()
    )
    assert "not come yet" in pages.refused("beds:gap_up", planting.uid, on="tomorrow", stools="3")
    assert "is needed" in pages.refused("beds:add_bed", name="")
    assert "already" in pages.refused("beds:add_bed", name="beck side")


def test_a_planting_page_shows_what_was_seen(pages, planting):
    pages.keep("beds:note_health", planting.uid, what="rust", how_bad="bad", on="1 Jul 2026", note="north end")
    pages.keep("beds:gap_up", planting.uid, stools="40", on="1 Mar 2026")
    text = pages.text("beds:planting", planting.uid)
    assert "rust, bad. north end" in text
    assert "40 stools replaced" in text


def test_corrections_are_filled_in_and_keep_the_old(pages, planting):
    page = pages.open("beds:correct_planting", planting.uid).content.decode()
    assert 'value="1 to 6"' in page
    chosen = {"bed": planting.bed.uid, "variety": planting.variety.uid}
    pages.keep("beds:correct_planting", planting.uid, **chosen, planted_year="2018", stools="310", why="counted")
    planting.refresh_from_db()
    assert (planting.planted_year, planting.stools, planting.rows) == (2018, 310, "1 to 6")
    assert planting.history.earliest().planted_year == 2019


@pytest.mark.parametrize("kind", ["variety", "bed", "planting", "gapup", "healthnote"])
def test_every_kind_can_be_corrected(pages, hand, planting, day, kind):
    from growers.beds import actions

    records = {
        "variety": planting.variety,
        "bed": planting.bed,
        "planting": planting,
        "gapup": actions.gap_up(**hand, planting=planting, on=day("2026-03-01"), stools=4),
        "healthnote": actions.note_health(**hand, planting=planting, on=day("2026-07-01"), what="rust"),
    }
    record = records[kind]
    page = pages.open(f"beds:correct_{kind}", record.uid)
    shown = {name: page.context["form"][name].value() for name in page.context["form"].fields if name != "client_id"}
    pages.keep(
        f"beds:correct_{kind}", record.uid, **{name: value for name, value in shown.items() if value is not None}
    )
    assert record.history.count() == 2


def test_grubbed_out_stays_in_the_bed_story(pages, planting):
    pages.keep("beds:grub_out", planting.uid, on="1 Mar 2026")
    assert "Stood here before" in pages.text("beds:bed", planting.bed.uid)
    assert "Cut here today" not in pages.text("beds:planting", planting.uid)


def test_a_reader_may_look_and_not_write(client, pages, hand, holding, tam, planting):
    Membership.objects.filter(user=tam).update(role=Membership.Role.READER)
    client.force_login(tam)
    assert "Pellock" in pages.text("beds:beds")
    answer = client.post(pages.address("beds:add_bed"), {"name": "Top Carr"})
    assert answer.status_code == 403
    assert Bed.objects.count() == 1


def test_another_holding_gets_404(client, ida, other, planting, pages):
    client.force_login(ida)
    for name, uid in (("planting", planting.uid), ("bed", planting.bed.uid), ("variety", planting.variety.uid)):
        assert client.get(f"/nether-sallow/beds/{name}/{uid}/").status_code == 404
        assert client.get(f"/nether-sallow/beds/{name}/{uid}/correct/").status_code == 404
    assert client.get(pages.address("beds:beds")).status_code == 404


def test_a_double_tap_makes_one_note(signed_in, pages, planting):
    sent = {"client_id": "5c9f4f0e-94b0-4c5a-9c3f-0a3e6d5f7a11", "what": "rust", "how_bad": "bad", "on": "1 Jul 2026"}
    for _tap in range(2):
        assert signed_in.post(pages.address("beds:note_health", planting.uid), sent).status_code == 302
    assert HealthNote.objects.count() == 1
    assert Planting.objects.count() == 1
