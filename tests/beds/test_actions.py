import pytest

from growers.beds import actions
from growers.beds.models import HealthNote, Variety
from growers.furniture.refusals import Refusal
from growers.people.actions import put_back, strike_out
from tests import ground


@pytest.fixture
def planting(hand):
    return ground.planted(hand, stools=300, rows="1 to 6")


def test_a_variety_new_to_the_book_is_added_where_it_is_planted(hand, holding):
    planting = ground.planted(hand, variety="  Long   Hesper ")
    assert planting.variety.name == "Long Hesper"
    again = ground.planted(hand, variety="LONG HESPER", bed="Top Carr")
    assert again.variety == planting.variety
    assert Variety.objects.of(holding).count() == 1


def test_planting_needs_a_variety_and_only_one(hand, planting):
    with pytest.raises(Refusal) as refused:
        actions.plant(**hand, bed=planting.bed, planted_year=2020)
    assert refused.value.field == "variety"
    with pytest.raises(Refusal) as refused:
        actions.plant(**hand, bed=planting.bed, variety=planting.variety, new_variety="Merrow Red", planted_year=2020)
    assert refused.value.field == "new_variety"


def test_two_varieties_of_one_name_are_refused_however_it_is_spelt(hand):
    actions.add_variety(**hand, name="Grey Tansel")
    with pytest.raises(Refusal, match="that name already"):
        actions.add_variety(**hand, name="grey  TANSEL")


def test_a_struck_out_name_is_free_again_and_cannot_be_put_back_then(hand, wren):
    first = actions.add_bed(**hand, name="Beck Side")
    strike_out(record=first, by=wren, reason="twice", at=first.created_at)
    actions.add_bed(**hand, name="Beck Side")
    with pytest.raises(Refusal, match="that name already"):
        put_back(record=first, by=wren)


def test_the_year_comes_from_the_day_and_must_agree_with_it(hand, planting, day):
    planted = actions.plant(**hand, bed=planting.bed, variety=planting.variety, planted_on=day("2024-03-10"))
    assert planted.planted_year == 2024
    with pytest.raises(Refusal, match="not in the year"):
        actions.plant(
            **hand, bed=planting.bed, variety=planting.variety, planted_on=day("2024-03-10"), planted_year=2023
        )
    with pytest.raises(Refusal) as refused:
        actions.plant(**hand, bed=planting.bed, variety=planting.variety)
    assert refused.value.field == "planted_year"


def test_grubbing_out(hand, planting, day):
    with pytest.raises(Refusal, match="before it was planted"):
        actions.grub_out(**hand, planting=planting, on=day("2018-11-01"))
    actions.grub_out(**hand, planting=planting, on=day("2026-02-01"))
    with pytest.raises(Refusal, match="already"):
        actions.grub_out(**hand, planting=planting, on=day("2026-03-01"))


def test_a_planting_is_not_grubbed_out_before_its_last_cut(hand, planting, day):
    ground.cut(hand, planting, on=day("2026-02-10"))
    with pytest.raises(Refusal, match="still stood") as refused:
        actions.grub_out(**hand, planting=planting, on=day("2026-02-09"))
    assert refused.value.field == "on"
    planting.refresh_from_db()
    assert planting.grubbed_on is None
    actions.grub_out(**hand, planting=planting, on=day("2026-02-10"))


def test_a_planting_was_planted_before_its_first_cut(hand, planting, day):
    ground.cut(hand, planting, on=day("2025-12-28"))
    with pytest.raises(Refusal, match="planted before") as refused:
        actions.correct_planting(**hand, planting=planting, planted_year=2026)
    assert refused.value.field == "planted_year"
    actions.correct_planting(**hand, planting=planting, planted_year=2025)


def test_gapping_up_within_the_stools_that_stand(hand, planting, day):
    with pytest.raises(Refusal, match="Only 300 stools"):
        actions.gap_up(**hand, planting=planting, on=day("2026-03-01"), stools=301)
    gap = actions.gap_up(**hand, planting=planting, on=day("2026-03-01"), stools=40)
    with pytest.raises(Refusal, match="Only 300 stools"):
        actions.correct_gap_up(**hand, gapup=gap, on=gap.on, stools=400)
    assert actions.correct_gap_up(**hand, gapup=gap, on=gap.on, stools=14).stools == 14


def test_health_notes_are_of_a_time_when_the_planting_stood(hand, planting, day):
    actions.grub_out(**hand, planting=planting, on=day("2026-02-01"))
    with pytest.raises(Refusal, match="grubbed out"):
        actions.note_health(**hand, planting=planting, on=day("2026-06-01"), what="rust")
    note = actions.note_health(**hand, planting=planting, on=day("2025-06-01"), what="rust")
    corrected = actions.correct_health_note(**hand, healthnote=note, on=note.on, what="beetle", how_bad="bad", note="")
    assert (corrected.what, corrected.how_bad) == (HealthNote.What.BEETLE, HealthNote.HowBad.BAD)


def test_one_correction_of_a_variety_reaches_every_planting(hand, planting):
    other = ground.planted(hand, bed="Top Carr")
    actions.correct_variety(**hand, variety=planting.variety, name="Merrow Red", why="named wrong")
    other.refresh_from_db()
    assert other.variety.name == "Merrow Red"
    assert other.variety.history.count() == 2
