from datetime import UTC, datetime

import pytest

from growers.bundles import actions, queries
from growers.bundles.actions import NewBundle, WentIn
from growers.bundles.models import Bundle, Grading, Move, Origin, Purchase, Taking
from growers.bundles.rules import WHOLE, is_tag
from growers.furniture.refusals import Refusal
from growers.harvest import actions as harvest
from growers.people.actions import put_back, strike_out
from growers.science.units import read_mass, read_part
from tests import ground
from tests.ground import CUT_ON, TIED_ON

AT = datetime(2026, 6, 1, 12, tzinfo=UTC)


@pytest.fixture
def pellock(hand):
    return ground.cut(hand, ground.planted(hand))


@pytest.fixture
def merrow(hand):
    return ground.cut(hand, ground.planted(hand, variety="Merrow Red", bed="Top Carr"))


def fresh(bundle):
    return Bundle.objects.get(pk=bundle.pk)


def parts_of(bundle):
    """The living origins of a bundle: {variety or source: parts}."""
    return {str(queries.variety_of(origin)): origin.part_ppb for origin in queries.origins_of(bundle)}


def split(hand, bundle, share_ppb=WHOLE // 2, on=None, lengths=("4 ft", "5 ft"), **said):
    """Some of a bundle made into two halves."""
    halves = [NewBundle(WHOLE // 2, ground.length(hand, label)) for label in lengths]
    making = actions.make(
        **hand, what="split", on=on or TIED_ON, went_in=[WentIn(bundle, share_ppb, 1.0)], came_out=halves, **said
    )
    return queries.came_out(making)


class TestTying:
    def test_bundles_with_tags_and_their_cut(self, hand, holding, pellock):
        tied = ground.tied(hand, pellock, how_many=3, mass=read_mass("6 kg"), rods=240, thickness="fine")
        assert len({bundle.tag for bundle in tied}) == 3
        assert all(is_tag(bundle.tag) for bundle in tied)
        assert all(parts_of(bundle) == {"Pellock": WHOLE} for bundle in tied)
        assert {(b.tied_mass_kg, b.tied_rods, b.left_ppb, b.type, b.age_years) for b in tied} == {
            (6.0, 240, WHOLE, "brown", 1)
        }
        assert Grading.objects.of(holding).get().began_on == TIED_ON

    def test_not_before_the_cut(self, hand, pellock, day):
        with pytest.raises(Refusal, match="not cut until") as refused:
            ground.tied(hand, pellock, on=day("2025-12-27"))
        assert refused.value.field == "on"
        with pytest.raises(Refusal, match="1 to 200"):
            ground.tied(hand, pellock, how_many=0)

    def test_two_year_rods_stay_so(self, hand, day):
        sticks = ground.cut(hand, ground.planted(hand), age_years=2)
        assert ground.tied(hand, sticks)[0].age_years == 2

    def test_bundles_are_put_where_told(self, hand, holding, pellock):
        loft = actions.add_place(**hand, name="Hay Loft", cover="loft")
        [bundle] = ground.tied(hand, pellock, place=loft)
        assert list(Bundle.objects.of(holding).standing_in(loft)) == [bundle]

    def test_grading_is_left_finished_and_taken_up_again(self, hand, pellock, day):
        with pytest.raises(Refusal, match="Nothing has been tied"):
            actions.finish_grading(**hand, cut=pellock, on=day("2026-02-01"))
        ground.tied(hand, pellock, on=day("2026-01-20"))
        ground.tied(hand, pellock, on=day("2026-01-10"))
        grading = Grading.objects.get()
        assert grading.began_on == day("2026-01-10")
        with pytest.raises(Refusal, match="was tied from it"):
            actions.finish_grading(**hand, cut=pellock, on=day("2026-01-15"))
        with pytest.raises(Refusal, match="not both"):
            actions.finish_grading(
                **hand, cut=pellock, on=day("2026-02-01"), rejects=read_part("half"), rejects_mass=read_mass("3 kg")
            )
        grading = actions.finish_grading(**hand, cut=pellock, on=day("2026-02-01"), rejects=read_part("a tenth"))
        assert (grading.rejects_part_ppb, grading.rejects_text) == (100_000_000, "a tenth")
        ground.tied(hand, pellock, on=day("2026-01-25"))
        grading.refresh_from_db()
        assert grading.closed_on == day("2026-02-01")  # a bundle forgotten then is no new beginning
        ground.tied(hand, pellock, on=day("2026-02-10"))
        grading.refresh_from_db()
        assert grading.closed_on is None

    def test_a_bundle_tied_by_mistake(self, hand, wren, holding, pellock):
        loft = actions.add_place(**hand, name="Hay Loft")
        [bundle] = ground.tied(hand, pellock, place=loft)
        strike_out(record=bundle, by=wren, reason="not tied", at=AT)
        for model in (Bundle, Origin, Move):
            assert not model.objects.of(holding).exists()
        put_back(record=bundle, by=wren)
        assert parts_of(bundle) == {"Pellock": WHOLE}
        assert list(Bundle.objects.of(holding).standing_in(loft)) == [bundle]

    def test_its_day_stays_between_the_cut_and_what_was_done_with_it(self, hand, pellock, day):
        loft = actions.add_place(**hand, name="Hay Loft")
        [bundle] = ground.tied(hand, pellock, on=day("2026-01-20"), place=loft)
        with pytest.raises(Refusal, match="not cut until"):
            actions.correct_bundle(**hand, bundle=bundle, tied_on=day("2025-12-27"))
        actions.take(**hand, bundle=bundle, on=day("2026-02-01"), purpose="work", share_ppb=WHOLE // 4, said_how="part")
        with pytest.raises(Refusal, match="Something was done"):
            actions.correct_bundle(**hand, bundle=fresh(bundle), tied_on=day("2026-02-02"))
        actions.correct_bundle(**hand, bundle=fresh(bundle), tied_on=day("2026-01-25"), mass=read_mass("13 lb"))
        # It was put in the loft on the day it was tied, whichever that was.
        assert Move.objects.get().on == day("2026-01-25")
        bundle = fresh(bundle)
        assert (bundle.tied_mass_text, bundle.left_ppb) == ("13 lb", 750_000_000)
        actions.correct_bundle(**hand, bundle=bundle, clear_mass=True)
        assert fresh(bundle).tied_mass_kg is None


class TestFromOutside:
    def test_bought_in(self, hand, holding, pellock):
        red = ground.planted(hand, variety="Merrow Red").variety
        bought = actions.buy_in(
            **hand, supplier=" Ida  Rushby ", on=TIED_ON, length_class=ground.length(hand), variety=red,
            told_winter="2024/25", how_many=2, mass=read_mass("5 kg"),
        )  # fmt: skip
        assert Purchase.objects.get().supplier == "Ida Rushby"
        of = queries.ancestry_of(bought)[bought[0].pk]
        assert (of.variety, of.winters, of.mixed) == (red, ("2024/25",), False)
        with pytest.raises(Refusal, match="1 to 200"):
            actions.buy_in(**hand, supplier="Ida", on=TIED_ON, length_class=ground.length(hand), how_many=999)

    def test_a_corrected_day_of_buying_is_its_bundles_day(self, hand, day):
        [bought] = actions.buy_in(**hand, supplier="Ida", on=TIED_ON, length_class=ground.length(hand))
        actions.correct_purchase(
            **hand, purchase=Purchase.objects.get(), supplier="Ida Rushby", on=day("2026-01-18"), told_winter="2025/26"
        )
        assert fresh(bought).tied_on == day("2026-01-18")

    def test_found_and_settled(self, hand, pellock):
        likely = pellock.planting.variety
        found = actions.find(**hand, on=TIED_ON, length_class=ground.length(hand), likely_variety=likely)
        of = queries.ancestry_of([found])[found.pk]
        assert (of.variety, of.likely, of.name) == (None, likely, "unknown, likely Pellock")
        # What was made from it meanwhile is settled with it.
        child = split(hand, found)[0]
        assert queries.ancestry_of([child])[child.pk].variety is None
        red = ground.planted(hand, variety="Merrow Red").variety
        actions.settle_find(**hand, find=queries.origins_of(found)[0].find, variety=red, why="by its buds")
        ancestries = queries.ancestry_of([found, child])
        assert {ancestries[bundle.pk].variety for bundle in (found, child)} == {red}


class TestMaking:
    def test_halves_of_a_half(self, hand, pellock):
        [bundle] = ground.tied(hand, pellock)
        children = split(hand, bundle, share_ppb=500_000_000)
        assert fresh(bundle).left_ppb == 500_000_000
        assert [child.left_ppb for child in children] == [WHOLE, WHOLE]
        assert all(parts_of(child) == {"Pellock": WHOLE} for child in children)
        assert [str(child.length_class) for child in children] == ["4 ft", "5 ft"]

    def test_a_mixture_of_a_mixture(self, hand, pellock, merrow):
        """2 kg of Pellock with 1 kg of Merrow Red, then that with as much again of Merrow Red."""
        [first], [second] = ground.tied(hand, pellock), ground.tied(hand, merrow)
        whole = [NewBundle(WHOLE, ground.length(hand))]
        went_in = [WentIn(first, 400_000_000, 2.0), WentIn(second, 200_000_000, 1.0)]
        [mixed] = queries.came_out(actions.make(**hand, what="merged", on=TIED_ON, went_in=went_in, came_out=whole))
        # 2/3 and 1/3 of 1,000,000,000: the odd part goes to the larger remainder, .67.
        assert parts_of(mixed) == {"Pellock": 666_666_667, "Merrow Red": 333_333_333}
        assert [taking.part_of_making_ppb for taking in queries.went_in(mixed.making)] == [666_666_667, 333_333_333]
        went_in = [WentIn(mixed, WHOLE, 3.0), WentIn(fresh(second), 600_000_000, 3.0)]
        [again] = queries.came_out(actions.make(**hand, what="merged", on=TIED_ON, went_in=went_in, came_out=whole))
        # Pellock: half of 666,666,667 = 333,333,333.5; Merrow Red: half of 333,333,333 and a half: 666,666,666.5.
        # Equal remainders: the odd part goes to the earlier, Pellock.
        assert parts_of(again) == {"Pellock": 333_333_334, "Merrow Red": 666_666_666}
        of = queries.ancestry_of([again])[again.pk]
        assert of.mixed
        assert of.variety is None
        # By share: 0.4 gone of the first; 0.2 + 0.6 of the second.
        assert (fresh(first).left_ppb, fresh(second).left_ppb) == (600_000_000, 200_000_000)

    def test_what_came_out_and_was_lost_makes_the_whole(self, hand, pellock):
        [bundle] = ground.tied(hand, pellock)
        out = [NewBundle(600_000_000, ground.length(hand), type="white")]
        said = {"what": "white", "on": TIED_ON, "went_in": [WentIn(bundle, WHOLE, 1.0)], "came_out": out}
        with pytest.raises(Refusal, match="add up"):
            actions.make(**hand, **said, rejects_ppb=100_000_000, bark_ppb=200_000_000)
        making = actions.make(**hand, **said, rejects_ppb=100_000_000, bark_ppb=300_000_000)
        [white] = queries.came_out(making)
        assert (white.type, white.part_of_making_ppb) == ("white", 600_000_000)

    def test_nothing_goes_in(self, hand, pellock):
        whole = [NewBundle(WHOLE, ground.length(hand))]
        with pytest.raises(Refusal, match="which bundles"):
            actions.make(**hand, what="merged", on=TIED_ON, went_in=[], came_out=whole)

    def test_no_more_than_there_is(self, hand, pellock):
        [bundle] = ground.tied(hand, pellock)
        split(hand, bundle, share_ppb=700_000_000)
        with pytest.raises(actions.NotEnoughLeft):
            split(hand, fresh(bundle), share_ppb=300_000_001)
        assert fresh(bundle).left_ppb == 300_000_000

    def test_struck_out_it_gives_back_what_went_in(self, hand, wren, holding, pellock):
        [bundle] = ground.tied(hand, pellock)
        child = split(hand, bundle, share_ppb=700_000_000)[0]
        strike_out(record=child.making, by=wren, reason="not done", at=AT)
        assert fresh(bundle).left_ppb == WHOLE
        assert list(Bundle.objects.of(holding)) == [bundle]
        put_back(record=child.making, by=wren)
        assert fresh(bundle).left_ppb == 300_000_000
        assert Bundle.objects.of(holding).count() == 3


class TestTheWrongCut:
    def test_the_bundle_and_all_made_from_it_are_of_the_right_one(self, hand, pellock, merrow):
        [wrong], [red] = ground.tied(hand, pellock), ground.tied(hand, merrow)
        child = split(hand, wrong)[0]
        whole = [NewBundle(WHOLE, ground.length(hand))]
        went_in = [WentIn(child, WHOLE, 1.0), WentIn(red, WHOLE, 3.0)]
        [mixed] = queries.came_out(actions.make(**hand, what="merged", on=TIED_ON, went_in=went_in, came_out=whole))
        # 1 part of 4 Pellock, 3 of 4 Merrow Red.
        assert parts_of(mixed) == {"Pellock": 250_000_000, "Merrow Red": 750_000_000}
        seen = fresh(mixed).evidence_no
        actions.was_of_cut(**hand, bundle=wrong, cut=merrow, at=AT, why="")
        assert fresh(wrong).grading.cut == merrow
        for bundle in (wrong, child, mixed):
            assert parts_of(bundle) == {"Merrow Red": WHOLE}
        assert fresh(mixed).evidence_no > seen

    def test_age_goes_along_unless_it_was_the_bundles_own(self, hand, pellock, day):
        sticks = ground.cut(hand, pellock.planting, age_years=2)
        [plain], [own] = ground.tied(hand, pellock), ground.tied(hand, pellock, age_years=3)
        for bundle in (plain, own):
            actions.was_of_cut(**hand, bundle=bundle, cut=sticks, at=AT, why="mixed up")
        assert (fresh(plain).age_years, fresh(own).age_years) == (2, 3)

    def test_refused(self, hand, pellock, day):
        [bundle] = ground.tied(hand, pellock, on=CUT_ON)
        late = ground.cut(hand, ground.planted(hand, variety="Long Hesper"), on=day("2026-02-01"))
        with pytest.raises(Refusal, match="after"):
            actions.was_of_cut(**hand, bundle=bundle, cut=late, at=AT, why="")
        [bought] = actions.buy_in(**hand, supplier="Ida", on=TIED_ON, length_class=ground.length(hand))
        with pytest.raises(Refusal, match="graded from a cut"):
            actions.was_of_cut(**hand, bundle=bought, cut=pellock, at=AT, why="")


class TestPlaces:
    @pytest.fixture
    def loft(self, hand):
        return actions.add_place(**hand, name="Hay Loft", cover="loft")

    @pytest.fixture
    def shed(self, hand):
        return actions.add_place(**hand, name="Long Shed")

    @pytest.fixture
    def sisters(self, hand, pellock, shed):
        return ground.tied(hand, pellock, how_many=3, place=shed)

    def test_the_latest_move_counts(self, hand, holding, sisters, loft, shed, day):
        first = sisters[0]
        actions.move(**hand, bundles=[first], place=loft, on=day("2026-03-01"))
        actions.move(**hand, bundles=[first], place=shed, on=day("2026-02-01"))
        assert list(Bundle.objects.of(holding).standing_in(loft)) == [first]
        with pytest.raises(Refusal, match="not tied until"):
            actions.move(**hand, bundles=[first], place=loft, on=day("2026-01-19"))
        with pytest.raises(Refusal, match="Choose the bundles"):
            actions.move(**hand, bundles=[], place=loft, on=day("2026-03-01"))

    def test_a_corrected_move(self, hand, holding, sisters, loft, shed, day):
        [moved] = actions.move(**hand, bundles=sisters[:1], place=loft, on=day("2026-03-01"))
        with pytest.raises(Refusal, match="not tied until"):
            actions.correct_move(**hand, move=moved, on=day("2026-01-01"), place=loft)
        actions.correct_move(**hand, move=moved, on=day("2026-03-01"), place=shed)
        assert Bundle.objects.of(holding).standing_in(shed).count() == 3

    def test_sisters_stack_up(self, hand, sisters, day):
        stack = actions.stack_up(**hand, name="North rack", bundles=sisters, on=TIED_ON, telltales=sisters[:1])
        assert [fresh(bundle).telltale for bundle in sisters] == [True, False, False]
        assert {fresh(bundle).stack for bundle in sisters} == {stack}
        with pytest.raises(Refusal, match="in a stack already"):
            actions.stack_up(**hand, name="Other", bundles=[fresh(sisters[0])], on=TIED_ON)
        with pytest.raises(Refusal, match="was not tied until"):
            actions.correct_stack(**hand, stack=stack, name="North rack", stacked_on=day("2026-01-01"))

    def test_who_is_no_sister(self, hand, pellock, sisters, loft, day):
        [late] = ground.tied(hand, pellock, on=day("2026-02-04"), place=fresh_place(sisters))
        with pytest.raises(Refusal, match="fortnight"):
            actions.stack_up(**hand, name="A", bundles=[sisters[0], late], on=day("2026-02-04"))
        [white] = ground.tied(hand, pellock, type="white", place=fresh_place(sisters))
        with pytest.raises(Refusal, match="one type"):
            actions.stack_up(**hand, name="A", bundles=[sisters[0], white], on=TIED_ON)
        actions.move(**hand, bundles=[sisters[1]], place=loft, on=day("2026-01-25"))
        with pytest.raises(Refusal, match="one place"):
            actions.stack_up(**hand, name="A", bundles=sisters, on=day("2026-01-25"))
        with pytest.raises(Refusal, match="after that day"):
            actions.stack_up(**hand, name="A", bundles=sisters[:1], on=day("2026-01-19"))

    def test_who_is_moved_alone_leaves_the_stack(self, hand, sisters, loft, day):
        stack = actions.stack_up(**hand, name="North rack", bundles=sisters, on=TIED_ON)
        actions.move(**hand, bundles=[fresh(sisters[0])], place=loft, on=day("2026-02-01"))
        assert [fresh(bundle).stack for bundle in sisters] == [None, stack, stack]
        # The rest together stay sisters.
        actions.move(**hand, bundles=[fresh(bundle) for bundle in sisters[1:]], place=loft, on=day("2026-02-02"))
        assert [fresh(bundle).stack for bundle in sisters] == [None, stack, stack]

    def test_a_stack_that_never_was(self, hand, wren, sisters):
        stack = actions.stack_up(**hand, name="North rack", bundles=sisters, on=TIED_ON, telltales=sisters[:1])
        strike_out(record=stack, by=wren, reason="wrong rack", at=AT)
        assert all(fresh(bundle).stack is None and not fresh(bundle).telltale for bundle in sisters)

    def test_the_telltale_can_be_another(self, hand, sisters):
        stack = actions.stack_up(**hand, name="North rack", bundles=sisters, on=TIED_ON, telltales=sisters[:1])
        before = stack.evidence_no
        actions.call_telltale(**hand, bundle=fresh(sisters[0]), telltale=False)
        actions.call_telltale(**hand, bundle=fresh(sisters[1]))
        assert [fresh(bundle).telltale for bundle in sisters] == [False, True, False]
        stack.refresh_from_db()
        assert stack.evidence_no == before + 2


def fresh_place(bundles):
    return Move.objects.filter(bundle=bundles[0]).latest("pk").place


class TestLedger:
    def test_a_taking_is_after_the_tying(self, hand, pellock, day):
        [bundle] = ground.tied(hand, pellock)
        said = {"purpose": "work", "share_ppb": 1, "said_how": "part"}
        with pytest.raises(Refusal, match="20 Jan 2026"):
            actions.take(**hand, bundle=bundle, on=day("2026-01-19"), **said)
        with pytest.raises(Refusal, match="not tied until"):
            actions.set_right(**hand, bundle=bundle, on=day("2026-01-19"), share_ppb=5)
        assert not Taking.objects.exists()

    def test_a_cut_that_proves_another_plantings_reaches_its_bundles(self, hand, pellock):
        [bundle] = ground.tied(hand, pellock)
        red = ground.planted(hand, variety="Merrow Red", bed="Top Carr")
        harvest.correct_cut(**hand, cut=pellock, planting=red, age_years=1)
        assert parts_of(bundle) == {"Merrow Red": WHOLE}
        assert fresh(bundle).evidence_no > bundle.evidence_no

    def test_a_corrected_age_of_the_cut_reaches_the_bundles_that_took_theirs_from_it(self, hand, pellock):
        [plain], [own] = ground.tied(hand, pellock), ground.tied(hand, pellock, age_years=3)
        harvest.correct_cut(**hand, cut=pellock, planting=pellock.planting, age_years=2)
        assert (fresh(plain).age_years, fresh(own).age_years) == (2, 3)

    def test_a_cut_can_be_struck_out_with_all_that_stands_on_it(self, hand, wren, holding, pellock, day):
        harvest.cut(**hand, planting=pellock.planting, on=day("2026-02-01"))
        child = split(hand, ground.tied(hand, pellock)[0])[0]
        strike_out(record=pellock, by=wren, reason="another holding's", at=AT, with_what_stands_on_it=True)
        for model in (Bundle, Origin, Grading, Taking, type(child.making), type(pellock)):
            assert not model.objects.of(holding).exists(), model
