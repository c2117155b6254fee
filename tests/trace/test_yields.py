import pytest

from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.harvest import actions as harvest
from growers.harvest.models import Cut
from growers.science.units import read_mass, read_part
from growers.trace.crops import crops_of, lines_by
from tests import ground
from tests.pages import words


def lines(holding, by="planting"):
    """{(name, winter): Line}"""
    crops = crops_of(holding, Cut.objects.of(holding).order_by("first_on", "pk"))
    return {(str(of), line.winter): line for of, line in lines_by(crops, by)}


@pytest.fixture
def bed(hand):
    return beds.add_bed(**hand, name="Beck Side", area_m2=250)


@pytest.fixture
def crop(hand, bed, day):
    """200 stools of Pellock on 250 m²: 143 kg green off in 2025/26, 13 bundles, a tenth rejected."""
    planting = ground.planted(hand, stools=200)
    harvest.cut(**hand, planting=planting, on=day("2025-12-28"), bundles=8, mass=read_mass("80 kg"))
    this = harvest.cut(**hand, planting=planting, on=day("2026-01-04"), mass=read_mass("63 kg")).cut
    ground.tied(hand, this, how_many=12)
    ground.tied(hand, this, mass=read_mass("9 kg"))
    bundles.finish_grading(**hand, cut=this, on=day("2026-01-22"), rejects=read_part("a tenth"))
    return this


def test_a_crop_by_hand(crop, holding):
    line = lines(holding)["Pellock – Beck Side", "2025/26"]
    assert (line.bundles, line.came_off_kg, line.tied, line.tied_kg, line.tied_unweighed) == (8, 143, 13, 9, 12)
    assert line.rejects_part == pytest.approx(0.1)
    # 143 / 200 = 0.715 kg; 143 / 250 * 100 = 57.2 kg an are; 13 / 250 * 100 = 5.2 bundles.
    assert line.kg_a_stool == pytest.approx(0.715)
    assert line.kg_an_are == pytest.approx(57.2)
    assert line.bundles_an_are == pytest.approx(5.2)
    assert not line.young


def test_what_was_not_weighed_is_told_in_bundles(hand, crop, holding, day, pages):
    harvest.cut(**hand, planting=crop.planting, on=day("2026-01-05"), bundles=1)
    line = lines(holding)["Pellock – Beck Side", "2025/26"]
    assert (line.mass_kg, line.some_unweighed, line.kg_a_stool, line.kg_an_are) == (143, True, None, None)
    # 13 bundles of 200 stools.
    assert line.bundles_a_hundred == pytest.approx(6.5)
    text = pages.text("trace:yields")
    assert "143 kg and some not weighed" in text
    assert "6.5 bundles from a hundred (200 stools)" in text


def test_stools_that_nobody_counted(hand, holding, pages, day):
    harvest.cut(**hand, planting=ground.planted(hand), on=day("2026-01-05"), mass=read_mass("20 kg"))
    line = lines(holding)["Pellock – Beck Side", "2025/26"]
    assert (line.stools, line.kg_a_stool, line.kg_an_are, line.rejects_part) == (None, None, None, None)
    assert "stools not known" in pages.text("trace:yields")


def test_the_ground_of_a_shared_bed_is_known_of_the_bed_alone(hand, crop, holding, day):
    red = ground.planted(hand, variety="Merrow Red", stools=100)
    harvest.cut(**hand, planting=red, on=day("2026-01-06"), mass=read_mass("57 kg"))
    found = lines(holding)
    assert found["Pellock – Beck Side", "2025/26"].area_m2 is None
    whole = lines(holding, "bed")["Beck Side", "2025/26"]
    # 143 + 57 kg of 200 + 100 stools on 250 m².
    assert whole.kg_a_stool == pytest.approx(200 / 300)
    assert whole.kg_an_are == pytest.approx(80)
    assert lines(holding, "variety")["Merrow Red", "2025/26"].kg_a_stool == pytest.approx(0.57)


def test_young_plantings_are_marked_and_left_out_beside_full_grown_ones(hand, crop, holding, day, pages):
    # Planted in spring 2024: 2024/25 is its first winter, 2026/27 its third and the first full one.
    young = ground.planted(hand, variety="Merrow Red", planted_year=2024, stools=100)
    for on in ("2025-01-06", "2026-01-06", "2027-01-06"):
        harvest.cut(**hand, planting=young, on=day(on), mass=read_mass("10 kg"))
    found = lines(holding)
    assert [found["Merrow Red – Beck Side", winter].young for winter in ("2024/25", "2025/26", "2026/27")] == [
        True, True, False,
    ]  # fmt: skip
    both = lines(holding, "bed")["Beck Side", "2025/26"]
    assert both.partly_young
    assert both.kg_a_stool == pytest.approx(0.715)
    assert "2025/26 · some young" in pages.text("trace:yields", by="bed")


def test_what_was_seen_in_the_bed_that_summer_stands_beside_its_crop(hand, crop, holding, day, pages):
    for on, what in (("2025-08-10", "rust"), ("2024-08-10", "beetle"), ("2026-08-10", "aphid")):
        beds.note_health(**hand, planting=crop.planting, on=day(on), what=what, how_bad="bad")
    assert [note.what for note in lines(holding)["Pellock – Beck Side", "2025/26"].notes] == ["rust"]
    assert "rust, bad" in pages.text("trace:yields")


def test_in_the_south_the_season_before_a_july_cut_is_its_own(other, ida, day):
    other.hemisphere, other.winter_begins_month = "S", 1
    other.save()
    hand = {"holding": other, "by": ida}
    planting = ground.planted(hand, stools=100)
    harvest.cut(**hand, planting=planting, on=day("2026-07-10"), mass=read_mass("50 kg"))
    for on in ("2025-06-10", "2026-02-10"):
        beds.note_health(**hand, planting=planting, on=day(on), what="rust")
    line = lines(other)["Pellock – Beck Side", "2026"]
    assert [note.on for note in line.notes] == [day("2026-02-10")]
    assert line.kg_a_stool == pytest.approx(0.5)


def test_narrowed_by_bed_variety_and_winter(hand, crop, pages, day):
    red = ground.planted(hand, variety="Merrow Red", bed="Top Carr")
    harvest.cut(**hand, planting=red, on=day("2024-12-30"), bundles=3)
    everything = pages.text("trace:yields")
    assert "Pellock – Beck Side" in everything
    assert "Merrow Red – Top Carr" in everything
    for narrow in ({"bed": red.bed.uid}, {"variety": red.variety.uid}, {"winter": "2024/25"}):
        page = pages.open("trace:yields", **narrow)
        assert [str(of) for of, _line in page.context["page"].object_list] == ["Merrow Red – Top Carr"]
    page = pages.open("trace:yields", bed=red.bed.uid, by="variety")
    assert f"?bed={red.bed.uid}&amp;by=planting" in page.content.decode()
    assert "Nothing in the book answers to that" in pages.text("trace:yields", bed=red.bed.uid, winter="2025/26")


def test_with_nothing_cut_it_says_what_to_do_first(pages):
    assert "To this winter's cutting" in pages.text("trace:yields")


def test_beds_varieties_and_winters_lead_to_their_yields(pages, crop):
    planting = crop.planting
    for name, *args in (("beds:bed", planting.bed.uid), ("beds:variety", planting.variety.uid)):
        assert f"{pages.address('trace:yields')}?" in pages.open(name, *args).content.decode()
    assert pages.address("trace:winter_flow", 2025) in pages.open("harvest:winter", winter="2025/26").content.decode()
    assert pages.address("trace:yields") in pages.open("beds:beds").content.decode()


def test_yields_are_of_one_book(client, ida, other, crop):
    client.force_login(ida)
    assert "Pellock" not in words(client.get("/nether-sallow/trace/yields/"))


def test_many_crops_ask_the_database_no_oftener(pages, hand, crop, day, django_assert_max_num_queries):
    for n in range(6):
        planting = ground.planted(hand, bed=f"Carr {n}", stools=50)
        harvest.cut(**hand, planting=planting, on=day("2026-01-06"), mass=read_mass("20 kg"))
    with django_assert_max_num_queries(25):
        pages.open("trace:yields")


def test_the_winters_are_drawn_once_there_are_two(hand, crop, pages, day):
    assert "yields-figure" not in pages.open("trace:yields").content.decode()
    harvest.cut(**hand, planting=crop.planting, on=day("2024-12-30"), bundles=3)
    page = pages.open("trace:yields")
    assert "yields-figure" in page.content.decode()
    bundles, weight = page.context["figure"]["data"]
    assert (list(bundles["x"]), list(bundles["y"])) == (["2024/25", "2025/26"], [0, 13])
    assert list(weight["y"]) == [None, 143]
