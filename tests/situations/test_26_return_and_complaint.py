"""Situation 26: five-foot rods would not bend after five days in a January stream; own soaks answer honestly."""

import pytest

from growers.customers import actions
from growers.customers.models import Complaint
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.people.actions import change_settings
from growers.science import units
from growers.soaking import actions as soaking
from tests.customers.conftest import bundle, cut, orla, pellock, sell, utc  # noqa: F401
from tests.pages import words


@pytest.fixture(autouse=True)
def june(clock):
    clock("2026-06-20 12:00")


@pytest.fixture
def soak(hand, bundle, utc):  # noqa: F811
    """A tenth soaked from a day on, five days long: soak("2026-03-02", "14 °C") folded at the first look, lifted."""

    def soak(start, water=None, result="folds", out_of=bundle):
        tank = soaking.add_tank(**hand, name=f"Trough {start}")
        at, out = utc(f"{start} 07:00"), utc(f"{start[:-2]}{int(start[-2:]) + 5:02d} 07:00")
        batch = soaking.put_in(**hand, bundle=out_of, tank=tank, moment=Moment(at, at, ""), much=read_much("10 rods"))
        if water:
            soaking.read_water(**hand, tank=tank, at=at, temperature=units.read_temperature(water))
        soaking.check_bend(**hand, batch=batch, at=out, result=result)
        return batch

    return soak


@pytest.fixture
def three_soaks(soak):
    soak("2026-03-02", "14 °C")
    soak("2026-04-02", "16 °C")
    soak("2026-05-02", "18 °C")


def complain(pages, line, **told):
    told = {"what": "brittle", "on": "today"} | told
    pages.keep("customers:complain", line.uid, **told)
    return Complaint.objects.order_by("pk").last()


def test_26_three_soaks_none_this_cold(pages, sell, orla, three_soaks):  # noqa: F811
    sold = sell("1 kg", on="2026-06-01", customer=orla)
    complaint = complain(pages, sold, water="4 °C", hours="5 days", note="in a January stream")
    assert (complaint.water_c, complaint.soaked_hours) == (4.0, 120)
    text = pages.text("customers:complaint", complaint.uid)
    assert "Our own soaks of Pellock: 3 soaks, all at 14 to 18 °C; none this cold." in text
    assert "3 of them were of 5 ft rods." in text
    # 1.524 to 1.8288 m at a day for each 0.3048 m.
    assert "They had 5 days in the water; by the rule 5 ft rods want 5 to 6 days." in text
    assert "5 ft, 14 °C: folded at the first look, at 5 days or sooner" in text
    form = pages.open("customers:complaint", complaint.uid).context["form"]
    assert "none this cold" in form["answer"].value()


def test_26_the_lot_is_found_with_what_was_said_that_day(pages, sell, orla, bundle, three_soaks):  # noqa: F811
    sold = sell("1 kg", on="2026-06-01", customer=orla)
    text = pages.text("customers:complaint", complain(pages, sold).uid)
    assert bundle.tag_shown in text
    assert "winter 2025/26" in text
    assert "Can't say yet" in text
    assert "how warm the water of the complaint was is not told" in text


def test_26_soaks_in_like_water_are_shown_alone(pages, sell, three_soaks):  # noqa: F811
    complaint = complain(pages, sell("1 kg", on="2026-06-01"), water="12 °C")
    text = pages.text("customers:complaint", complaint.uid)
    # Within 3 °C of 12 °C there is the soak at 14 °C.
    assert "3 soaks, all at 14 to 18 °C; 1 in water like that." in text
    assert "In water like theirs: 5 ft, 14 °C: folded" in text
    assert "16 °C: folded" not in text


@pytest.mark.parametrize(
    ("soaks", "water", "said"),
    [
        ([], "4 °C", "none in the book yet, there is only the rule to go by"),
        ([("2026-03-02", "14 °C")], "4 °C", "1 soak, at 14 °C; none this cold"),
        ([("2026-03-02", "14 °C")], "25 °C", "1 soak, at 14 °C; none this warm"),
        (
            [("2026-03-02", "4 °C"), ("2026-05-02", "16 °C")],
            "10 °C",
            "2 soaks, all at 4 to 16 °C; none in water like that",
        ),
        ([("2026-03-02", "14 °C"), ("2026-05-02", "14 °C")], "cold", "2 soaks, all at 14 °C; none this cold"),
        # The third soak had no thermometer in that month or any other: its water is not known.
        ([("2026-03-02", None)], "4 °C", "1 soak, in water that nobody measured"),
        (
            [("2026-03-02", None), ("2026-05-02", "14 °C")],
            "4 °C",
            "2 soaks, 1 of them in water that is known, at 14 °C; none this cold",
        ),
    ],
)
def test_26_the_sentence_is_built_from_the_book(pages, sell, soak, soaks, water, said):  # noqa: F811
    for each in soaks:
        soak(*each)
    complaint = complain(pages, sell("1 kg", on="2026-06-01"), water=water)
    assert f"Our own soaks of Pellock: {said}." in pages.text("customers:complaint", complaint.uid)


def test_26_in_the_units_of_the_book(hand, pages, sell, three_soaks):  # noqa: F811
    change_settings(**hand, temperature_unit="F")
    complaint = complain(pages, sell("1 kg", on="2026-06-01"), water="39")
    # 14 °C is 57.2 °F and 18 °C 64.4 °F; 39 °F is 3.9 °C.
    assert "all at 57 to 64 °F; none this cold" in pages.text("customers:complaint", complaint.uid)


def test_26_the_rods_come_back_as_a_bundle_of_the_same_origin(pages, hand, sell, orla, bundle, three_soaks):  # noqa: F811
    sold = sell("2 kg", on="2026-06-01", customer=orla)
    pages.keep("customers:bring_back", sold.uid, much="half", soaked="on", on="today")
    back = sold.returns.get()
    assert (back.part_ppb, back.bundle.soaked_before, back.bundle.made) == (500_000_000, True, "returned")
    assert back.bundle.origins.get().cut == bundle.origins.get().cut
    text = pages.text("customers:sale", sold.sale.uid)
    assert f"Brought back half, Sat 20 Jun 2026 , {back.bundle.tag_shown}" in text
    assert back.bundle.tag_shown in pages.text("trace:bundle", bundle.uid)


def test_26_an_answer_is_kept_and_the_complaint_not_asked_any_more(pages, sell, orla, three_soaks):  # noqa: F811
    complaint = complain(pages, sell("1 kg", on="2026-06-01", customer=orla), water="4 °C")
    assert "Answer Orla Fenn: brittle, would not bend" in pages.text("today:today")
    pages.keep("customers:complaint", complaint.uid, answer="None of ours was this cold. Try ten days.", on="today")
    text = pages.text("customers:complaint", complaint.uid)
    assert "Answered Sat 20 Jun 2026 None of ours was this cold. Try ten days." in text
    assert "Answer Orla Fenn" not in pages.text("today:today")


def test_26_mixed_rods_have_no_soaks_of_their_own(pages, hand, bundle, cut, day):  # noqa: F811
    from growers.stock import actions as stock
    from tests import ground

    other = ground.tied(hand, ground.cut(hand, ground.planted(hand, "Merrow Red")), on=day("2026-01-12"))[0]
    mixed = stock.merge(**hand, bundles=[bundle, other], on=day("2026-02-01")).bundles.get()
    sold = actions.sell(**hand, bundle=mixed, on=day("2026-06-01"), much=read_much("half"))
    page = pages.open("customers:complaint", complain(pages, sold).uid)
    assert "These rods are of more than one variety: no soak of ours speaks for them." in words(page)
