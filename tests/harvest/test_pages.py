import pytest

from growers.beds.actions import note_health
from growers.harvest import actions
from growers.harvest.models import Cut, CuttingDay, GreenOut, LengthClass
from growers.people.models import Membership
from tests import ground

TODAY = "2026-01-10 09:00"


@pytest.fixture
def planting(hand):
    return ground.planted(hand)


def test_at_the_bed_each_tap_is_one_bundle(pages, clock, planting):
    clock(TODAY)
    for _tap in range(3):
        pages.keep("harvest:cut_today", planting.uid, came_off="bundles")
    pages.keep("harvest:cut_today", planting.uid, came_off="bundles", fault="rust")
    [cut] = Cut.objects.all()
    assert CuttingDay.objects.filter(cut=cut, bundles=1).count() == 4
    text = pages.text("harvest:cut_today", planting.uid)
    assert "Today so far: 3 bundles · 1 bundle (rust)" in text
    assert text.index("+1 bundle") < text.index("With a fault")
    assert "4 bundles" in text


def test_a_tap_can_be_taken_back(signed_in, pages, clock, holding, planting):
    clock(TODAY)
    answer = signed_in.get(pages.keep("harvest:cut_today", planting.uid, came_off="bundles").headers["Location"])
    page = answer.content.decode()
    assert "Take it back" in page
    day = CuttingDay.objects.get()
    signed_in.post(pages.address("people:take_back", "cuttingday", day.uid))
    assert not CuttingDay.objects.of(holding).exists()
    assert not Cut.objects.of(holding).exists()


def test_a_double_tap_counts_once(signed_in, pages, planting):
    sent = {"client_id": "5c9f4f0e-94b0-4c5a-9c3f-0a3e6d5f7a11", "came_off": "bundles"}
    for _tap in range(2):
        assert signed_in.post(pages.address("harvest:cut_today", planting.uid), sent).status_code == 302
    assert CuttingDay.objects.count() == 1


def test_what_was_seen_in_summer_is_shown_at_the_bed(pages, hand, planting, day):
    note_health(**hand, planting=planting, on=day("2025-07-01"), what="beetle", how_bad="bad")
    assert "beetle, bad" in pages.text("harvest:cut_today", planting.uid)


def test_the_same_day_again_is_asked_about_once(pages, clock, planting):
    clock(TODAY)
    said = {"on": "9 Jan", "bundles": "5", "age_years": "1", "mass": "40"}
    pages.keep("harvest:cut_day", planting.uid, **said)
    answer = pages.send("harvest:cut_day", planting.uid, **said)
    assert answer.status_code == 422
    form = answer.context["form"]
    assert "5 bundles" in str(form.questions)
    pages.keep("harvest:cut_day", planting.uid, **said, sure=form.sure)
    assert CuttingDay.objects.count() == 2
    assert "80 kg" in pages.text("harvest:cut", Cut.objects.get().uid)


def test_what_a_tired_person_types(pages, clock, hand, planting):
    clock(TODAY)
    said = {"on": "today", "age_years": "1"}
    assert "not come yet" in pages.refused("harvest:cut_day", planting.uid, **{**said, "on": "tomorrow"})
    assert "length" in pages.refused("harvest:cut_day", planting.uid, **said, mass="3 m")
    assert "before it was planted" in pages.refused("harvest:cut_day", planting.uid, **{**said, "on": "3 Jan 2017"})
    pages.keep("harvest:cut_day", planting.uid, **said, mass="31,5 kg")
    assert CuttingDay.objects.get().mass_kg == 31.5


def test_the_winters_board(pages, clock, hand, planting):
    clock(TODAY)
    ground.planted(hand, variety="Merrow Red", bed="Top Carr")
    ground.cut(hand, planting, bundles=4)
    text = pages.text("harvest:winter")
    assert "Winter 2025/26" in text
    assert "4 bundles" in text
    assert "still stands" in text
    assert "Winter 2025/26" in pages.text("harvest:winter", winter="nonsense")


def test_an_empty_board_leads_to_the_beds(pages):
    assert "To the beds" in pages.text("harvest:winter")


def test_green_rods_gone(pages, clock, hand, planting):
    clock(TODAY)
    cut = ground.cut(hand, planting)
    said = {"what": "sets", "where": "sold", "on": "today"}
    assert "how much" in pages.refused("harvest:green_out", cut.uid, **said)
    pages.keep("harvest:green_out", cut.uid, **said, pieces="50", whom="Orla Fenn")
    assert "50 pieces" in pages.text("harvest:cut", cut.uid)
    assert GreenOut.objects.get().whom == "Orla Fenn"


def test_lengths_usual_and_own(pages, holding):
    pages.keep("harvest:usual_lengths", system="20cm")
    assert LengthClass.objects.of(holding).count() == 10
    pages.keep("harvest:lengths", label="basket ends", min_m="18 in", max_m="2 ft")
    own = LengthClass.objects.get(label="basket ends")
    # 18 in = 0.4572 m, 2 ft = 0.6096 m.
    assert (round(own.min_m, 4), round(own.max_m, 4)) == (0.4572, 0.6096)
    assert "changed over" in pages.refused("harvest:lengths", label="odd", min_m="6 ft", max_m="5 ft")
    pages.keep("harvest:correct_lengthclass", own.uid, label="ends", min_m="45 cm", max_m="60 cm")
    assert "ends" in pages.text("harvest:lengths")


def test_correcting_a_day_keeps_what_was_typed(pages, clock, hand, planting, day):
    clock(TODAY)
    from growers.science.units import read_mass

    cut_day = actions.cut(**hand, planting=planting, on=day("2026-01-04"), bundles=3, mass=read_mass("12 lb 3 oz"))
    page = pages.open("harvest:correct_cuttingday", cut_day.uid).content.decode()
    assert "12 lb 3 oz" in page
    pages.keep("harvest:correct_cuttingday", cut_day.uid, on="3 Jan", bundles="4", mass="", why="counted again")
    cut_day.refresh_from_db()
    assert (cut_day.bundles, cut_day.mass_kg, cut_day.on) == (4, None, day("2026-01-03"))
    chosen = {"planting": planting.uid, "age_years": "2", "note": "forgotten last year"}
    pages.keep("harvest:correct_cut", cut_day.cut.uid, **chosen)
    assert "2 years" in pages.text("harvest:planting", planting.uid)


def test_readers_and_strangers(client, pages, hand, tam, ida, other, planting):
    cut = ground.cut(hand, planting)
    Membership.objects.filter(user=tam).update(role=Membership.Role.READER)
    client.force_login(tam)
    assert client.post(pages.address("harvest:cut_today", planting.uid), {"came_off": "bundles"}).status_code == 403
    client.force_login(ida)
    for address in (f"planting/{planting.uid}/", f"planting/{planting.uid}/cut/today/", f"cut/{cut.uid}/"):
        assert client.get(f"/nether-sallow/harvest/{address}").status_code == 404
