"""A lazy grower's winter through the pages: nothing weighed, no rods counted, no water read. The pages stay honest."""

import pytest

from growers.beds.models import Bed, Planting
from growers.bundles.models import Bundle, Grading
from growers.customers.models import Sheet
from growers.drying.models import DrynessAnswer
from growers.exchange.queries import doctor
from growers.harvest.models import Cut, LengthClass
from growers.soaking.models import Batch, Tank
from tests.conftest import OverHttps
from tests.pages import words


@pytest.fixture
def planting(pages, clock):
    clock("2025-11-20 10:00")
    pages.keep("beds:add_bed", name="Top Carr")
    pages.keep("beds:plant", Bed.objects.get().uid, new_variety="Merrow Red", planted_year="2018")
    pages.keep("harvest:usual_lengths", system="ft")
    return Planting.objects.get()


def test_a_lazy_winter(pages, clock, planting):
    clock("2026-01-10 15:00")
    pages.keep("harvest:cut_day", planting.uid)
    cut = Cut.objects.get()
    clock("2026-01-25 15:00")
    for _tap in range(3):  # one tap on a length for each bundle tied
        pages.keep("bundles:bench_cut", cut.uid, length_class=LengthClass.objects.get(label="4 ft").uid)
    pages.keep("bundles:finish", cut.uid, how_much="hardly any")
    assert Grading.objects.get().rejects_part_ppb == 20_000_000
    bundle, second, _third = Bundle.objects.order_by("pk")

    # Summer, and nothing was measured: a guess with its standing, never “dry”.
    clock("2026-08-20 09:00")
    text = pages.text("drying:answer", bundle.uid)
    answer = DrynessAnswer.objects.get(bundle=bundle)
    assert (answer.answer, answer.moisture, answer.dried_out_on) == ("cant_say", None, None)
    assert "Can't say yet" in text
    assert "nothing measured" in text.lower()

    # A weight says nothing of a bundle that was never weighed; a part does.
    tank_page = pages.keep("soaking:add_tank", name="Bath", what="bath")
    assert tank_page.status_code == 302
    bath = Tank.objects.get()
    refused = pages.refused(
        "soaking:whole_soak",
        bundle.uid,
        tank=bath.uid,
        went_in="10 Aug",
        came_out="15 Aug",
        result="right",
        much="2 kg",
    )
    assert "has not been weighed" in refused
    assert not Batch.objects.exists()
    pages.keep(
        "soaking:whole_soak",
        bundle.uid,
        tank=bath.uid,
        went_in="10 Aug",
        came_out="15 Aug",
        result="right",
        much="half",
    )
    batch = Batch.objects.get()
    assert batch.in_until_at > batch.in_at  # “10 August” is a range, kept as one
    assert batch.taking.share_ppb == 500_000_000
    bounds = pages.text("soaking:variety", planting.variety.uid)
    assert "1 first soak says something" in bounds

    # Sold by the bundle, as dry on the grower's word alone, and said so.
    pages.keep("drying:word", "bundle", second.uid, says="dry", how="snaps", on="today")
    assert "your word" in pages.text("stock:shed")
    pages.keep("customers:sell", second.uid, new_customer="Orla Fenn", much="the rest")
    second.refresh_from_db()
    assert second.left_ppb == 0

    # The sheet says how thin it is.
    pages.keep("customers:variety_sheet", planting.variety.uid)
    sheet = words(OverHttps().get(f"/sheet/{Sheet.objects.get().token}/"))
    assert "1 soak of this variety" in sheet
    assert "That is thin" in sheet
    assert doctor() == []


@pytest.mark.parametrize(
    "name",
    [
        "today:today",
        "beds:beds",
        "beds:varieties",
        "harvest:winter",
        "bundles:bundles",
        "bundles:bench",
        "bundles:places",
        "bundles:stacks",
        "drying:drying",
        "stock:shed",
        "soaking:tank",
        "baskets:baskets",
        "customers:customers",
    ],
)
def test_every_page_of_an_empty_book_says_what_to_do_first(pages, name):
    page = pages.open(name)
    assert b'class="empty"' in page.content or b"act" in page.content
