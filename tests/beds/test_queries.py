from growers.beds import actions, queries
from tests import ground


def test_a_replanted_bed_shows_what_stands_and_what_stood(hand, holding, day):
    old = ground.planted(hand, planted_year=2010)
    actions.grub_out(**hand, planting=old, on=day("2025-03-01"))
    new = ground.planted(hand, variety="Merrow Red", planted_year=2025)
    [now] = queries.beds_now(holding, day("2026-11-25"))
    assert now.standing == [new]
    assert now.before == [old]
    # 2026 - 2025 = 1; grubbed out in 2025, so 2025 - 2010 = 15.
    assert [now.standing[0].age_years, now.before[0].age_years] == [1, 15]


def test_it_still_stands_on_the_eve_of_grubbing_out(hand, holding, day):
    planting = ground.planted(hand)
    actions.grub_out(**hand, planting=planting, on=day("2026-03-01"))
    assert list(queries.standing(holding, day("2026-02-28"))) == [planting]
    assert list(queries.standing(holding, day("2026-03-01"))) == []


def test_something_bad_is_looked_at_again_after_a_fortnight(hand, holding, day):
    planting = ground.planted(hand)
    actions.note_health(**hand, planting=planting, on=day("2026-07-01"), what="rust", how_bad="bad")
    actions.note_health(**hand, planting=planting, on=day("2026-07-01"), what="aphid", how_bad="some")
    assert queries.due(holding, today=day("2026-07-14"), now=None) == []
    [due] = queries.due(holding, today=day("2026-07-15"), now=None)
    assert "rust" in due.sentence
    assert (due.page, due.args) == ("beds:note_health", (planting.uid,))
    actions.note_health(**hand, planting=planting, on=day("2026-07-15"), what="rust", how_bad="little")
    assert queries.due(holding, today=day("2026-07-30"), now=None) == []


def test_another_holding_sees_nothing_of_it(hand, other, day):
    ground.planted(hand)
    assert queries.beds_now(other, day("2026-11-25")) == []
    assert queries.varieties_now(other, day("2026-11-25")) == []
