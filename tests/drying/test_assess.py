"""The answer, by figures worked out by hand.

Indoors at 20 °C and 50 % rods come to rest at 0.09271; 2 % of shrinking is still to come at
0.09271 + 0.02 · 0.30 / 0.087 = 0.16168: the limit of dry.
"""

from datetime import timedelta
from statistics import NormalDist

import pytest

from growers.bundles import actions as bundles
from growers.bundles.models import Making, Taking
from growers.drying.queries import mass_history, moisture_on
from growers.people.actions import change_settings, strike_out
from tests.drying.conftest import TIED_ON, day, instant

LIMIT = 0.161677


def chance(z):
    return pytest.approx(NormalDist().cdf(z), abs=2e-4)


def test_nothing_measured_is_a_guess_by_the_calendar(book, bundle):
    said = book.assess(bundle, "2026-03-01")
    assert (said.answer, said.how_known, said.chance, said.moisture) == ("cant_say", "calendar", None, None)
    # Cut in December, so from May: five months after the month of the cut.
    assert said.details["likely_from"] == "2026-05-01"
    assert said.measure_next == "weigh"
    # Six weeks after it was tied and weighed.
    assert said.weigh_next_on == TIED_ON + timedelta(days=42)


@pytest.mark.parametrize(
    ("on", "answer"),
    # Cut on 28 December: 7 February is 41 days on, 8 February six weeks.
    [("2026-01-20", "not_yet"), ("2026-02-07", "not_yet"), ("2026-02-08", "cant_say")],
)
def test_none_are_dry_within_six_weeks_of_the_cut(book, bundle, on, answer):
    said = book.assess(bundle, on)
    assert (said.answer, said.how_known, said.moisture, said.dry_on) == (answer, "calendar", None, None)
    assert said.measure_next == "weigh"


def test_within_six_weeks_a_word_and_a_test_are_heard(book, bundle):
    book.word(bundle, "2026-01-25", "dry")
    said = book.assess(bundle, "2026-01-26")
    assert (said.answer, said.how_known) == ("cant_say", "word")
    book.oven(bundle, "2026-01-26", 200)
    said = book.assess(bundle, "2026-01-26")
    assert (said.answer, said.how_known, said.moisture) == ("not_yet", "measured", pytest.approx(1.0))


def test_the_guess_hears_the_air_of_its_store(book, bundle):
    for on in ("2026-02-20", "2026-03-01"):
        book.air(f"{on} 09:00", "10 °C", "70 %")
    said = book.assess(bundle, "2026-03-01")
    # Rods there rest at 13.43 %; the limit is 9.271 + 2 · 30 / 8.7 = 16.168 %. At 10 °C, 0.026 a day:
    # ln((1 - 0.1343) / (0.1617 - 0.1343)) / 0.026 = 133 days from 28 December are 10 May.
    assert said.store_moisture == pytest.approx(0.1343, abs=1e-4)
    assert (said.answer, said.how_known, said.moisture) == ("cant_say", "calendar", None)
    assert said.details["likely_by_air"] == "2026-05-10"
    for on in ("2026-05-01", "2026-05-10"):
        book.air(f"{on} 09:00", "5 °C", "85 %")
    assert book.assess(bundle, "2026-05-10").details["likely_by_air"] == "never"


def test_once_the_calendar_says_likely_an_oven_test_settles_it(book, bundle):
    assert book.assess(bundle, "2026-06-01").measure_next == "oven"


def test_an_oven_test_tells_the_moisture(book, bundle):
    book.oven(bundle, "2026-06-01", 158)
    said = book.assess(bundle, "2026-06-01")
    # (158 - 100) / 100; sd 0.01 + 0.07 · (0.58 - 0.25) / 0.75 = 0.0408; four in five within 1.2816 of it.
    assert said.moisture == pytest.approx(0.58)
    assert said.moisture_low == pytest.approx(0.58 - 1.2816 * 0.0408)
    assert said.moisture_high == pytest.approx(0.58 + 1.2816 * 0.0408)
    assert (said.answer, said.how_known, said.dry_on) == ("not_yet", "measured", None)
    # Above 0.30 nothing has shrunk yet: 0.087 · (0.30 - 0.09271) / 0.30.
    assert said.shrinkage_to_come == pytest.approx(0.060114, abs=1e-6)


def test_a_weighing_carries_a_test_on(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    assert book.assess(bundle, "2026-06-01").answer == "cant_say"
    # Dry mass 5.8 / 1.16 = 5 kg; 5.6 / 5 - 1 = 0.12. Its sd: 0.01 · 1.12 / 1.16 = 0.009655, and 0.5 % of 1.12 for
    # the scale: sqrt(0.009655² + 0.0056²) = 0.011162.
    book.weigh(bundle, "2026-06-22", "5.6 kg")
    said = book.assess(bundle, "2026-06-22")
    assert said.moisture == pytest.approx(0.12)
    assert said.moisture_high - said.moisture == pytest.approx(1.2816 * 0.011162, abs=1e-6)
    assert said.chance == chance((LIMIT - 0.12) / 0.011162)
    assert (said.answer, said.dried_out_on, said.how_known) == ("dry", day("2026-06-22"), "measured")


def test_rods_taken_out_are_no_drying(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    bundles.take(
        **book.hand, bundle=bundle, on=day("2026-06-10"), purpose=Taking.Purpose.SOAK, share_ppb=500_000_000,
        said_how=Taking.SaidHow.PART,
    )  # fmt: skip
    book.weigh(bundle, "2026-06-22", "2.8 kg")
    assert book.assess(bundle, "2026-06-22").moisture == pytest.approx(0.12)


def test_on_one_day_a_weighing_comes_before_a_taking_unless_its_hour_says_otherwise(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    bundles.take(
        **book.hand, bundle=bundle, on=day("2026-06-22"), at=instant("2026-06-22 09:00"), purpose=Taking.Purpose.SOAK,
        share_ppb=500_000_000, said_how=Taking.SaidHow.PART,
    )  # fmt: skip
    weighing = book.weigh(bundle, "2026-06-22", "5.6 kg")
    assert book.assess(bundle, "2026-06-22").moisture == pytest.approx(0.12)
    strike_out(record=weighing, by=book.hand["by"], reason="again", at=instant("2026-06-22 20:00"))
    book.weigh(bundle, "2026-06-22", "2.8 kg", at=instant("2026-06-22 10:00"))
    assert book.assess(bundle, "2026-06-22").moisture == pytest.approx(0.12)


def test_a_green_test_carried_on_is_too_rough_to_call_it_dry(book, bundle):
    # Green: 200 to 100 g is 1.0, sd 0.08; tied at 8 kg that day, so 4 kg dry. 4.56 / 4 - 1 = 0.14, sd 0.08 · 1.14 / 2
    # = 0.0456, with the scale's 0.0057: 0.045955.
    book.oven(bundle, TIED_ON.isoformat(), 200)
    book.weigh(bundle, "2026-07-01", "4.56 kg")
    said = book.assess(bundle, "2026-07-01")
    assert said.moisture == pytest.approx(0.14)
    assert said.chance == chance((LIMIT - 0.14) / 0.045955)
    assert (said.answer, said.measure_next) == ("cant_say", "oven")


def test_what_is_known_grows_old(book, bundle):
    book.oven(bundle, "2026-06-01", 113)
    # 42 days on, a point more: 0.01 + 0.01.
    said = book.assess(bundle, "2026-07-13")
    assert said.moisture == pytest.approx(0.13)
    assert said.moisture_high - said.moisture == pytest.approx(1.2816 * 0.02)


def test_a_wet_weighing_tells_nothing(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    book.weigh(bundle, "2026-06-22", "6.4 kg", wet=True)
    assert book.assess(bundle, "2026-06-22").moisture == pytest.approx(0.16)


def test_lighter_than_its_rods_can_be_is_asked_about_and_not_believed(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    book.weigh(bundle, "2026-06-22", "4.9 kg")
    said = book.assess(bundle, "2026-06-22")
    assert said.moisture == pytest.approx(0.16)
    assert said.details["asks"] == ["too_light"]


def test_heavier_than_before_is_asked_about(book, bundle):
    book.weigh(bundle, "2026-02-20", "6 kg")
    book.weigh(bundle, "2026-03-20", "6.1 kg")
    assert book.assess(bundle, "2026-03-20").details["asks"] == ["rose"]


def test_the_stores_air_lowers_the_bar(book, bundle):
    # P(0.145 is within the limit) = Φ(0.016677 / 0.01) = Φ(1.668) = 0.952: enough with both, not with the test alone.
    book.oven(bundle, "2026-06-01", 114.5)
    alone = book.assess(bundle, "2026-06-01")
    assert (alone.answer, alone.measure_next) == ("cant_say", "air")
    assert alone.chance == chance(1.668)
    book.air("2026-05-20 09:00")
    book.air("2026-05-31 09:00")
    both = book.assess(bundle, "2026-06-01")
    assert (both.answer, both.dried_out_on) == ("dry", day("2026-06-01"))
    assert both.store_moisture == pytest.approx(0.09271141, abs=1e-7)


def test_with_an_old_test_and_no_air_it_is_never_called_dry(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-01", "5.8 kg")
    book.weigh(bundle, "2026-07-20", "5.5 kg")
    said = book.assess(bundle, "2026-07-20")
    # 0.10, as surely as can be: but the test is 49 days old, and nobody knows the air.
    assert said.chance > 0.98
    assert (said.answer, said.measure_next) == ("cant_say", "oven")


def test_one_reading_of_the_air_is_not_the_air_of_the_store(book, bundle):
    book.air("2026-05-20 09:00")
    assert book.assess(bundle, "2026-06-01").store_moisture is None
    book.air("2026-05-20 15:00")
    assert book.assess(bundle, "2026-06-01").store_moisture is None
    book.air("2026-05-21 09:00")
    assert book.assess(bundle, "2026-06-01").store_moisture is not None
    # Six weeks on, those readings are of another season.
    assert book.assess(bundle, "2026-07-05").store_moisture is None


def test_the_air_is_that_of_the_place_it_stands_in(book, bundle):
    loft = bundles.add_place(**book.hand, name="Loft")
    for on in ("2026-05-20", "2026-05-31"):
        book.air(f"{on} 09:00")
        book.air(f"{on} 09:00", "5 °C", "85 %", place=loft)
    assert book.assess(bundle, "2026-06-01").store_moisture == pytest.approx(0.09271, abs=1e-5)
    bundles.move(**book.hand, bundles=[bundle], place=loft, on=day("2026-06-01"))
    # Wood at rest in 5 °C and 85 %: 18.4 %, Wood Handbook's table between 18.5 (4.4 °C) and 18.3 (10 °C).
    assert book.assess(bundle, "2026-06-01").store_moisture == pytest.approx(0.184, abs=0.001)
    assert book.assess(bundle, "2026-05-31").store_moisture == pytest.approx(0.09271, abs=1e-5)


def test_moisture_is_drawn_towards_the_stores_air(book, bundle):
    # At 10 °C the pace is 1. Ten days: E + (0.30 - E) · exp(-0.26), exp(-0.26) = 0.771052; E at 75 % is about 0.148.
    book.air("2026-05-30 09:00", "10 °C", "75 %")
    book.air("2026-05-31 09:00", "10 °C", "75 %")
    book.oven(bundle, "2026-06-01", 130)
    said = book.assess(bundle, "2026-06-11")
    assert said.store_moisture == pytest.approx(0.148, abs=0.001)
    drawn = said.store_moisture + (0.30 - said.store_moisture) * 0.771052
    assert said.moisture == pytest.approx(drawn, abs=1e-6)
    assert moisture_on(bundle, day("2026-06-11")) == said.moisture


def test_when_it_will_be_dry(book, bundle):
    # At rest at 0.09271 indoors as in the shed. Weighed 0.3 · exp(-0.03 t) above it at 0, 10 and 20 days, dry 5 kg;
    # the limit is 0.068966 above it: ln(0.16464 / 0.068966) / 0.03 = 29.0 days more.
    for on in ("2026-05-20", "2026-05-31"):
        book.air(f"{on} 09:00")
    book.oven(bundle, "2026-06-01", 139.27114)
    for on, moisture in (("2026-06-01", 0.39271), ("2026-06-11", 0.31496), ("2026-06-21", 0.25735)):
        book.weigh(bundle, on, f"{5 * (1 + moisture):.4f} kg")
    said = book.assess(bundle, "2026-06-21")
    assert (said.answer, said.dry_on) == ("not_yet", day("2026-07-20"))
    assert said.dry_low_on < said.dry_on < said.dry_high_on
    # From 0.25735 - 1.2816 · 0.0220, at exp(1.2816 · 0.35) = 1.566 times the rate: 14.5 days.
    assert abs(said.dry_low_on - day("2026-07-05")) <= timedelta(days=1)
    # The next weighing when it may be dry, but no later than 70 days after the last.
    assert said.weigh_next_on == day("2026-07-20")
    assert book.assess(bundle, "2026-06-11").dry_on is None


def test_a_store_that_stays_damp_gives_no_day(book, bundle):
    for on in ("2026-05-20", "2026-05-31"):
        book.air(f"{on} 09:00", "5 °C", "85 %")
    book.oven(bundle, "2026-06-01", 139.27114)
    for on, kg in (("2026-06-01", 6.96), ("2026-06-11", 6.6), ("2026-06-21", 6.3)):
        book.weigh(bundle, on, f"{kg} kg")
    said = book.assess(bundle, "2026-06-21")
    assert (said.answer, said.dry_on) == ("not_yet", None)


def test_shed_dry_takes_two_tests_that_agree(book, bundle):
    # Rods here settle at 18.4 %: too damp for a tight basket with a limit of 2 %, fit to sell and soak with 3 %.
    for on in ("2026-05-20", "2026-05-31"):
        book.air(f"{on} 09:00", "10 °C", "82 %")
    first = book.assess(bundle, "2026-06-01").store_moisture
    book.oven(bundle, "2026-06-01", round(100 * (1 + first), 2))
    assert book.assess(bundle, "2026-06-01").answer == "cant_say"
    book.oven(bundle, "2026-06-01", round(100 * (1 + first), 2) * 2, 200)
    said = book.assess(bundle, "2026-06-01")
    # sd 0.01 / √2 = 0.00707: within two points of where it settles in 2Φ(0.02 / 0.00707) - 1 = 0.995 of cases.
    assert said.answer == "shed_dry"
    assert said.moisture_high - said.moisture == pytest.approx(1.2816 * 0.0070711, abs=1e-6)


def test_dried_out_stays_dried_out_in_a_damp_shed(book, bundle):
    book.oven(bundle, "2026-08-10", 112)
    book.air("2026-11-01 09:00", "5 °C", "85 %")
    book.air("2026-11-10 09:00", "5 °C", "85 %")
    said = book.assess(bundle, "2026-11-15")
    assert (said.answer, said.dried_out_on) == ("dry", day("2026-08-10"))
    assert said.details["air_damp"] is True
    assert book.assess(bundle, "2026-08-10").details["air_damp"] is False


def test_a_test_struck_out_undoes_it(book, bundle):
    test = book.oven(bundle, "2026-08-10", 112)
    assert book.assess(bundle, "2026-09-01").answer == "dry"
    strike_out(record=test, by=book.hand["by"], reason="the other bundle", at=instant("2026-09-01 09:00"))
    assert book.assess(bundle, "2026-09-01").answer == "cant_say"


@pytest.mark.parametrize("says", ["middle_cold", "musty", "mould"])
def test_a_veto_overrules_what_is_older(book, bundle, says):
    book.oven(bundle, "2026-08-10", 112)
    book.word(bundle, "2026-08-20", says)
    said = book.assess(bundle, "2026-08-25")
    assert (said.answer, said.word, said.dried_out_on, said.chance) == ("damp_found", says, None, None)
    assert book.assess(bundle, "2026-08-19").answer == "dry"
    # A new test, dry, clears it; only from then on.
    book.oven(bundle, "2026-09-01", 112)
    again = book.assess(bundle, "2026-09-02")
    assert (again.answer, again.dried_out_on) == ("dry", day("2026-09-01"))


def test_called_dry_after_a_veto_is_not_measured(book, bundle):
    book.oven(bundle, "2026-08-10", 112)
    book.word(bundle, "2026-08-20", "middle_cold")
    book.word(bundle, "2026-08-30", "dry", how="snaps")
    said = book.assess(bundle, "2026-08-30")
    assert (said.answer, said.how_known, said.word) == ("cant_say", "word", "dry")


def test_the_growers_word_never_changes_what_was_measured(book, bundle):
    book.oven(bundle, "2026-06-01", 158)
    before = book.assess(bundle, "2026-06-01")
    book.word(bundle, "2026-06-01", "dry")
    after = book.assess(bundle, "2026-06-01")
    assert (after.answer, after.chance, after.moisture) == (before.answer, before.chance, before.moisture)
    assert (before.word, after.word) == ("", "dry")


def test_tests_of_cut_and_stack_speak_less_surely(book, bundle):
    stack = bundles.stack_up(**book.hand, name="North rack", bundles=[bundle], on=TIED_ON)
    book.oven(book.cut, "2026-06-01", 120)
    said = book.assess(bundle, "2026-06-01")
    # sqrt(0.01² + 0.03²) = 0.031623.
    assert (said.how_known, said.moisture_high - said.moisture) == ("cut", pytest.approx(1.2816 * 0.031623, abs=1e-6))
    book.oven(stack, "2026-06-02", 120)
    said = book.assess(bundle, "2026-06-02")
    assert said.how_known == "stack"
    book.oven(bundle, "2026-06-03", 120)
    assert book.assess(bundle, "2026-06-03").how_known == "measured"


def test_a_telltale_speaks_for_her_sisters(book):
    telltale, sister = book.tie(), book.tie()
    bundles.stack_up(**book.hand, name="North rack", bundles=[telltale, sister], on=TIED_ON, telltales=[telltale])
    book.oven(telltale, "2026-06-01", 110)
    said = book.assess(sister, "2026-06-01")
    # sqrt(0.01² + 0.02²) = 0.022361: Φ((0.161677 - 0.10) / 0.022361) = Φ(2.758) = 0.9971.
    assert (said.how_known, said.moisture, said.answer) == ("sister", pytest.approx(0.10), "dry")
    assert said.chance == chance(2.758)
    assert said.details["sister"] == telltale.tag_shown


def test_a_telltale_speaks_never_for_longer_or_stouter_sisters(book):
    telltale = book.tie(thickness="pencil")
    longer, stouter = book.tie(label="6 ft"), book.tie(thickness="stout")
    finer = book.tie(label="4 ft", thickness="fine")
    stack = [telltale, longer, stouter, finer]
    bundles.stack_up(**book.hand, name="North rack", bundles=stack, on=TIED_ON, telltales=[telltale])
    book.oven(telltale, "2026-06-01", 110)
    assert book.assess(longer, "2026-06-01").how_known == "calendar"
    assert book.assess(stouter, "2026-06-01").how_known == "calendar"
    assert book.assess(finer, "2026-06-01").how_known == "sister"


def test_of_two_telltales_the_wetter_rules(book):
    first, second, sister = book.tie(), book.tie(), book.tie()
    stack = [first, second, sister]
    bundles.stack_up(**book.hand, name="North rack", bundles=stack, on=TIED_ON, telltales=[first, second])
    book.oven(first, "2026-06-01", 110)
    book.oven(second, "2026-06-01", 124)
    said = book.assess(sister, "2026-06-01")
    assert (said.moisture, said.details["sister"]) == (pytest.approx(0.24), second.tag_shown)


def test_damp_found_in_one_asks_after_her_sisters(book):
    one, sister = book.tie(), book.tie()
    bundles.stack_up(**book.hand, name="North rack", bundles=[one, sister], on=TIED_ON)
    book.word(one, "2026-06-01", "middle_cold")
    assert book.assess(sister, "2026-06-01").details["asks"] == ["sister_damp"]
    assert book.assess(one, "2026-06-01").details["asks"] == []
    book.oven(one, "2026-06-05", 112)
    assert book.assess(sister, "2026-06-05").details["asks"] == []


def made_from(book, parent, what, **said):
    new = bundles.NewBundle(1_000_000_000, parent.length_class, "white" if what == Making.What.WHITE else parent.type)
    went_in = [bundles.WentIn(parent, 1_000_000_000, 1.0)]
    making = bundles.make(**book.hand, what=what, on=day("2026-09-01"), went_in=went_in, came_out=[new], **said)
    return making.bundles.get()


def test_split_from_a_dried_out_bundle_is_dried_out(book, bundle):
    child = made_from(book, bundle, Making.What.SPLIT, dried_out_before_on=day("2026-08-10"))
    said = book.assess(child, "2026-10-01")
    assert (said.answer, said.how_known, said.dried_out_on) == ("dry", "before", day("2026-08-10"))
    book.word(child, "2026-10-02", "mould")
    assert book.assess(child, "2026-10-02").answer == "damp_found"


def test_peeled_rods_begin_anew(book, bundle):
    book.oven(book.cut, "2026-06-01", 112)
    child = made_from(book, bundle, Making.What.WHITE, dried_out_before_on=day("2026-08-10"))
    said = book.assess(child, "2026-10-01")
    # Three months from the peeling in September; the test of the cut was of rods with their bark on.
    assert (said.answer, said.how_known, said.details["likely_from"]) == ("cant_say", "calendar", "2026-12-01")


def test_a_child_starts_as_moist_as_its_parents(book, bundle):
    child = made_from(book, bundle, Making.What.SPLIT, started_moisture=0.5)
    said = book.assess(child, "2026-09-01")
    # Twice an oven test's 0.01 + 0.07 · 0.25 / 0.75 = 0.033333.
    assert (said.how_known, said.moisture) == ("started", 0.5)
    assert said.moisture_high - 0.5 == pytest.approx(1.2816 * 2 * 0.0333333, abs=1e-6)


def test_green_rods_of_which_nothing_was_heard_for_long_are_not_known(book, bundle):
    book.oven(bundle, TIED_ON.isoformat(), 200)
    assert moisture_on(bundle, TIED_ON) == pytest.approx(1.0)
    assert moisture_on(bundle, TIED_ON - timedelta(days=1)) is None
    assert moisture_on(bundle, TIED_ON + timedelta(days=42)) == pytest.approx(1.0)
    assert moisture_on(bundle, TIED_ON + timedelta(days=43)) is None


def test_the_holdings_own_limit(book, bundle):
    # With a limit of 1 %: 0.09271 + 0.01 · 0.30 / 0.087 = 0.12719. Φ(0.02719 / 0.01) for 0.10, Φ(0.719) for 0.12.
    change_settings(**book.hand, shrink_limit=0.01)
    bundle.holding.refresh_from_db()
    book.oven(bundle, "2026-06-01", 112)
    said = book.assess(bundle, "2026-06-01")
    assert (said.answer, said.chance) == ("cant_say", chance(0.7195))


def test_a_limit_that_even_green_rods_keep_is_no_error(book, bundle):
    change_settings(**book.hand, shrink_limit=0.08)
    bundle.holding.refresh_from_db()
    book.oven(bundle, "2026-06-01", 112)
    assert book.assess(bundle, "2026-06-01").answer == "dry"


def test_mass_history(book, bundle):
    book.oven(bundle, "2026-06-01", 116)
    book.weigh(bundle, "2026-06-03", "5.8 kg")
    book.weigh(bundle, "2026-06-22", "5.6 kg")
    history = mass_history(bundle, day("2026-06-22"))
    assert list(history["on"]) == [TIED_ON, day("2026-06-01"), day("2026-06-03"), day("2026-06-22")]
    assert list(history["whole_kg"].fillna(0)) == [8.0, 0, 5.8, 5.6]
    # Weighed within three days of the test: 5.8 / 1.16 = 5 kg dry.
    assert list(history["moisture"].round(4).fillna(-1)) == [-1, 0.16, 0.16, 0.12]
    assert history["weighing"][0] is None
    assert history["weighing"][3].mass_kg == 5.6
