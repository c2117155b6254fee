from growers.beds.actions import grub_out
from growers.harvest import actions, queries
from growers.science.units import read_mass
from tests import ground


def test_the_board_of_a_winter(hand, holding, day):
    pellock = ground.planted(hand)
    red = ground.planted(hand, variety="Merrow Red", bed="Top Carr")
    young = ground.planted(hand, variety="Long Hesper", bed="Top Carr", planted_year=2026)
    actions.cut(**hand, planting=pellock, on=day("2025-12-28"), bundles=4, mass=read_mass("30 kg"), fault="rust")
    actions.cut(**hand, planting=pellock, on=day("2026-01-04"), bundles=3, armfuls=2)
    rows = {row.planting: row for row in queries.winter_board(holding, "2025/26")}
    [cut] = rows[pellock].cuts
    # 4 + 3 bundles; only the first day was weighed.
    assert (cut.bundles, cut.armfuls, cut.mass_kg, cut.some_unweighed) == (7, 2, 30.0, True)
    assert cut.faults == ["rust"]
    assert cut.dates == [day("2025-12-28"), day("2026-01-04")]
    assert rows[red].stands
    # Planted in spring 2026, it had no rods in the winter before.
    assert young not in rows
    assert young in {row.planting for row in queries.winter_board(holding, "2026/27")}


def test_what_was_grubbed_out_before_is_not_on_the_board(hand, holding, day):
    planting = ground.planted(hand)
    grub_out(**hand, planting=planting, on=day("2025-03-01"))
    assert queries.winter_board(holding, "2025/26") == []
    assert len(queries.winter_board(holding, "2024/25")) == 1


def test_what_still_stands_is_named_late_in_winter(hand, holding, day):
    pellock = ground.planted(hand)
    red = ground.planted(hand, variety="Merrow Red", bed="Top Carr")
    assert queries.due(holding, today=day("2026-02-10"), now=None) == []  # nothing is cut by this book
    ground.cut(hand, pellock)
    assert queries.due(holding, today=day("2026-01-31"), now=None) == []
    [due] = queries.due(holding, today=day("2026-02-10"), now=None)
    assert due.args == (red.uid,)
    assert not due.urgent
    assert queries.due(holding, today=day("2026-03-10"), now=None)[0].urgent


def test_in_the_south_late_winter_is_august(other, ida, day):
    other.hemisphere, other.winter_begins_month = "S", 1
    other.save()
    hand = {"holding": other, "by": ida}
    ground.cut(hand, ground.planted(hand), on=day("2026-07-10"))
    ground.planted(hand, variety="Merrow Red")
    assert queries.due(other, today=day("2026-02-10"), now=None) == []
    assert len(queries.due(other, today=day("2026-08-10"), now=None)) == 1


def test_many_that_stand_are_one_line(hand, holding, day):
    ground.cut(hand, ground.planted(hand))
    for n in range(6):
        ground.planted(hand, bed=f"Carr {n}")
    [due] = queries.due(holding, today=day("2026-02-10"), now=None)
    assert due.page == "harvest:winter"
    assert "6 plantings" in due.sentence


def test_winters_that_were_cut_and_this_one(hand, holding, day):
    ground.cut(hand, ground.planted(hand), on=day("2024-01-05"))
    assert queries.winters(holding, day("2026-11-25")) == ["2026/27", "2023/24"]
