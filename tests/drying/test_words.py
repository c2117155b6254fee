from datetime import date

import pytest

from growers.drying.queries import Assessment, chance_in_words, in_words

DETAILS = {"guess": "cut", "likely_from": "2026-05-01", "on": "2026-03-01", "asks": []}


def said(**figures):
    return in_words(Assessment(**{"answer": "cant_say", "how_known": "calendar", "details": DETAILS} | figures))


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.999, "more than 99 in 100"),
        (0.96, "more than 19 in 20"),
        (0.94, "about 9 in 10"),
        (0.87, "about 9 in 10"),
        (0.5, "about 5 in 10"),
        (0.06, "about 1 in 10"),
        (0.01, "less than 1 in 20"),
    ],
)
def test_chances_are_told_in_ten(chance, words):
    assert chance_in_words(chance) == words


@pytest.mark.parametrize(
    ("air", "guess"),
    [
        ("2026-07-09", "Likely from July 2026: five to six months after the cut in a shed is common; "
         "by the air read there, if it stays so, July 2026. Nothing measured of these rods."),
        # Neither is hasty: the later of the two stands.
        ("2026-03-09", "Likely from May 2026: five to six months after the cut in a shed is common; "
         "by the air read there, if it stays so, March 2026. Nothing measured of these rods."),
        ("never", "Likely from May 2026: five to six months after the cut in a shed is common; "
         "but in the air read there it would not get dry enough, if it stayed so. Nothing measured of these rods."),
    ],
)  # fmt: skip
def test_the_air_where_it_stands_is_heard_in_the_guess(air, guess):
    assert said(details=DETAILS | {"likely_by_air": air}).guess == guess


def test_nothing_measured():
    words = said(measure_next="oven")
    assert words.word == "Can't say yet"
    assert words.how == "by the calendar only"
    assert words.guess == (
        "Likely from May 2026: five to six months after the cut in a shed is common; "
        "by the calendar alone, no air was read where it stands. Nothing measured of these rods."
    )
    assert words.settle == "An oven test of a few of its rods, and the bundle weighed the same day."
    assert words.rod_known == "calendar"


@pytest.mark.parametrize(
    ("on", "likely"),
    [
        ("2026-04-30", "Likely from May 2026: "),
        ("2026-05-01", "Likely since May 2026: "),
        ("2026-11-25", "Likely since May 2026: "),
    ],
)
def test_a_guess_in_the_past_is_told_as_past(on, likely):
    assert said(details=DETAILS | {"on": on}).guess.startswith(likely)


def test_cut_lately():
    words = said(answer="not_yet")
    assert (words.word, words.how) == ("Not yet", "by the calendar only")
    assert words.guess.startswith("None are dry within six weeks of the cut. Likely from May 2026: ")


def test_measured_wet():
    words = said(
        answer="not_yet", how_known="measured", moisture=0.575, moisture_low=0.5, moisture_high=0.65, chance=0.0,
        shrinkage_to_come=0.06, measure_next="weigh", weigh_next_on=date(2026, 7, 20), dry_on=date(2026, 8, 1),
        dry_low_on=date(2026, 7, 10), dry_high_on=date(2026, 9, 1),
    )  # fmt: skip
    assert words.since == "about 1 Aug 2026, between 10 Jul 2026 and 1 Sep 2026 if the air stays as it has been"
    assert words.moisture == "moisture about 57\u00a0%, likely 50\u00a0% to 65\u00a0%"
    assert words.to_come == "about 6.0 % of shrinking still to come indoors"
    assert words.chance.startswith("less than 1 in 20")
    # (0.575 - 0.15) / 0.85.
    assert (words.rod_known, words.damp) == ("measured", pytest.approx(0.5))


def test_dry_and_air_damp():
    details = DETAILS | {"air_damp": True}
    words = said(
        answer="dry", how_known="sister", dried_out_on=date(2026, 8, 10), details=details | {"sister": "482 17 06"}
    )
    assert words.how == "by its sister 482 17 06"
    assert "dried out on about" in words.since
    assert "air-damp now" in words.since
    assert words.damp == 0


def test_the_growers_word_is_shown_as_that():
    assert said(word="dry").beside == "You call it dry."
    words = said(answer="damp_found", how_known="word", word="middle_cold", details=DETAILS | {"damp_on": "2026-08-20"})
    assert (words.word, words.how, words.beside) == ("Damp found", "middle cold, by your word", "")


def test_no_word_of_the_reckoning_reaches_a_page():
    forbidden = ("share", "posterior", "equilibrium", "evidence", "p =")
    for how in ("measured", "sister", "stack", "cut", "meter", "started", "before", "word", "calendar"):
        for measure in ("air", "weigh", "oven", ""):
            words = said(
                how_known=how, moisture=0.3, moisture_low=0.2, moisture_high=0.4, chance=0.4, shrinkage_to_come=0.05,
                measure_next=measure, weigh_next_on=date(2026, 7, 20), store_moisture=0.14,
            )  # fmt: skip
            assert not any(word in str(words).casefold() for word in forbidden)
