"""One bundle from the planting to the customer's sheet, through the pages, with every figure worked out by hand."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from growers.baskets.models import Basket
from growers.beds.models import Bed, Planting, Variety
from growers.bundles.models import Bundle, Place
from growers.customers.models import SaleLine, Sheet
from growers.drying.models import AirReading, DrynessAnswer
from growers.exchange.queries import doctor
from growers.harvest.models import Cut, LengthClass
from growers.soaking.models import Batch, Lift, Mellow, Tank
from tests.conftest import OverHttps
from tests.journeys.weather import as_logger_file, july, settles_at
from tests.pages import words


def plant(pages):
    pages.keep("beds:add_bed", name="Beck Side")
    bed = Bed.objects.get()
    pages.keep("beds:plant", bed.uid, new_variety="Pellock", planted_year="2020", stools="300", rows="rows 1 to 4")
    assert "Pellock" in pages.text("beds:beds")
    pages.keep("harvest:usual_lengths", system="ft")
    pages.keep("bundles:add_place", name="Long Shed", cover="shed")


def cut(pages, clock):
    planting = Planting.objects.get()
    clock("2025-12-28 15:00")
    pages.keep("harvest:cut_day", planting.uid, on="today", bundles="9", mass="81 kg")
    clock("2026-01-04 15:00")
    pages.keep("harvest:cut_day", planting.uid, on="today", bundles="7", mass="62 kg")
    cut = Cut.objects.get()  # both days are of one winter, and so of one cut
    text = pages.text("harvest:cut", cut.uid)
    assert "2025/26" in text
    assert "143 kg" in text  # 81 + 62
    return cut


def grade(pages, clock, cut):
    clock("2026-01-18 12:00")
    five_foot = LengthClass.objects.get(label="5 ft")
    shed = Place.objects.get()
    pages.keep(
        "bundles:bench_cut",
        cut.uid,
        length_class=five_foot.uid,
        mass="12.2 kg",
        rods="150",
        how_many="3",
        place=shed.uid,
        thickness="pencil",
    )
    pages.keep("bundles:finish", cut.uid, rejects_mass="15.8 kg")
    # 143 came off; three of 12.2 are tied and 15.8 rejected: 90.6 kg is not accounted for yet.
    assert "90.6 kg" in pages.text("bundles:bench_cut", cut.uid)
    return Bundle.objects.order_by("pk").first()


def dry(pages, clock, bundle):
    shed = Place.objects.get()
    assert "by the calendar" in pages.text("stock:shed")
    hours = july(2026)
    clock("2026-08-01 09:00")
    file = SimpleUploadedFile("long-shed.csv", as_logger_file(hours))
    pages.keep("drying:air_file", shed.uid, file=file)
    assert AirReading.objects.count() == 31 * 24
    settles = settles_at(hours)
    assert f"{settles * 100:.0f} %" in pages.text("drying:store", shed.uid)
    clock("2026-08-02 09:00")
    pages.keep("drying:weigh", bundle.uid, mass="6.4 kg", when="now")
    pages.keep("drying:oven", "bundle", bundle.uid, wet_g="42.4", dry_g="37.2", on="today")
    text = pages.text("drying:answer", bundle.uid)
    answer = DrynessAnswer.objects.get(bundle=bundle)
    # (42.4 − 37.2) / 37.2: 14.0 % water by dry weight.
    assert answer.moisture == pytest.approx(0.139785, abs=1e-6)
    # Rods settle indoors (20 °C, 50 %) at 9.271 %. 8.7 % of shrinking over the 30 % below which wood shrinks:
    # 8.7 × (13.9785 − 9.2711) / 30 = 1.365 % is still to come, under the limit of 2 %.
    assert answer.shrinkage_to_come == pytest.approx(0.013652, abs=1e-6)
    assert answer.store_moisture == pytest.approx(settles, abs=2e-4)
    # The limit is at 9.2711 + 2 × 30 / 8.7 = 16.168 %; the test is good to about a point: 2.19 of them away.
    assert answer.chance == pytest.approx(0.9857, abs=5e-4)
    assert answer.answer == "dry"
    assert "2 Aug 2026" in text
    assert "Dry" in text


def sell(pages, clock, bundle):
    clock("2026-08-10 16:00")
    pages.keep(
        "customers:sell", bundle.uid, new_customer="Orla Fenn", much="2,3 kg", left_weighs="4.1 kg", price="34.50"
    )
    line = SaleLine.objects.get()
    # 2.3 kg went and 4.1 stayed: 2.3 / 6.4 of the bundle.
    assert line.taking.share_ppb == 359_375_000
    assert (line.answer_said, line.winter_said, str(line.price), line.currency) == ("dry", "2025/26", "34.50", "GBP")
    bundle.refresh_from_db()
    assert bundle.left_ppb == 640_625_000
    # 64.0625 % of the 6.4 kg last weighed.
    assert "4.1 kg" in pages.text("stock:shed")


def soak(pages, clock, bundle):
    clock("2026-08-14 17:00")  # 18:00 by the clock in the shed
    pages.keep("soaking:add_tank", name="Long trough", what="trough", greatest_length="7 ft", room_bundles="4")
    tank = Tank.objects.get()
    pages.keep("soaking:put_in", bundle.uid, tank=tank.uid, moment="now", much="half", water="15 C", all_under="on")
    batch = Batch.objects.get()
    assert batch.taking.share_ppb == 320_312_500  # half of 640,625,000: an odd half goes to the even
    clock("2026-08-18 06:30")
    assert "Pellock" in pages.text("today:today")  # to be looked at
    pages.keep("soaking:check", batch.uid, result="nearly")
    clock("2026-08-19 06:30")
    pages.keep("soaking:check", batch.uid, result="folds")
    clock("2026-08-19 07:00")
    pages.keep("soaking:lift", batch.uid, moment="now", part="all", wrap_in="hessian")
    assert "lifted Wed 19 Aug 2026, 8:00" in pages.text("soaking:batch", batch.uid)
    clock("2026-08-20 17:00")
    assert "Unwrap" in pages.text("today:today")
    pages.keep("soaking:unwrap", Mellow.objects.get().uid, ended_at="now")
    clock("2026-08-21 08:00")
    pages.keep("soaking:bench", Lift.objects.get().uid, result="right")
    return batch


def weave(pages, clock, batch):
    clock("2026-08-21 15:00")
    pages.keep("baskets:add", name="Shopper", made_on="today")
    basket = Basket.objects.get()
    pages.keep("baskets:use", basket.uid, batch=batch.uid, much="the rest", part_of_basket="stakes")
    batch.refresh_from_db()
    assert (batch.in_water_ppb, batch.left_ppb) == (0, 0)
    text = pages.text("baskets:basket", basket.uid)
    assert "Pellock" in text
    assert "Beck Side" in text  # from the basket back to the bed
    clock("2026-11-25 09:00")
    assert "Has it stayed tight?" in pages.text("today:today")
    pages.keep("baskets:tight", basket.uid, result="tight")
    assert "Has it stayed tight?" not in pages.text("today:today")


def share(pages):
    variety = Variety.objects.get()
    pages.keep("customers:variety_sheet", variety.uid)
    sheet = Sheet.objects.get()
    stranger = OverHttps()
    page = stranger.get(f"/sheet/{sheet.token}/")
    assert page.status_code == 200
    assert "noindex" in page.headers["X-Robots-Tag"]
    text = words(page)
    assert "Pellock" in text
    assert "5 to 6 days" in text  # the rule: a day a foot, for 5 to 6 ft
    # Our own soak, in from 18:00 on the 14th: nearly at 07:30 on the 18th is 3 d 13½ h, folded at 07:30 on the 19th,
    # 4 d 13½ h; lifted at 08:00 that day and right at the bench, so ready by 4 d 14 h. Said to the nearest half day.
    assert "water at about 15 °C: not ready yet at 3½ days, folded by 4½ days" in text
    assert "right at the bench, lifted after 4½ days or less" in text
    assert "1 soak of this variety" in text
    # 150 rods at 6.4 kg: 23.4 to the kilo.
    assert "5 to 6 days 23 " in text
    for private in ("Orla Fenn", "34.50", "Beck Side", "Long trough", bundle_tag()):
        assert private not in text
    return sheet


def bundle_tag():
    return Bundle.objects.order_by("pk").first().tag_shown


def test_from_the_planting_to_the_customers_sheet(pages, clock):
    clock("2025-11-20 10:00")
    plant(pages)
    bundle = grade(pages, clock, cut(pages, clock))
    dry(pages, clock, bundle)
    sell(pages, clock, bundle)
    batch = soak(pages, clock, bundle)
    weave(pages, clock, batch)
    sheet = share(pages)
    story = pages.text("trace:bundle", bundle.uid)
    for what in ("Beck Side", "2025/26", "6.4 kg", "Orla Fenn", "Long trough"):
        assert what in story
    assert doctor() == []
    pages.keep("customers:withdraw", sheet.uid)
    assert OverHttps().get(f"/sheet/{sheet.token}/").status_code == 404
