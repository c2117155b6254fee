import pytest

from growers.bundles import actions, queries
from growers.bundles.rules import with_check_digits
from growers.harvest import actions as harvest
from growers.science.units import read_mass, read_part
from tests import ground
from tests.ground import TIED_ON


@pytest.fixture
def planting(hand):
    return ground.planted(hand)


def test_a_tag_is_found_however_typed_and_a_mistyped_one_has_neighbours(hand, holding, other, planting):
    [bundle] = ground.tied(hand, ground.cut(hand, planting))
    tag = bundle.tag
    assert queries.by_tag(holding, f"{tag[:3]} {tag[3:5]}-{tag[5:]}") == bundle
    assert queries.by_tag(other, tag) is None
    wrong = tag[:2] + str((int(tag[2]) + 1) % 10) + tag[3:]
    assert queries.by_tag(holding, wrong) is None
    for mistyped in (wrong, tag[:-1], tag[:3] + "5" + tag[3:], tag[:5]):
        assert queries.near_tags(holding, mistyped) == [bundle], mistyped
    assert queries.near_tags(holding, "") == []


def test_a_tag_with_two_neighbours_changed_over(hand, holding, planting):
    [bundle] = ground.tied(hand, ground.cut(hand, planting))
    bundle.tag = with_check_digits(48217)
    bundle.save()
    assert queries.near_tags(holding, "4281774") == [bundle]


def test_the_balance_of_a_cut_in_green_weight(hand, planting, day):
    cut = ground.cut(hand, planting, mass=read_mass("100 kg"))
    for mass in ("20 kg", "30 kg"):
        ground.tied(hand, cut, mass=read_mass(mass))
    harvest.green_out(**hand, cut=cut, on=day("2026-01-02"), what="rods", where="sold", mass=read_mass("15 kg"))
    assert queries.balance_of(cut).open_kg is None  # the rejects are not said yet
    actions.finish_grading(**hand, cut=cut, on=day("2026-02-01"), rejects=read_part("a tenth"))
    balance = queries.balance_of(cut)
    # 100 - (20 + 30) - 15 - 10 = 25.
    assert (balance.bundles_kg, balance.rejects_kg, balance.open_kg, balance.over_kg) == (50.0, 10.0, 25.0, None)
    ground.tied(hand, cut, mass=read_mass("40 kg"))
    # 100 - 90 - 15 - 10 = -15.
    assert queries.balance_of(cut).over_kg == 15.0
    ground.tied(hand, cut)
    assert queries.balance_of(cut).open_kg is None  # one bundle was not weighed


def test_a_balance_needs_every_day_weighed(hand, planting, day):
    cut = ground.cut(hand, planting, mass=read_mass("100 kg"))
    harvest.cut(**hand, planting=planting, on=day("2026-01-04"), bundles=3)
    assert queries.balance_of(cut).came_off_kg is None


def test_the_tally_at_the_bench(hand, planting):
    cut = ground.cut(hand, planting)
    ground.tied(hand, cut, label="6 ft")
    ground.tied(hand, cut, label="4 ft", how_many=2, mass=read_mass("5 kg"))
    assert [(str(length), n, kg) for length, n, kg in queries.tally_of(cut)] == [("4 ft", 2, 10.0), ("6 ft", 1, None)]


def test_cuts_at_the_bench_until_they_are_finished(hand, holding, planting, day):
    cut = ground.cut(hand, planting)
    [at_bench] = queries.cuts_at_bench(holding, day("2026-02-01"))
    assert (at_bench, at_bench.tied) == (cut, 0)
    ground.tied(hand, cut, how_many=2)
    assert queries.cuts_at_bench(holding, day("2026-02-01"))[0].tied == 2
    actions.finish_grading(**hand, cut=cut, on=day("2026-02-01"))
    assert queries.cuts_at_bench(holding, day("2026-02-01")) == []


def test_what_lies_ungraded_is_asked_after_from_three_weeks(hand, holding, planting, day):
    cut = ground.cut(hand, planting, on=day("2025-12-28"))
    harvest.cut(**hand, planting=planting, on=day("2026-01-04"))
    # The last day of the cut counts: 4 + 21 = 25 January.
    assert queries.due(holding, today=day("2026-01-24"), now=None) == []
    [due] = queries.due(holding, today=day("2026-01-25"), now=None)
    assert (due.page, due.args, due.when) == ("bundles:bench_cut", (cut.uid,), day("2026-01-25"))
    assert queries.due(holding, today=day("2026-09-01"), now=None) == []
    ground.tied(hand, cut)
    assert queries.due(holding, today=day("2026-01-25"), now=None) == []


def test_rods_that_all_went_green_are_not_asked_after(hand, holding, planting, day):
    cut = ground.cut(hand, planting)
    harvest.green_out(**hand, cut=cut, on=day("2026-01-02"), what="sets", where="sold", pieces=500)
    assert queries.due(holding, today=day("2026-02-25"), now=None) == []


def test_a_find_is_asked_after_until_settled_or_used_up(hand, holding, planting, day):
    found = actions.find(**hand, on=TIED_ON, length_class=ground.length(hand))
    find = queries.origins_of(found)[0].find
    [due] = queries.due(holding, today=day("2026-02-01"), now=None)
    assert (due.page, due.args, due.tag) == ("bundles:settle", (find.uid,), found.tag)
    # Made into others it is still to be settled, by those.
    went_in = [actions.WentIn(found, 1_000_000_000, 1.0)]
    whole = [actions.NewBundle(1_000_000_000, ground.length(hand))]
    made = actions.make(**hand, what="regraded", on=TIED_ON, went_in=went_in, came_out=whole)
    [due] = queries.due(holding, today=day("2026-02-01"), now=None)
    assert (due.args, due.tag) == ((find.uid,), queries.came_out(made)[0].tag)
    actions.settle_find(**hand, find=find, variety=planting.variety)
    assert queries.due(holding, today=day("2026-02-01"), now=None) == []


def test_ancestry_takes_one_query_however_many_bundles(hand, planting, django_assert_num_queries):
    tied = ground.tied(hand, ground.cut(hand, planting), how_many=20)
    with django_assert_num_queries(1):
        ancestries = queries.ancestry_of(tied)
    assert {ancestries[bundle.pk].winters for bundle in tied} == {("2025/26",)}
