"""Situations 22 and 23: a dry bundle that grows heavier in a damp autumn, and one that was dry outside alone."""

from datetime import date, timedelta

import pytest

from growers.bundles import actions as bundles
from growers.drying.actions import judge_stale
from growers.drying.queries import answers_for, due
from tests.drying.conftest import Book

# A maritime shed read by hand, every ten days from September to March [°C, %].
AIR = [
    ("2026-09-05", 12, 80), ("2026-09-15", 12, 82), ("2026-09-25", 11, 84), ("2026-10-05", 11, 84),
    ("2026-10-15", 10, 86), ("2026-10-25", 9, 88), ("2026-11-04", 8, 88), ("2026-11-14", 8, 90),
    ("2026-11-24", 7, 90), ("2026-12-04", 6, 92), ("2026-12-14", 5, 92), ("2026-12-24", 5, 92),
    ("2027-01-03", 5, 91), ("2027-01-13", 5, 92), ("2027-01-23", 6, 90), ("2027-02-02", 6, 90),
    ("2027-02-12", 7, 88), ("2027-02-22", 8, 86), ("2027-03-04", 8, 85), ("2027-03-14", 9, 84),
    ("2027-03-24", 10, 82),
]  # fmt: skip


@pytest.fixture
def book(hand):
    return Book(hand)


@pytest.fixture
def dried(book):
    """Tested at 12 % and weighed on 20 August: by far within the limit of about 16 %."""
    bundle = book.tie()
    book.oven(bundle, "2026-08-20", 112)
    book.weigh(bundle, "2026-08-20", "4.48 kg")  # dry mass 4.48 / 1.12 = 4 kg
    return bundle


def test_22_a_damp_autumn_flips_no_dried_out_bundle_back(book, dried, holding):
    sisters = [book.tie() for _each in range(2)]
    bundles.stack_up(**book.hand, name="North rack", bundles=[dried, *sisters], on=date(2026, 1, 20), telltales=[dried])
    for on, temperature, humidity in AIR:
        book.air(f"{on} 09:00", f"{temperature} °C", f"{humidity} %")
    # It gains 3 % by December, 4.48 × 1.03 = 4.61 kg, and loses none of it before March.
    for on, kg in (("2026-10-10", 4.53), ("2026-11-10", 4.58), ("2026-12-10", 4.61), ("2027-02-10", 4.61)):
        book.weigh(dried, on, f"{kg} kg")
    judged = date(2026, 8, 20)
    said = {}
    while judged <= date(2027, 3, 31):
        judge_stale(holding=holding, today=judged)
        for pk, answer in answers_for([dried, *sisters]).items():
            said.setdefault(pk, []).append(answer.answer)
            assert pk != dried.pk or answer.dried_out_on == date(2026, 8, 20), judged
        judged += timedelta(days=7)
    assert set(said[dried.pk]) == {"dry"}
    # A sister told by her tell-tale is not dry by that alone at first; once she is, she stays so.
    for sister in sisters:
        answers = said[sister.pk]
        assert "dry" not in answers or set(answers[answers.index("dry") :]) == {"dry"}


def test_22_it_is_air_damp_and_the_page_says_to_air_it_before_selling_by_weight(book, dried, holding):
    for on, temperature, humidity in AIR[:11]:
        book.air(f"{on} 09:00", f"{temperature} °C", f"{humidity} %")
    book.weigh(dried, "2026-12-10", "4.61 kg")
    said = book.assess(dried, "2026-12-15")
    assert (said.answer, said.details["air_damp"]) == ("dry", True)
    # That it rose is asked of a bundle not yet dry; of a dried-out one it is the weather.
    assert "rose" in said.details["asks"]
    judge_stale(holding=holding, today=date(2026, 12, 15))
    assert not [each for each in due(holding, today=date(2026, 12, 15), now=None) if each.kind == "weigh"]


def test_22_rising_weight_is_no_drying_loss_and_changes_nothing_in_the_ledger(book, dried):
    before = dried.left_ppb
    book.weigh(dried, "2026-12-10", "4.61 kg")
    dried.refresh_from_db()
    assert dried.left_ppb == before


def test_23_mould_in_the_middle_reopens_it_and_asks_after_her_sisters(book, dried, holding, pages):
    sister = book.tie()
    bundles.stack_up(**book.hand, name="North rack", bundles=[dried, sister], on=date(2026, 1, 20))
    assert book.assess(dried, "2026-09-01").answer == "dry"
    book.word(dried, "2026-09-17", "mould", note="white in the core")
    assert book.assess(dried, "2026-09-18").answer == "damp_found"
    judge_stale(holding=holding, today=date(2026, 9, 18))
    asked = [each for each in due(holding, today=date(2026, 9, 18), now=None) if each.kind == "look_at_sister"]
    assert [each.tag for each in asked] == [sister.tag]
    assert "A sister in its stack was found damp" in pages.text("drying:answer", sister.uid)
    # What was known on 1 September stays what was known then.
    assert book.assess(dried, "2026-09-16").answer == "dry"
    # Only a new test, or the grower's word, clears it.
    book.weigh(dried, "2026-10-01", "4.4 kg")
    assert book.assess(dried, "2026-10-01").answer == "damp_found"
    book.oven(dried, "2026-10-10", 112)
    assert book.assess(dried, "2026-10-10").answer == "dry"
