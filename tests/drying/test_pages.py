import json
import re
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from growers.bundles import actions as bundles
from growers.drying import actions
from growers.drying.models import AirFile, AirReading, MeterReading, OvenTest, Weighing, Word
from growers.people.actions import join
from growers.people.models import Membership, Receipt
from tests.drying.conftest import TIED_ON, day

SUMMER = "2026-06-22 12:00"


@pytest.fixture(autouse=True)
def summer(clock):
    clock(SUMMER)


def living(model, book):
    return model.objects.of(book.hand["holding"])


def test_weigh_and_the_answer_at_once(book, bundle, pages):
    answer = pages.keep("drying:weigh", bundle.uid, mass="6,1 kg", when="now")
    assert answer.url == pages.address("drying:answer", bundle.uid)
    weighing = living(Weighing, book).get()
    # The clock's 12:00 UTC, and its day in London.
    assert (weighing.mass_kg, weighing.on, weighing.at.hour) == (pytest.approx(6.1), day("2026-06-22"), 12)
    text = pages.text("drying:answer", bundle.uid)
    assert "Can't say yet" in text
    assert "Likely since May 2026" in text


def test_a_day_without_its_hour_keeps_no_hour(book, bundle, pages):
    pages.keep("drying:weigh", bundle.uid, mass="6.1 kg", when="21 Jun")
    weighing = living(Weighing, book).get()
    assert (weighing.on, weighing.at) == (day("2026-06-21"), None)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"mass": "", "when": "now"}, "Write a weight"),
        ({"mass": "3 m", "when": "now"}, "is a length"),
        ({"mass": "6 kg", "when": "tomorrow"}, "has not come yet"),
        ({"mass": "6 kg", "when": "1 Jan"}, "was not tied until"),
        # 13 typed as kg were pounds: 5.9 kg.
        ({"mass": "13 kg", "when": "now"}, "Did you mean 13 lb?"),
        ({"mass": "8.3 kg", "when": "now"}, "far from what is usual here"),
        ({"mass": "2 kg", "when": "now"}, "far from what is usual here"),
    ],
)
def test_slips_on_the_scale(book, bundle, pages, typed, sentence):
    text = pages.refused("drying:weigh", bundle.uid, **typed)
    assert sentence in text
    assert not living(Weighing, book).exists()


def test_a_questioned_weight_can_be_confirmed(book, bundle, pages):
    page = pages.send("drying:weigh", bundle.uid, mass="8.3 kg", when="now")
    pages.keep("drying:weigh", bundle.uid, mass="8.3 kg", when="now", sure=page.context["form"].sure)
    assert living(Weighing, book).get().mass_kg == pytest.approx(8.3)


def test_weighing_by_the_tag(book, bundle, pages):
    answer = pages.keep("drying:weigh_by_tag", tag=bundle.tag_shown, mass="6.1 kg", when="now")
    assert answer.url == pages.address("drying:answer", bundle.uid)
    assert living(Weighing, book).get().bundle == bundle


def test_a_mistyped_tag_names_the_near_ones(book, bundle, pages):
    swapped = bundle.tag[:-1] + str((int(bundle.tag[-1]) + 1) % 10)
    text = pages.refused("drying:weigh_by_tag", tag=swapped, mass="6.1 kg", when="now")
    assert f"Did you mean {bundle.tag_shown}?" in text
    assert "Type the figures" in pages.refused("drying:weigh_by_tag", tag="", mass="6.1 kg", when="now")


def test_a_double_tap_gives_one_weighing(book, bundle, pages):
    typed = {"client_id": str(uuid4()), "mass": "6.1 kg", "when": "now"}
    for _tap in range(2):
        assert pages.client.post(pages.address("drying:weigh", bundle.uid), typed).status_code == 302
    assert living(Weighing, book).count() == 1


def test_read_the_air(book, pages):
    pages.keep("drying:air", book.shed.uid, temperature="68 F", humidity="50", at="now")
    reading = living(AirReading, book).get()
    # (68 - 32) · 5/9.
    assert (reading.temperature_c, reading.humidity) == (pytest.approx(20), pytest.approx(0.5))
    assert "has not been read often enough" in pages.text("drying:store", book.shed.uid)
    pages.keep("drying:air", book.shed.uid, temperature="20 C", humidity="50", at="20 Jun 9:00")
    text = pages.text("drying:store", book.shed.uid)
    assert "Rods here settle at about 9 %" in text
    assert "read by hand on 2 days" in text


def test_air_in_fahrenheit_typed_as_celsius_is_asked_about(book, pages):
    text = pages.refused("drying:air", book.shed.uid, temperature="50", humidity="60", at="now")
    assert "Did you mean 50 °F?" in text


def test_a_loggers_file(book, pages):
    rows = "".join(f"2026-06-{d:02d} {h:02d}:00,20,50\n" for d in range(10, 18) for h in range(24))
    file = SimpleUploadedFile("long-shed.csv", f"datetime,temp_c,rh_pct\n{rows}".encode())
    pages.keep("drying:air_file", book.shed.uid, file=file)
    assert living(AirFile, book).get().kept == 8 * 24
    assert "by the air of 8 logged days" in pages.text("drying:store", book.shed.uid)
    assert "long-shed.csv" in pages.text("drying:airs", book.shed.uid)
    again = {"client_id": Receipt.objects.get().client_id}
    row = b"datetime,temp_c,rh_pct\n2026-06-10 14:00,14,55\n"
    another = SimpleUploadedFile("long-shed.csv", row)
    assert "kept already, with something else" in pages.refused("drying:air_file", book.shed.uid, file=another, **again)
    bad = SimpleUploadedFile("long-shed.csv", b"datetime,temp_c,rh_pct\n2026-06-10 14:00,68,55\n")
    assert "Line 2, “68”: no store is that cold or hot" in pages.refused("drying:air_file", book.shed.uid, file=bad)


def test_oven_test(book, bundle, pages):
    pages.keep("drying:oven", "bundle", bundle.uid, wet_g="58", dry_g="50", on="today")
    test = living(OvenTest, book).get()
    assert (test.wet_g, test.dry_g) == (pytest.approx(58), pytest.approx(50))
    text = pages.text("drying:answer", bundle.uid)
    assert "By its own oven test: moisture about 16 %" in text
    assert "wrong way round" in pages.refused("drying:oven", "bundle", bundle.uid, wet_g="50", dry_g="58", on="today")
    assert "more water" in pages.refused("drying:oven", "bundle", bundle.uid, wet_g="500", dry_g="50", on="today")


def test_tests_of_a_stack_and_a_cut(book, bundle, pages):
    stack = bundles.stack_up(**book.hand, name="North rack", bundles=[bundle], on=TIED_ON)
    pages.keep("drying:oven", "stack", stack.uid, wet_g="58", dry_g="50", on="today")
    pages.keep("drying:meter", "cut", book.cut.uid, moisture="18", on="today")
    pages.keep("drying:word", "stack", stack.uid, says="musty", on="today")
    assert living(MeterReading, book).get().moisture == pytest.approx(0.18)
    assert "North rack" in pages.text("drying:tests")
    assert "Damp found" in pages.text("drying:answer", bundle.uid)


def test_no_other_thing_is_sampled(book, bundle, pages):
    assert pages.client.get(f"/hallow-carr/drying/place/{book.shed.uid}/oven/").status_code == 404


def test_what_a_meter_shows_is_in_per_cent(book, bundle, pages):
    assert "in per cent: such as 18 %" in pages.refused(
        "drying:meter", "bundle", bundle.uid, moisture="damp", on="today"
    )


def test_the_growers_word(book, bundle, pages):
    pages.keep("drying:word", "bundle", bundle.uid, says="dry", how="snaps", on="today", note="rattles")
    assert living(Word, book).get().how == "snaps"
    text = pages.text("drying:answer", bundle.uid)
    assert "You call it dry." in text
    assert "Can't say yet" in text
    refused = pages.refused("drying:word", "bundle", bundle.uid, says="mould", how="snaps", on="today")
    assert "goes with “I call it dry” alone" in refused


def test_the_lists(book, bundle, pages):
    assert "Nothing has been weighed yet" in pages.text("drying:weighings")
    assert "None yet" in pages.text("drying:tests")
    assert "The air here was never read" in pages.text("drying:airs", book.shed.uid)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    assert bundle.tag_shown in pages.text("drying:weighings")
    assert bundle.tag_shown in pages.text("drying:store", book.shed.uid)
    assert "Long Shed" in pages.text("drying:drying")


def test_what_wants_doing(book, pages):
    telltale, sister = book.tie(mass=None), book.tie(mass=None)
    bundles.stack_up(**book.hand, name="North rack", bundles=[telltale, sister], on=TIED_ON, telltales=[telltale])
    text = pages.text("drying:drying")
    assert f"Weigh the tell-tale {telltale.tag_shown}" in text
    assert "never weighed yet" in text
    assert "Read the air of Long Shed" in text
    assert sister.tag_shown not in text
    book.weigh(telltale, "2026-06-20", "5.8 kg")
    book.air("2026-06-20 09:00")
    book.word(telltale, "2026-06-21", "mould")
    text = pages.text("drying:drying")
    assert "Weigh the tell-tale" not in text
    assert "Read the air" not in text
    assert f"Look into the middle of {sister.tag_shown}" in text


def test_correcting_shows_what_was_typed(book, bundle, pages):
    weighing = book.weigh(bundle, "2026-06-01", "12 lb 3 oz")
    test = book.oven(bundle, "2026-06-01", 116)
    air = book.air("2026-06-01 09:00")
    word = book.word(bundle, "2026-06-01", "dry", how="snaps")
    page = pages.open("drying:correct_weighing", weighing.uid).content.decode()
    assert 'value="12 lb 3 oz"' in page
    assert "1 Jun 2026" in page
    pages.keep("drying:correct_weighing", weighing.uid, mass="12 lb 5 oz", when="2 Jun 2026", why="misread")
    weighing.refresh_from_db()
    assert (weighing.mass_text, weighing.on) == ("12 lb 5 oz", day("2026-06-02"))
    pages.keep("drying:correct_oventest", test.uid, wet_g="117 g", dry_g="100 g", on="1 Jun 2026")
    pages.keep("drying:correct_airreading", air.uid, temperature="19", humidity="55", at="1 Jun 2026 10:00")
    pages.keep("drying:correct_word", word.uid, says="musty", how="", on="1 Jun 2026")
    for record in (test, air, word):
        record.refresh_from_db()
    assert (test.wet_g, air.temperature_c, word.says, word.how) == (pytest.approx(117), 19, "musty", "")


def test_correcting_a_meter_reading(book, bundle, pages):
    pages.keep("drying:meter", "bundle", bundle.uid, moisture="18", on="today")
    reading = living(MeterReading, book).get()
    pages.keep("drying:correct_meterreading", reading.uid, moisture="19 %", on="today", meter="two pins")
    reading.refresh_from_db()
    assert (reading.moisture, reading.meter) == (pytest.approx(0.19), "two pins")


def test_the_curve_is_data_and_its_table_stands_beneath(book, bundle, pages):
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    book.oven(bundle, "2026-06-01", 116)
    page = pages.open("drying:answer", bundle.uid).content.decode()
    sent = re.search(r'<script id="weighings-figure" type="application/json">(.*?)</script>', page)[1]
    assert json.loads(sent)["data"][0]["y"] == [8.0, 5.8]
    assert page.count("<style") == 0
    assert "style=" not in page
    assert "5.8 kg" in page


def test_one_point_is_no_curve(book, bundle, pages):
    assert "weighings-figure" not in pages.open("drying:answer", bundle.uid).content.decode()


def test_another_holdings_bundle_is_not_found(book, bundle, client, ida, other):
    client.force_login(ida)
    assert client.get(f"/nether-sallow/drying/bundle/{bundle.uid}/").status_code == 404
    assert client.get(f"/nether-sallow/drying/bundle/{bundle.uid}/weigh/").status_code == 404
    assert client.get(f"/nether-sallow/drying/bundle/{bundle.uid}/oven/").status_code == 404
    assert client.get(f"/nether-sallow/drying/store/{book.shed.uid}/").status_code == 404


def test_who_only_looks_may_not_write(book, bundle, client, ida):
    join(holding=book.hand["holding"], user=ida, role=Membership.Role.READER)
    client.force_login(ida)
    address = f"/hallow-carr/drying/bundle/{bundle.uid}/weigh/"
    assert client.post(address, {"client_id": str(uuid4()), "mass": "6 kg", "when": "now"}).status_code == 403
    assert not living(Weighing, book).exists()
    assert client.get(f"/hallow-carr/drying/bundle/{bundle.uid}/").status_code == 200


def test_looking_judges_no_more_than_is_stale(book, bundle, pages, monkeypatch):
    pages.open("drying:answer", bundle.uid)
    monkeypatch.setattr(actions.judging, "assess_all", None)
    pages.open("drying:answer", bundle.uid)
