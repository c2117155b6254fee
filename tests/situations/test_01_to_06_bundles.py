"""Awkward situations at the bench and in the shed, one test a situation."""

from datetime import UTC, datetime

import pytest

from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.bundles.models import Bundle, Find, Taking
from growers.bundles.queries import ancestry_of, balance_of
from growers.bundles.rules import WHOLE
from growers.customers import actions as customers
from growers.drying import actions as drying
from growers.exchange.queries import doctor
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.harvest import actions as harvest
from growers.harvest.models import Cut
from growers.science import units
from growers.soaking import actions as soaking
from growers.soaking.queries import bounds_for
from growers.stock import actions as stock
from tests import ground

MONDAY, FRIDAY = datetime(2026, 9, 7, 17, tzinfo=UTC), datetime(2026, 9, 11, 17, tzinfo=UTC)


def exactly(at):
    return Moment(at, at, "")


def fresh(record):
    record.refresh_from_db()
    return record


@pytest.fixture
def pellock(hand):
    return ground.cut(hand, ground.planted(hand))


@pytest.fixture
def red(hand):
    return ground.cut(hand, ground.planted(hand, variety="Merrow Red", bed="Top Carr"))


@pytest.fixture
def trough(hand):
    return soaking.add_tank(**hand, name="Long trough")


def test_1_a_bundle_split_between_two_soaks(hand, pellock, trough):
    """6 kg: half into Monday's soak, half into Friday's; both lead back to the one cut and winter."""
    [bundle] = ground.tied(hand, pellock, mass=units.read_mass("6 kg"))
    monday = soaking.put_in(**hand, bundle=bundle, tank=trough, moment=exactly(MONDAY), much=read_much("3 kg"))
    friday = soaking.put_in(**hand, bundle=bundle, tank=trough, moment=exactly(FRIDAY), much=read_much("the rest"))
    assert monday.taking.share_ppb + friday.taking.share_ppb == WHOLE
    assert fresh(bundle).left_ppb == 0
    assert ancestry_of([bundle])[bundle.pk].winters == ("2025/26",)


def test_2_a_bundle_sorted_again(hand, pellock, day):
    """“5 ft” proves to be 4 ft and 5 ft and rejects: the parts make the whole, and the old tag stays in the story."""
    [bundle] = ground.tied(hand, pellock, mass=units.read_mass("12 kg"))
    outs = [
        stock.Out(ground.length(hand, "4 ft"), read_much("4 kg")),
        stock.Out(ground.length(hand, "5 ft"), read_much("7 kg")),
    ]
    making = stock.regrade(**hand, bundles=[bundle], on=day("2026-02-01"), outs=outs, rejects=read_much("1 kg"))
    four, five = making.bundles.order_by("pk")
    parts = [four.part_of_making_ppb, five.part_of_making_ppb, making.rejects_ppb]
    assert parts == pytest.approx([WHOLE * 4 / 12, WHOLE * 7 / 12, WHOLE * 1 / 12], abs=1)
    assert sum(parts) == WHOLE
    assert fresh(bundle).left_ppb == 0
    assert bundle.struck_out_at is None
    assert bundle.tag not in (four.tag, five.tag)


def test_3_ends_of_two_sorts_tied_together(hand, pellock, red, trough, day, holding):
    """Used and sold as mixed; neither variety learns from how it soaked."""
    [one], [two] = ground.tied(hand, pellock), ground.tied(hand, red)
    mixed = stock.merge(**hand, bundles=[one, two], on=day("2026-02-01")).bundles.get()
    soaking.whole_soak(
        **hand,
        bundle=mixed,
        tank=trough,
        went_in=exactly(MONDAY),
        came_out=exactly(FRIDAY),
        result="right",
        much=read_much("half"),
    )
    ancestry = ancestry_of([mixed])[mixed.pk]
    assert ancestry.mixed
    assert ancestry.variety is None
    for cut in (pellock, red):
        assert bounds_for(cut.planting.variety, "brown").number == 0


def test_4_a_bundle_without_a_tag(hand, pellock, day, holding):
    """Unknown, with a likely variety: no variety's until it is settled, and then that one's everywhere."""
    pellock_variety = pellock.planting.variety
    found = bundles.find(**hand, on=day("2026-07-05"), length_class=ground.length(hand), likely_variety=pellock_variety)
    half = stock.split(**hand, bundle=found, on=day("2026-07-06"), much=read_much("half")).bundles.get()
    before = ancestry_of([found, half])
    assert [before[b.pk].variety for b in (found, half)] == [None, None]
    assert before[found.pk].likely == pellock_variety
    bundles.settle_find(**hand, find=Find.objects.get(), variety=pellock_variety)
    after = ancestry_of([found, half])
    assert [after[b.pk].variety for b in (found, half)] == [pellock_variety] * 2


def test_5_the_wrong_variety_corrected_once(hand, pellock, trough, day):
    """Row 4 proves to be another sort after a soak: corrected at the planting, the soaks speak for the right one."""
    [bundle] = ground.tied(hand, pellock)
    soaking.whole_soak(
        **hand,
        bundle=bundle,
        tank=trough,
        went_in=exactly(MONDAY),
        came_out=exactly(FRIDAY),
        result="right",
        much=read_much("half"),
    )
    wrong, right = pellock.planting.variety, beds.add_variety(**hand, name="Sorrel Jack")
    assert bounds_for(wrong, "brown").number == 1
    beds.correct_planting(
        **hand, planting=pellock.planting, planted_year=2019, variety=right, bed=pellock.planting.bed, why="its catkins"
    )
    assert (bounds_for(wrong, "brown").number, bounds_for(right, "brown").number) == (0, 1)
    history = pellock.planting.history.order_by("-history_id").first()
    assert (history.history_change_reason, history.history_user) == ("its catkins", hand["by"])


def test_6_pounds_and_kilograms_without_drift(hand, pellock, day):
    """The sale scale reads pounds, the shed's kilograms: what was read stays, and both lead to the same share."""
    [bundle] = ground.tied(hand, pellock, mass=units.read_mass("13 lb 4 oz"))
    # 13.25 × 0.45359237 kg, exactly.
    assert bundle.tied_mass_kg == 13.25 * 0.45359237
    assert (bundle.tied_mass_text, bundle.tied_mass_unit) == ("13 lb 4 oz", "lb")
    there_and_back = units.read_mass(units.write_mass(bundle.tied_mass_kg, "lb"))
    assert there_and_back.value == bundle.tied_mass_kg
    taking = stock.take_out(
        **hand, bundle=bundle, on=day("2026-02-01"), purpose=Taking.Purpose.WORK, much=read_much("3.0050494513 kg")
    )
    assert taking.share_ppb == 500_000_000


def test_15_which_winter(hand, pellock, holding, day):
    """28 December and 4 January are one winter, named the same everywhere."""
    harvest.cut(**hand, planting=pellock.planting, on=day("2026-01-04"))
    [bundle] = ground.tied(hand, pellock)
    assert Cut.objects.count() == 1
    assert ancestry_of([bundle])[bundle.pk].winters == ("2025/26",)


def test_19_green_rods_and_sets_never_enter_the_dry_ledger(hand, pellock, day):
    said = {"what": "sets", "where": "sold", "pieces": 60, "mass": units.read_mass("1.2 kg")}
    harvest.green_out(**hand, cut=pellock, on=day("2026-02-15"), **said)
    assert not Bundle.objects.exists()
    assert not Taking.objects.exists()
    assert balance_of(pellock).green_out_kg == 1.2


def test_20_part_of_a_bundle_sold_by_weight(hand, pellock, day):
    """Labelled 6.1 kg in July, 5.9 in November when 2.3 are sold: 0.2 kg are store drift, not rods."""
    [bundle] = ground.tied(hand, pellock, mass=units.read_mass("12.2 kg"))
    drying.weigh(**hand, bundle=bundle, on=day("2026-07-12"), mass=units.read_mass("6.1 kg"))
    line = customers.sell(
        **hand,
        bundle=bundle,
        on=day("2026-11-10"),
        much=read_much("2.3 kg"),
        left_weighs=units.read_mass("3.6 kg"),
        new_customer="Orla Fenn",
    )
    assert line.taking.share_ppb == 389_830_508  # 2.3 / 5.9
    counted = stock.count(**hand, bundle=bundle, on=day("2026-11-10"), mass=units.read_mass("3.6 kg"), why="dried")
    assert counted.adjustment is None
    assert fresh(bundle).left_ppb == WHOLE - 389_830_508


def test_24_promised_is_not_sold_nor_promised_twice(hand, pellock, day):
    """Six bundles set aside for June's course; a customer wants them."""
    six = ground.tied(hand, pellock, how_many=6)
    for bundle in six:
        stock.promise(**hand, bundle=bundle, whom="June course", on=day("2026-05-01"), much=read_much("the rest"))
    for bundle in six:
        with pytest.raises(Refusal, match="June course"):
            stock.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day("2026-05-02"), much=read_much("half"))
        with pytest.raises(Refusal, match="June course"):
            stock.take_out(**hand, bundle=bundle, on=day("2026-05-02"), purpose="sale", much=read_much("half"))
        assert fresh(bundle).left_ppb == WHOLE
    assert doctor() == []
