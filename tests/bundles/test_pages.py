import pytest

from growers.beds.actions import note_health
from growers.bundles import actions, queries
from growers.bundles.models import Bundle, Grading, Move, Stack
from growers.people.models import Membership
from tests import ground

TODAY = "2026-02-10 09:00"


@pytest.fixture(autouse=True)
def in_february(clock):
    clock(TODAY)


@pytest.fixture
def cut(hand):
    return ground.cut(hand, ground.planted(hand))


@pytest.fixture
def five_feet(hand):
    return ground.length(hand)


@pytest.fixture
def shed(hand):
    return actions.add_place(**hand, name="Long Shed")


def test_an_empty_book_says_what_to_do_first(pages):
    assert "To the grading bench" in pages.text("bundles:bundles")
    assert "This winter's cutting" in pages.text("bundles:bench")
    assert "Add a place" in pages.text("bundles:places")
    assert "Stack up sisters" in pages.text("bundles:stacks")


def test_a_bench_without_lengths_asks_for_them_first(pages, cut):
    assert "First say which lengths" in pages.text("bundles:bench_cut", cut.uid)


class TestAtTheBench:
    def test_a_tap_ties_a_bundle(self, pages, cut, five_feet):
        assert "nothing tied yet" in pages.text("bundles:bench")
        for _tap in range(3):
            pages.keep("bundles:bench_cut", cut.uid, length_class=five_feet.uid, how_many="1", on="today",
                       type="brown", form="bundle")  # fmt: skip
        assert Bundle.objects.filter(length_class=five_feet).count() == 3
        assert "5 ft 3 –" in pages.text("bundles:bench_cut", cut.uid)
        assert "3 bundles tied" in pages.text("bundles:bench")

    def test_what_was_set_stays_for_the_next(self, pages, cut, five_feet, shed):
        answer = pages.keep(
            "bundles:bench_cut", cut.uid, length_class=five_feet.uid, how_many="2", on="9 Feb", type="brown",
            form="bolt", thickness="fine", place=shed.uid, mass="6,2 kg", rods="210", butt_mm="7 mm",
        )  # fmt: skip
        first, second = Bundle.objects.order_by("pk")
        assert (first.thickness, first.form, first.tied_mass_kg, first.tied_rods) == ("fine", "bolt", 6.2, 210)
        assert second.butt_mm == pytest.approx(7)
        form = pages.client.get(answer.headers["Location"]).context["form"]
        assert form.stays == "fine, bolt, Long Shed, 9 Feb"
        stays = {name: form[name].value() for name in ("thickness", "form", "place", "on", "mass", "rods")}
        assert stays == {
            "thickness": "fine", "form": "bolt", "place": str(shed.uid), "on": "9 Feb", "mass": None, "rods": None
        }  # fmt: skip

    def test_a_heavy_bundle_is_asked_about_and_the_length_not_lost(self, pages, cut, five_feet):
        said = {"length_class": str(five_feet.uid), "how_many": "1", "on": "today", "type": "brown", "form": "bundle"}
        answer = pages.send("bundles:bench_cut", cut.uid, **said, mass="61 kg")
        assert answer.status_code == 422
        page = answer.content.decode()
        assert f'name="length_class" value="{five_feet.uid}"' in page
        pages.keep("bundles:bench_cut", cut.uid, **said, mass="61 kg", sure=answer.context["form"].sure)
        assert Bundle.objects.get().tied_mass_kg == 61.0

    def test_a_day_before_the_cut(self, pages, cut, five_feet):
        said = {"length_class": five_feet.uid, "how_many": "1", "type": "brown", "form": "bundle"}
        text = pages.refused("bundles:bench_cut", cut.uid, **said, on="1 Dec 2025")
        assert "not cut until" in text

    def test_bundles_tied_at_one_tap_are_taken_back_together(self, signed_in, pages, holding, cut, five_feet):
        answer = pages.keep("bundles:bench_cut", cut.uid, length_class=five_feet.uid, how_many="3")
        assert "5 ft tied" in signed_in.get(answer.headers["Location"]).content.decode()
        uids = ",".join(str(bundle.uid) for bundle in Bundle.objects.all())
        signed_in.post(pages.address("people:take_back", "bundle", uids))
        assert not Bundle.objects.of(holding).exists()
        assert "nothing tied yet" in pages.text("bundles:bench")

    def test_what_was_seen_in_summer_stands_at_the_bench(self, pages, hand, cut, five_feet, day):
        note_health(**hand, planting=cut.planting, on=day("2025-07-01"), what="rust", how_bad="bad", note="north end")
        note_health(**hand, planting=cut.planting, on=day("2022-07-01"), what="deer")
        text = pages.text("bundles:bench_cut", cut.uid)
        assert "rust, bad. north end" in text
        assert "deer" not in text

    def test_rejects_at_the_end(self, pages, hand, cut):
        ground.tied(hand, cut)
        text = pages.refused("bundles:finish", cut.uid, how_much="a tenth", rejects_mass="5 kg", on="today")
        assert "one way only" in text
        pages.keep("bundles:finish", cut.uid, how_much="a third", on="today")
        grading = Grading.objects.get()
        assert grading.rejects_part_ppb == 333_333_333
        assert "Rejects: a third" in pages.text("bundles:bench_cut", cut.uid)
        page = pages.open("bundles:correct_grading", grading.uid).content.decode()
        assert 'value="a third"' in page
        pages.keep("bundles:correct_grading", grading.uid, began_on="20 Jan 2026", closed_on="", rejects="1/4")
        grading.refresh_from_db()
        assert (grading.rejects_part_ppb, grading.closed_on) == (250_000_000, None)

    def test_a_double_tap_ties_one(self, signed_in, pages, cut, five_feet):
        sent = {
            "client_id": "5c9f4f0e-94b0-4c5a-9c3f-0a3e6d5f7a11", "length_class": five_feet.uid, "how_many": "2",
            "on": "today", "type": "brown", "form": "bundle",
        }  # fmt: skip
        for _tap in range(2):
            assert signed_in.post(pages.address("bundles:bench_cut", cut.uid), sent).status_code == 302
        assert Bundle.objects.count() == 2


class TestTheList:
    @pytest.fixture
    def three(self, hand, cut, shed, day):
        [first] = ground.tied(hand, cut, place=shed)
        [six] = ground.tied(hand, cut, label="6 ft", type="white")
        red = ground.planted(hand, variety="Merrow Red").variety
        [bought] = actions.buy_in(
            **hand, supplier="Ida Rushby", on=day("2026-01-20"), length_class=ground.length(hand), variety=red,
            told_winter="2024/25",
        )  # fmt: skip
        return first, six, bought

    @pytest.mark.parametrize(
        ("narrowed", "expected"),
        [
            ({"type": "white"}, [1]),
            ({"winter": "2024/25"}, [2]),
            ({"winter": "2025/26"}, [0, 1]),
            ({"made": "bought"}, [2]),
            ({"left": "used"}, []),
            ({"left": "some"}, [0, 1, 2]),
            ({}, [0, 1, 2]),
        ],
    )
    def test_narrowed(self, pages, three, narrowed, expected):
        page = pages.open("bundles:bundles", **narrowed)
        assert {bundle.pk for bundle in page.context["bundles"]} == {three[n].pk for n in expected}

    def test_narrowed_by_records(self, pages, hand, three, shed):
        first, six, bought = three
        of = queries.ancestry_of(three)
        for query, expected in (
            ({"variety": of[first.pk].variety.uid}, {first, six}),
            ({"variety": of[bought.pk].variety.uid}, {bought}),
            ({"length": six.length_class.uid}, {six}),
            ({"place": shed.uid}, {first}),
        ):
            assert set(pages.open("bundles:bundles", **query).context["bundles"]) == expected

    def test_a_row_says_what_it_is(self, pages, hand, three):
        first = three[0]
        actions.take(**hand, bundle=first, on=first.tied_on, purpose="work", share_ppb=500_000_000, said_how="part")
        text = pages.text("bundles:bundles")
        assert first.tag_shown in text
        assert "half left" in text
        assert "whole" in text
        assert "Merrow Red" in text
        assert pages.open("bundles:bundles").content.decode().count('<svg class="rod') == 3

    def test_a_narrowing_that_leaves_nothing_says_so(self, pages, three):
        assert "Nothing in the book answers to that" in pages.text("bundles:bundles", type="buff")


class TestFromOutside:
    def test_bought_in(self, pages, five_feet):
        said = {"on": "today", "length_class": five_feet.uid, "how_many": "2", "type": "brown"}
        assert "is needed" in pages.refused("bundles:buy_in", **said)
        pages.keep("bundles:buy_in", **said, supplier="Ida Rushby", told_winter="2024/25")
        assert Bundle.objects.count() == 2

    def test_found_then_settled(self, pages, hand, cut, five_feet):
        pages.keep("bundles:find_untagged", on="today", length_class=five_feet.uid, type="brown",
                   likely_variety=cut.planting.variety.uid)  # fmt: skip
        [found] = Bundle.objects.all()
        assert "unknown, likely Pellock" in pages.text("bundles:bundles")
        find = queries.origins_of(found)[0].find
        assert "Choose one" in pages.refused("bundles:settle", find.uid, variety="")
        pages.keep("bundles:settle", find.uid, variety=cut.planting.variety.uid, why="by its buds")
        assert queries.ancestry_of([found])[found.pk].name == "Pellock"

    def test_it_was_of_another_cut(self, pages, hand, cut):
        [bundle] = ground.tied(hand, cut)
        red = ground.cut(hand, ground.planted(hand, variety="Merrow Red"))
        assert "is needed" in pages.refused("bundles:other_cut", bundle.uid, cut=red.uid)
        pages.keep("bundles:other_cut", bundle.uid, cut=red.uid, why="tags changed over")
        assert queries.ancestry_of([bundle])[bundle.pk].name == "Merrow Red"


class TestPlaces:
    def test_several_bundles_move(self, pages, hand, cut, shed):
        pages.keep("bundles:add_place", name="Hay Loft", cover="loft")
        first, second, _third = ground.tied(hand, cut, how_many=3, place=shed)
        loft = actions.add_place(**hand, name="Rack")
        chosen = [first.uid, second.uid]
        assert "Tap one or more" in pages.refused("bundles:move", place=loft.uid, on="today")
        pages.keep("bundles:move", bundles=chosen, place=loft.uid, on="today")
        assert Bundle.objects.of(hand["holding"]).standing_in(loft).count() == 2
        assert first.tag_shown in pages.text("bundles:place", loft.uid)
        assert "2 bundles" in pages.text("bundles:places")
        move = Move.objects.filter(place=loft).first()
        pages.keep("bundles:correct_move", move.uid, place=shed.uid, on="9 Feb")
        assert Bundle.objects.of(hand["holding"]).standing_in(loft).count() == 1

    def test_a_whole_stack_is_chosen_to_move(self, pages, hand, cut, shed):
        sisters = ground.tied(hand, cut, how_many=2, place=shed)
        ground.tied(hand, cut, place=shed)
        stack = actions.stack_up(**hand, name="North rack", bundles=sisters, on=ground.TIED_ON)
        page = pages.open("bundles:move", stack=stack.uid, all="1")
        assert set(page.context["form"]["bundles"].value()) == {str(bundle.uid) for bundle in sisters}
        assert page.content.decode().count(" checked") >= 2
        page = pages.open("bundles:move", bundle=sisters[0].uid)
        assert page.context["form"]["bundles"].value() == [str(sisters[0].uid)]

    def test_stack_up_and_take_one_out(self, pages, hand, cut, shed):
        first, second = ground.tied(hand, cut, how_many=2, place=shed)
        said = {"name": "North rack", "on": "today"}
        text = pages.refused("bundles:stack_up", **said, bundles=[first.uid], telltales=[second.uid])
        assert "one of the stack's own" in text
        pages.keep("bundles:stack_up", **said, bundles=[first.uid, second.uid], telltales=[first.uid])
        stack = Stack.objects.get()
        assert "tell-tale" in pages.text("bundles:stack", stack.uid)
        pages.keep("bundles:telltale", first.uid)
        first.refresh_from_db()
        assert not first.telltale
        pages.keep("bundles:leave_stack", second.uid)
        assert list(pages.open("bundles:stack", stack.uid).context["bundles"]) == [first]
        assert "1 bundle" in pages.text("bundles:stacks")
        pages.keep("bundles:correct_stack", stack.uid, name="South rack", stacked_on="20 Jan 2026")
        assert "South rack" in pages.text("bundles:stacks")


class TestCorrections:
    def test_a_bundle_is_filled_in_with_what_was_typed(self, pages, hand, cut):
        from growers.science.units import read_mass

        [bundle] = ground.tied(hand, cut, mass=read_mass("12 lb 3 oz"), butt_mm=9.5)
        page = pages.open("bundles:correct_bundle", bundle.uid)
        assert "12 lb 3 oz" in page.content.decode()
        assert "9.5" in page.content.decode()
        said = {"length_class": bundle.length_class.uid, "tied_on": "21 Jan 2026", "type": "brown", "form": "bundle"}
        pages.keep(
            "bundles:correct_bundle",
            bundle.uid,
            **said,
            age_years="2",
            thickness="stout",
            mass="",
            butt_mm="",
            why="looked again",
        )
        bundle.refresh_from_db()
        assert (bundle.thickness, bundle.age_years, bundle.tied_mass_kg, bundle.butt_mm) == ("stout", 2, None, None)
        assert "not cut until" in pages.refused(
            "bundles:correct_bundle", bundle.uid, **said | {"tied_on": "1 Dec 2025"}, age_years="2"
        )

    def test_what_stands_beside_it(self, pages, hand, five_feet, shed):
        [bought] = actions.buy_in(**hand, supplier="Ida", on=ground.TIED_ON, length_class=five_feet)
        purchase = queries.origins_of(bought)[0].purchase
        pages.keep(
            "bundles:correct_purchase", purchase.uid, supplier="Ida Rushby", on="20 Jan 2026", told_winter="2025/26"
        )
        found = actions.find(**hand, on=ground.TIED_ON, length_class=five_feet)
        find = queries.origins_of(found)[0].find
        pages.keep("bundles:correct_find", find.uid, on="19 Jan 2026", note="behind the door")
        found.refresh_from_db()
        assert found.tied_on.day == 19
        pages.keep("bundles:correct_place", shed.uid, name="Old Shed", cover="shed")
        assert "Old Shed" in pages.text("bundles:places")
        making = actions.make(
            **hand, what="steamed", on=ground.TIED_ON, hours=4.0,
            went_in=[actions.WentIn(bought, 500_000_000, 1.0)],
            came_out=[actions.NewBundle(1_000_000_000, five_feet, type="steamed")],
        )  # fmt: skip
        pages.keep("bundles:correct_making", making.uid, hours="5 h")
        making.refresh_from_db()
        assert making.hours == 5.0


def test_readers_and_strangers(client, pages, hand, tam, ida, other, cut, five_feet, shed):
    [bundle] = ground.tied(hand, cut)
    Membership.objects.filter(user=tam).update(role=Membership.Role.READER)
    client.force_login(tam)
    assert bundle.tag_shown in pages.text("bundles:bundles")
    assert client.post(pages.address("bundles:bench_cut", cut.uid), {"length_class": five_feet.uid}).status_code == 403
    client.force_login(ida)
    for address in (
        f"bench/{cut.uid}/",
        f"bench/{cut.uid}/finish/",
        f"bundle/{bundle.uid}/correct/",
        f"bundle/{bundle.uid}/other-cut/",
        f"place/{shed.uid}/",
    ):
        assert client.get(f"/nether-sallow/bundles/{address}").status_code == 404
    # Another book's bundle can't be chosen, and another book's place can't be gone to.
    own = actions.add_place(holding=other, by=ida, name="Barn")
    page = client.post("/nether-sallow/bundles/move/", {"bundles": [bundle.uid], "place": own.uid, "on": "today"})
    assert page.status_code == 422
    assert not Move.objects.filter(place=own).exists()


@pytest.mark.parametrize("page", ["bundles:buy_in", "bundles:find_untagged"])
def test_without_a_length_the_lengths_come_first(pages, page):
    assert pages.address("harvest:lengths") in pages.open(page).content.decode()
    assert "First say which lengths you sort into." in pages.text(page)


@pytest.mark.parametrize("page", ["bundles:move", "bundles:stack_up"])
def test_without_a_bundle_there_is_none_to_choose(pages, page):
    assert "Tie one at the bench first." in pages.text(page)
