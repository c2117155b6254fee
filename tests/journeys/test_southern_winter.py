"""South of the line a winter is one year: rods cut in July 2026 are of winter 2026, everywhere."""

from growers.beds.models import Bed, Planting
from growers.bundles.models import Bundle
from growers.customers.models import Sheet
from growers.harvest.models import Cut, LengthClass
from growers.people import actions
from tests.conftest import PASSWORD, OverHttps
from tests.pages import Pages, words


def test_a_southern_winter(client, db, clock):
    holding = actions.open_book(
        name="Hallow Carr South", username="wren", password=PASSWORD, zone="Pacific/Auckland", hemisphere="S"
    )
    client.force_login(holding.memberships.get().user)
    pages = Pages(client, holding.slug)
    clock("2026-06-20 22:30")  # 21 June, 10:30, at the bed
    pages.keep("beds:add_bed", name="Beck Side")
    pages.keep("beds:plant", Bed.objects.get().uid, new_variety="Pellock", planted_year="2019")
    pages.keep("harvest:usual_lengths", system="20cm")
    planting = Planting.objects.get()
    pages.keep("harvest:cut_day", planting.uid, on="today", bundles="4")
    cut = Cut.objects.get()
    assert cut.first_on.isoformat() == "2026-06-21"  # the holding's own day, not Greenwich's
    clock("2026-07-12 22:30")
    pages.keep("harvest:cut_day", planting.uid, on="today", bundles="3")
    assert Cut.objects.count() == 1
    clock("2026-07-20 22:30")
    pages.keep("bundles:bench_cut", cut.uid, length_class=LengthClass.objects.order_by("min_m").first().uid)
    bundle = Bundle.objects.get()
    for name, *args in (
        ("harvest:winter",),
        ("trace:bundle", bundle.uid),
        ("trace:cut", cut.uid),
        ("bundles:bundles",),
    ):
        text = pages.text(name, *args)
        assert "2026" in text
        assert "2026/27" not in text
        assert "2025/26" not in text
    pages.keep("customers:bundle_sheet", bundle.uid)
    assert "winter 2026" in words(OverHttps().get(f"/sheet/{Sheet.objects.get().token}/")).lower()
