"""The tutorial, done as it says, comes out as it says."""

from pathlib import Path

import pytest

from growers.beds.models import Bed, Planting, Variety
from growers.bundles.models import Bundle, Place
from growers.customers.models import Sheet
from growers.harvest.models import Cut, LengthClass
from growers.soaking.models import Batch, Tank
from tests.conftest import OverHttps
from tests.pages import words

TOLD = (Path(__file__).parents[2] / "docs/tutorial/first-bundle.md").read_text(encoding="utf-8")


def said(*texts):
    """What the tutorial has its reader type, and the test types too."""
    assert [text for text in texts if f"`{text}`" not in TOLD and f"*{text}*" not in TOLD] == []
    return texts[0] if len(texts) == 1 else texts


@pytest.fixture
def tied(pages):
    """Steps 2 to 7."""
    assert "A new book" in pages.text("today:today")
    name, species = said("Pellock", "Salix triandra")
    pages.keep("beds:add_variety", name=name, species=species)
    pages.keep("beds:add_bed", name=said("Beck Side"))
    bed, variety = Bed.objects.get(), Variety.objects.get()
    year, rows, stools = said("2020", "1 to 4", "300")
    pages.keep("beds:plant", bed.uid, variety=variety.uid, planted_year=year, rows=rows, stools=stools)
    pages.keep("harvest:usual_lengths", system="ft")
    bundles, mass = said("4", "36 kg")
    pages.keep("harvest:cut_day", Planting.objects.get().uid, bundles=bundles, mass=mass)
    pages.keep("bundles:add_place", name=said("Long Shed"), cover="shed")
    mass, rods, how_many = said("12.2 kg", "150", "2")
    pages.keep(
        "bundles:bench_cut",
        Cut.objects.get().uid,
        thickness=said("pencil"),
        mass=mass,
        rods=rods,
        how_many=how_many,
        place=Place.objects.get().uid,
        length_class=LengthClass.objects.get(label="5 ft").uid,
    )
    return Bundle.objects.order_by("pk").first()


def test_the_bench_balances_as_told(pages, tied):
    pages.keep("bundles:finish", Cut.objects.get().uid, how_much=said("a tenth"))
    balance = pages.text("bundles:bench_cut", Cut.objects.get().uid)
    # Two of 12.2 kg; a tenth of 36 kg; 36 − 24.4 − 3.6.
    for figure in ("24.4 kg", "3.6 kg", "8 kg"):
        assert figure in balance
        assert figure in TOLD


def test_what_is_left_after_the_sale_is_as_told(pages, tied):
    new_customer, much = said("Orla Fenn", "2,3 kg")
    pages.keep("customers:sell", tied.uid, new_customer=new_customer, much=much, state_said=said("green"))
    # 2.3 of 12.2 kg is 18.9 %, so 81.1 % is left.
    assert "about 81 %" in pages.text("trace:bundle", tied.uid)
    assert "about 81 % is left" in TOLD


def test_the_tank_and_the_sheet_are_as_told(pages, tied):
    shed = pages.text("stock:shed")
    assert "Not yet" in shed
    assert "by the calendar only" in shed
    pages.keep("soaking:add_tank", name=said("Long trough"), what=said("trough"))
    much, water = said("half", "cold")
    pages.keep("soaking:put_in", tied.uid, tank=Tank.objects.get().uid, much=much, water=water, all_under="on")
    batch = Batch.objects.get()
    for result in said("nearly", "folds"):
        pages.keep("soaking:check", batch.uid, result=result)
    pages.keep("soaking:lift", batch.uid)
    pages.keep("customers:bundle_sheet", tied.uid)
    sheet = words(OverHttps().get(f"/sheet/{Sheet.objects.get().token}/"))
    assert "a day for each foot" in sheet
    assert "Beck Side" not in sheet
    assert "Orla Fenn" not in sheet
