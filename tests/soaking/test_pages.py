"""At the tank, with a phone in a wet hand."""

import re
from uuid import uuid4

import pytest
from django.test import Client

from growers.bundles import actions as bundles
from growers.people import actions as people
from growers.people.models import Membership
from growers.science import units
from growers.soaking import actions
from growers.soaking.models import Batch, BenchResult, BendCheck, DriedAgain, Lift, Mellow, Spoiled, Tank, WaterReading
from growers.soaking.views import CORRECTIONS

MORNING = "2026-03-06 08:00"


def html(pages, name, *args):
    return pages.open(name, *args).content.decode()


@pytest.fixture(autouse=True)
def at_the_tank(clock):
    clock(MORNING)


def test_an_empty_book_says_what_to_do_first(pages, bundle):
    assert "Write down the first tank" in pages.text("soaking:tank")
    assert "Write down the first tank" in pages.text("soaking:put_in", bundle.uid)


def test_a_tank_is_written_down(pages, holding):
    pages.keep("soaking:add_tank", name="Trough", what="trough", greatest_length="6'6", room_bundles="8")
    tank = Tank.objects.of(holding).get()
    assert (tank.name, tank.room_bundles) == ("Trough", 8)
    assert tank.greatest_length_m == pytest.approx(1.9812)  # 78 in × 0.0254
    text = pages.text("soaking:tanks")
    assert "Trough" in text
    assert "6'6" in text


def test_the_water_by_number_by_hand_and_like_last_time(pages, tank, holding):
    pages.keep("soaking:water", tank.uid, temperature="46 F", at="7:30")
    pages.keep("soaking:water", tank.uid, temperature="cold", at="7:45")
    pages.keep("soaking:water", tank.uid, temperature="like last time")
    texts = [(r.temperature_text, r.how) for r in WaterReading.objects.of(holding).order_by("at")]
    assert texts == [("46 F", "measured"), ("cold", "word"), ("cold", "same")]
    assert "cold" in pages.text("soaking:tank")


def test_hot_water_is_asked_about(pages, tank, holding):
    answer = pages.send("soaking:water", tank.uid, temperature="48")
    assert answer.status_code == 422
    assert answer.context["form"].asks
    assert not WaterReading.objects.of(holding).exists()


def test_rods_are_put_in(pages, bundle, tank, holding):
    assert "Pellock, 5 ft" in pages.text("soaking:put_in", bundle.uid)
    said = {"much": "half", "tank": tank.uid, "moment": "7:10", "all_under": "on", "water": "cool"}
    pages.keep("soaking:put_in", bundle.uid, **said)
    batch = Batch.objects.of(holding).get()
    assert (batch.tank, batch.all_under, batch.taking.said_text) == (tank, True, "half")
    assert batch.in_at.hour == 7
    assert WaterReading.objects.of(holding).get().temperature_text == "cool"


def test_the_only_tank_is_down_already(pages, bundle, tank):
    page = html(pages, "soaking:put_in", bundle.uid)
    assert re.search(rf'value="{tank.uid}"[^>]*checked', page)


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"much": ""}, "much", "Say how much"),
        ({"much": "lots"}, "much", "be read"),
        ({"much": "200 rods"}, "much", "By the book about 100 rods"),
        ({"much": "half", "moment": "tomorrow 7:00"}, "moment", "has not come yet"),
        ({"much": "half", "moment": "1 Jan 2026 7:00"}, "moment", "was not tied until"),
        ({"much": "half", "water": "8 kg"}, "water", "."),
        ({"much": "half", "water": "like last time"}, "water", "Nobody has read the water"),
    ],
)
def test_what_a_tired_person_types(pages, bundle, tank, holding, said, field, sentence):
    answer = pages.send("soaking:put_in", bundle.uid, **({"tank": tank.uid, "moment": "now"} | said))
    assert answer.status_code == 422
    form = answer.context["form"]
    assert list(form.errors) == [field]
    assert re.search(sentence, str(form.errors[field]))
    assert not Batch.objects.of(holding).exists()
    # Nothing typed is lost.
    assert form["much"].value() == said["much"]


def test_white_into_brown_water_is_asked_about_once(pages, hand, batch, tank, five_foot, day, holding):
    white = bundles.buy_in(**hand, supplier="Orla Fenn", on=day("2026-01-20"), length_class=five_foot, type="white")[0]
    said = {"much": "half", "tank": tank.uid, "moment": "now", "all_under": "on"}
    answer = pages.send("soaking:put_in", white.uid, **said)
    assert answer.status_code == 422
    assert "stains white" in answer.content.decode()
    pages.keep("soaking:put_in", white.uid, **said, sure=answer.context["form"].sure)
    assert Batch.objects.of(holding).count() == 2


def test_a_tag_leads_to_the_bundle_and_a_mistyped_one_to_its_neighbours(pages, bundle):
    answer = pages.client.get(pages.address("soaking:put_in_by_tag"), {"tag": bundle.tag_shown})
    assert answer.headers["Location"] == pages.address("soaking:put_in", bundle.uid)
    wrong = ("1" if bundle.tag[0] != "1" else "2") + bundle.tag[1:]
    assert "Type the figures on its tag" in pages.text("soaking:put_in_by_tag", tag="")
    page = pages.client.get(pages.address("soaking:put_in_by_tag"), {"tag": wrong}).content.decode()
    assert "No bundle of yours has the tag" in page
    assert "Did you mean one of these?" in page
    assert bundle.tag_shown in page


def test_one_tap_on_the_board_is_a_bend_check(pages, batch, holding):
    page = html(pages, "soaking:tank")
    client_id = re.search(r'name="client_id" value="([0-9a-f-]{36})"', page)[1]
    sent = {"client_id": client_id, "result": "cracks"}
    for _tap in range(2):
        answer = pages.client.post(pages.address("soaking:check", batch.uid), sent)
        assert answer.status_code == 302
        assert answer.headers["Location"] == pages.address("soaking:tank")
    check = BendCheck.objects.of(holding).get()
    assert (check.result, check.at.hour, check.rods_tried) == ("cracks", 8, None)
    assert "cracks" in pages.text("soaking:tank")


def test_the_board_says_when_to_look_next(pages, batch, clock):
    clock("2026-03-06 06:00")
    assert "Next look Fri 6 Mar 2026, 7:00 (a guess)" in pages.text("soaking:tank")
    clock("2026-03-06 07:30")
    assert "Next look now" in pages.text("soaking:tank")
    clock("2026-03-12 07:30")
    assert "well past the rule" in pages.text("soaking:tank")


def test_once_it_folds_the_row_says_lift(pages, batch):
    pages.keep("soaking:check", batch.uid, result="folds", at="7:00")
    page = pages.text("soaking:tank")
    assert "It folds: lift it" in page


def test_the_same_check_by_another_is_asked_about(pages, batch, tam, hand, holding):
    actions.check_bend(
        holding=holding, by=tam, batch=batch, at=batch.went_in.at.replace(day=6, hour=7, minute=58), result="cracks"
    )
    answer = pages.send("soaking:check", batch.uid, result="cracks", at="now")
    assert answer.status_code == 422
    assert "tam wrote" in answer.content.decode()
    pages.keep("soaking:check", batch.uid, result="cracks", at="now", sure=answer.context["form"].sure)
    assert BendCheck.objects.of(holding).count() == 2


def test_lifted_wrapped_unwrapped_worked(pages, batch, holding):
    pages.keep(
        "soaking:lift", batch.uid, part="a third", which="the thin ones", state="nearly", moment="7:30", wrap_in="sheet"
    )
    lifted = Lift.objects.of(holding).get()
    assert (lifted.part_ppb, lifted.which, lifted.state) == (333_333_333, "the thin ones", "nearly")
    mellow = Mellow.objects.of(holding).get()
    pages.keep("soaking:unwrap", mellow.uid, ended_at="now")
    mellow.refresh_from_db()
    assert mellow.ended_at.hour == 8
    pages.keep("soaking:bench", lifted.uid, result="right", at="now")
    assert BenchResult.objects.of(holding).get().lift == lifted
    pages.keep("soaking:lift", batch.uid, part="", moment="now")
    batch.refresh_from_db()
    assert batch.in_water_ppb == 0
    second = Lift.objects.of(holding).order_by("pk").last()
    pages.keep("soaking:wrap", second.uid, wrap="hessian", began_at="now")
    story = pages.text("soaking:batch", batch.uid)
    assert "the thin ones" in story
    assert "at the bench" in story


def test_lifting_more_than_there_is_keeps_what_was_typed(pages, batch, lift, holding):
    lift(batch, at="2026-03-06 07:00")
    answer = pages.send("soaking:lift", batch.uid, part="half", which="the last", moment="now")
    assert answer.status_code == 422
    assert "lifted already" in str(answer.context["form"].errors["part"])
    assert answer.context["form"]["which"].value() == "the last"


def test_a_whole_soak_on_one_page(pages, bundle, tank, holding):
    said = {"much": "the rest", "tank": tank.uid, "all_under": "on", "result": "right"}
    answer = pages.send("soaking:whole_soak", bundle.uid, **said, went_in="5 Mar 2026", came_out="1 Mar 2026")
    assert "come out before" in str(answer.context["form"].errors["came_out"])
    pages.keep(
        "soaking:whole_soak", bundle.uid, **said, went_in="1 Mar 2026", came_out="5 Mar 2026 18:00", water="mild"
    )
    batch = Batch.objects.of(holding).get()
    assert batch.in_until_at > batch.in_at
    assert batch.in_water_ppb == 0
    assert BenchResult.objects.of(holding).get().result == "right"
    text = pages.text("soaking:variety", batch.taking.bundle.grading.cut.planting.variety.uid)
    assert "right at the bench" in text


def test_taking_back_a_whole_soak_takes_all_of_it_back(pages, bundle, tank, holding):
    said = {"much": "the rest", "tank": tank.uid, "all_under": "on", "result": "right"}
    pages.keep("soaking:whole_soak", bundle.uid, **said, went_in="1 Mar 2026", came_out="5 Mar 2026 18:00")
    batch = Batch.objects.of(holding).get()
    pages.client.post(pages.address("people:take_back", "batch", batch.uid))
    assert not Batch.objects.of(holding).exists()
    bundle.refresh_from_db()
    assert bundle.left_ppb == 1_000_000_000


def test_dried_again_warns_and_spoiled_says_why(pages, batch, lift, holding):
    lift(batch, at="2026-03-06 07:00")
    assert "Many hold rods that were soaked and dried again to be waste" in pages.text("soaking:dry_again", batch.uid)
    pages.keep("soaking:dry_again", batch.uid, part="half", on="today", mass="2 kg")
    assert DriedAgain.objects.of(holding).get().bundle.tied_mass_kg == 2
    answer = pages.send("soaking:spoil", batch.uid, part="all", cause="", on="today")
    assert list(answer.context["form"].errors) == ["cause"]
    pages.keep("soaking:spoil", batch.uid, part="all", cause="black spots", on="today")
    assert Spoiled.objects.of(holding).get().part_ppb == 500_000_000


@pytest.fixture
def one_of_each(hand, batch, lift, check, tank, utc, day):
    """A record of every kind that a person types at the tank."""
    reading = actions.read_water(
        **hand, tank=tank, at=utc("2026-03-05 07:00"), temperature=units.read_temperature("7 C")
    )
    looked = check(batch, "nearly", "2026-03-05 07:00")
    lifted = lift(batch, at="2026-03-05 08:00")
    mellow = actions.wrap(**hand, lift=lifted, began_at=utc("2026-03-05 08:10"), wrap="sheet")
    bench = actions.bench_result(**hand, lift=lifted, at=utc("2026-03-05 20:00"), result="right")
    steamed = actions.steam(
        **hand, lift=lifted, at=utc("2026-03-05 19:00"), minutes=units.read_hours("20 min"), purpose="finish"
    )
    damped = actions.redamp(
        **hand, lift=lifted, how="soaked", tank=tank, at=utc("2026-03-05 21:00"), hours=units.read_hours("2 h")
    )
    gone = actions.gone_over(**hand, lift=lifted, on=day("2026-03-06"), what="mould")
    dried = actions.dry_again(**hand, batch=batch, on=day("2026-03-06"), part=units.read_part("a third"))
    spoiled = actions.spoil(**hand, batch=batch, on=day("2026-03-06"), cause="slimy", part=units.read_part("half"))
    records = (tank, reading, batch, looked, lifted, mellow, bench, steamed, damped, gone, dried, spoiled)
    return {record.kind: record for record in records}


def as_shown(form):
    """What the browser would send back untouched."""
    sent = {}
    for field in form:
        value = form[field.name].value()
        if hasattr(field.field, "prepare_value"):
            value = field.field.prepare_value(value)
        if value is True:
            sent[field.html_name] = "on"
        elif value not in (None, False):
            sent[field.html_name] = str(value)
    return sent


@pytest.mark.parametrize("kind", CORRECTIONS)
def test_a_correction_untouched_changes_nothing(pages, one_of_each, kind):
    record = one_of_each[kind]
    model = type(record)
    before = model.objects.filter(pk=record.pk).values().get()
    batch = one_of_each["batch"]
    parts = Batch.objects.filter(pk=batch.pk).values("in_water_ppb", "left_ppb").get()
    form = pages.client.get(pages.address(f"soaking:correct_{kind}", record.uid)).context["form"]
    answer = pages.client.post(pages.address(f"soaking:correct_{kind}", record.uid), as_shown(form))
    assert answer.status_code == 302, answer.context["form"].errors
    assert answer.headers["Location"] == pages.address("people:record", kind, record.uid)
    assert model.objects.filter(pk=record.pk).values().get() == before
    assert Batch.objects.filter(pk=batch.pk).values("in_water_ppb", "left_ppb").get() == parts


def test_a_corrected_check(pages, one_of_each):
    looked = one_of_each["bendcheck"]
    pages.keep("soaking:correct_bendcheck", looked.uid, at="5 Mar 2026 7:30", result="folds", why="heard wrong")
    looked.refresh_from_db()
    assert looked.result == "folds"


ALL_PAGES = ["tank", "tanks", "add_tank", "put_in_by_tag"]


@pytest.mark.parametrize("name", ALL_PAGES)
def test_every_page_opens(pages, one_of_each, name):
    assert "<h1" in html(pages, f"soaking:{name}")


def of_records(one_of_each, bundle):
    batch, lift, mellow = (one_of_each[kind] for kind in ("batch", "lift", "mellow"))
    yield from ((name, bundle) for name in ("put_in", "whole_soak"))
    yield from ((name, batch) for name in ("batch", "check", "lift", "dry_again", "spoil"))
    yield from ((name, lift) for name in ("wrap", "bench", "steam", "redamp", "gone_over"))
    yield from (("unwrap", mellow), ("water", one_of_each["tank"]))
    yield from ((f"correct_{kind}", record) for kind, record in one_of_each.items())


def test_another_holdings_records_are_not_there(one_of_each, bundle, pages, other, ida):
    elsewhere = type(pages)(type(pages.client)(), other.slug)
    elsewhere.client.force_login(ida)
    for name, record in of_records(one_of_each, bundle):
        assert pages.client.get(pages.address(f"soaking:{name}", record.uid)).status_code == 200, name
        assert elsewhere.client.get(elsewhere.address(f"soaking:{name}", record.uid)).status_code == 404, name


def test_a_reader_may_look_but_not_write(one_of_each, bundle, pages, holding, ida):
    people.join(holding=holding, user=ida, role=Membership.Role.READER)
    pages.client.force_login(ida)
    assert "Put rods in the water" not in pages.text("soaking:tank")
    for name, record in of_records(one_of_each, bundle):
        if name == "batch":
            continue
        answer = pages.client.post(pages.address(f"soaking:{name}", record.uid), {"client_id": str(uuid4())})
        assert answer.status_code == 403, name


def test_without_signing_in_nothing_is_shown(pages, batch):
    answer = Client().get(pages.address("soaking:batch", batch.uid), secure=True)
    assert answer.status_code == 302
    assert "/sign-in/" in answer.headers["Location"]
