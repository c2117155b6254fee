from datetime import UTC, datetime

import pytest

from growers.bundles import actions as bundles
from growers.furniture.refusals import Refusal
from growers.harvest import actions
from growers.harvest.models import Cut, CuttingDay, LengthClass
from growers.harvest.queries import winter_of_cut
from growers.people.actions import StillStands, put_back, strike_out
from growers.science.units import read_mass
from tests import ground

AT = datetime(2026, 3, 1, 12, tzinfo=UTC)


@pytest.fixture
def planting(hand):
    return ground.planted(hand)


def struck_out(record, by, **kwargs):
    return strike_out(record=record, by=by, reason="wrong", at=AT, **kwargs)


def test_days_of_one_winter_are_one_cut(hand, planting, day):
    first = actions.cut(**hand, planting=planting, on=day("2026-01-04"), bundles=3)
    second = actions.cut(**hand, planting=planting, on=day("2025-12-28"), bundles=2, mass=read_mass("18 kg"))
    assert first.cut == second.cut
    cut = Cut.objects.get()
    # It begins on its earliest day, whichever was written first.
    assert cut.first_on == day("2025-12-28")
    assert winter_of_cut(cut) == "2025/26"
    assert (second.mass_kg, second.mass_text) == (18.0, "18 kg")


def test_another_winter_and_other_growth_are_cuts_of_their_own(hand, planting, day):
    one = actions.cut(**hand, planting=planting, on=day("2024-12-28"))
    two = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    sticks = actions.cut(**hand, planting=planting, on=day("2025-12-28"), age_years=2)
    assert len({one.cut_id, two.cut_id, sticks.cut_id}) == 3


def test_growth_is_reckoned_from_the_last_winter_cut(hand, planting, day):
    assert actions.cut(**hand, planting=planting, on=day("2023-12-28")).cut.age_years == 1
    # Not cut in 2024/25.
    assert actions.cut(**hand, planting=planting, on=day("2025-12-28")).cut.age_years == 2


def test_a_july_cut_in_the_south_is_that_years_winter(other, ida, day):
    other.hemisphere, other.winter_begins_month = "S", 1
    other.save()
    hand = {"holding": other, "by": ida}
    cut = ground.cut(hand, ground.planted(hand), on=day("2026-07-10"))
    assert winter_of_cut(cut) == "2026"


def test_nothing_is_cut_before_planting_or_after_grubbing_out(hand, planting, day):
    with pytest.raises(Refusal, match="before it was planted"):
        actions.cut(**hand, planting=planting, on=day("2018-12-01"))
    from growers.beds.actions import grub_out

    grub_out(**hand, planting=planting, on=day("2026-01-10"))
    with pytest.raises(Refusal, match="grubbed out"):
        actions.cut(**hand, planting=planting, on=day("2026-01-11"))
    actions.cut(**hand, planting=planting, on=day("2026-01-10"))


def test_the_first_day_follows_its_living_days(hand, wren, planting, day):
    early = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    late = actions.cut(**hand, planting=planting, on=day("2026-01-04"))
    struck_out(early, wren)
    assert Cut.objects.get().first_on == day("2026-01-04")
    put_back(record=early, by=wren)
    assert Cut.objects.get().first_on == day("2025-12-28")
    actions.correct_cutting_day(**hand, cuttingday=late, on=day("2025-12-20"), bundles=1)
    assert Cut.objects.get().first_on == day("2025-12-20")


def test_a_cut_without_any_day_left_was_never_made(hand, wren, holding, planting, day):
    only = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    struck_out(only, wren)
    assert not Cut.objects.of(holding).exists()
    put_back(record=Cut.objects.get(), by=wren)
    assert CuttingDay.objects.of(holding).get() == only


def test_striking_out_a_cut_takes_its_days_along_and_back(hand, wren, holding, planting, day):
    for on in ("2025-12-28", "2026-01-04", "2026-01-02"):
        day_cut = actions.cut(**hand, planting=planting, on=day(on))
    struck_out(day_cut.cut, wren)
    assert not CuttingDay.objects.of(holding).exists()
    put_back(record=day_cut.cut, by=wren)
    assert CuttingDay.objects.of(holding).count() == 3
    assert Cut.objects.of(holding).get().first_on == day("2025-12-28")


def test_a_cut_with_bundles_keeps_its_first_day_before_them(hand, wren, planting, day):
    early = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    actions.cut(**hand, planting=planting, on=day("2026-02-04"))
    ground.tied(hand, early.cut, on=day("2026-01-20"))
    with pytest.raises(Refusal, match="tied from this cut"):
        struck_out(early, wren)
    early.refresh_from_db()
    assert early.struck_out_at is None
    with pytest.raises(Refusal, match="tied from this cut"):
        actions.correct_cutting_day(**hand, cuttingday=early, on=day("2026-01-21"))
    actions.correct_cutting_day(**hand, cuttingday=early, on=day("2026-01-20"))
    assert Cut.objects.get().first_on == day("2026-01-20")


def test_a_cut_with_bundles_is_not_struck_out_under_them(hand, wren, planting):
    cut = ground.cut(hand, planting)
    ground.tied(hand, cut)
    with pytest.raises(StillStands):
        struck_out(cut, wren)


def test_a_day_of_another_winter_goes_to_that_winters_cut(hand, holding, planting, day):
    old = actions.cut(**hand, planting=planting, on=day("2024-12-20"))
    typed_wrong = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    corrected = actions.correct_cutting_day(**hand, cuttingday=typed_wrong, on=day("2024-12-28"), bundles=4)
    assert corrected.cut == old.cut
    # The cut that the wrong date had begun has no day left.
    assert Cut.objects.of(holding).get() == old.cut


def test_the_only_day_of_a_cut_takes_its_cut_to_the_right_winter(hand, holding, planting, day):
    only = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    actions.correct_cutting_day(**hand, cuttingday=only, on=day("2024-12-28"))
    cut = Cut.objects.of(holding).get()
    assert winter_of_cut(cut) == "2024/25"


def test_a_cut_can_prove_to_be_of_another_planting(hand, planting, day):
    cut = ground.cut(hand, planting)
    red = ground.planted(hand, variety="Merrow Red", bed="Top Carr")
    actions.correct_cut(**hand, cut=cut, planting=red, age_years=1)
    assert Cut.objects.get().planting == red
    young = ground.planted(hand, variety="Long Hesper", bed="Top Carr", planted_year=2026)
    with pytest.raises(Refusal, match="before it was planted") as refused:
        actions.correct_cut(**hand, cut=cut, planting=young, age_years=1)
    assert refused.value.field == "planting"
    ground.cut(hand, planting)
    with pytest.raises(Refusal, match="correct the days there"):
        actions.correct_cut(**hand, cut=cut, planting=planting, age_years=1)


def test_green_rods_leave_after_the_cut_and_say_how_much(hand, planting, day):
    cut = ground.cut(hand, planting)
    with pytest.raises(Refusal, match="not cut until"):
        actions.green_out(**hand, cut=cut, on=day("2025-12-01"), what="sets", where="sold", pieces=50)
    with pytest.raises(Refusal, match="how much"):
        actions.green_out(**hand, cut=cut, on=day("2026-01-02"), what="sets", where="sold")
    gone = actions.green_out(
        **hand, cut=cut, on=day("2026-01-02"), what="sets", where="sold", pieces=50, whom="Orla Fenn"
    )
    gone = actions.correct_green_out(
        **hand, greenout=gone, on=gone.on, what="rods", where="sold", mass=read_mass("4,5 kg"), whom="", note=""
    )
    assert (gone.pieces, gone.mass_kg) == (None, 4.5)


def test_the_usual_lengths_are_made_once(hand, holding):
    actions.add_length(**hand, label="5 FT", min_m=1.5, max_m=1.8)
    made = actions.usual_lengths(**hand)
    # 3 to 9 ft are seven; 5 ft was there.
    assert len(made) == 6
    assert LengthClass.objects.of(holding).count() == 7
    with pytest.raises(Refusal, match="already"):
        actions.usual_lengths(**hand)


def test_a_length_runs_from_shorter_to_longer(hand):
    with pytest.raises(Refusal, match="shorter to the longer"):
        actions.add_length(**hand, label="odd", min_m=2, max_m=1)


def test_a_corrected_cut_gives_new_evidence_to_its_bundles(hand, planting, day):
    cut_day = actions.cut(**hand, planting=planting, on=day("2025-12-28"))
    [bundle] = bundles.tie(**hand, cut=cut_day.cut, on=day("2026-01-20"), length_class=ground.length(hand))
    actions.correct_cutting_day(**hand, cuttingday=cut_day, on=day("2025-12-20"))
    before = bundle.evidence_no
    bundle.refresh_from_db()
    assert bundle.evidence_no > before
