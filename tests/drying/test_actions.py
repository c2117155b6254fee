import pytest

from growers.bundles import actions as bundles
from growers.bundles.models import Adjustment, Taking
from growers.drying import actions
from growers.drying.models import Weighing
from growers.furniture.refusals import Refusal
from growers.people.actions import put_back, strike_out
from growers.science import units
from tests import ground
from tests.drying.conftest import TIED_ON, day, instant


def test_a_weighing_never_changes_the_ledger(book, bundle):
    weighing = book.weigh(bundle, "2026-03-01", "12 lb 3 oz")
    bundle.refresh_from_db()
    assert bundle.left_ppb == 1_000_000_000
    assert not Taking.objects.of(bundle.holding).exists()
    assert not Adjustment.objects.of(bundle.holding).exists()
    # 12 lb 3 oz = 195 oz of 0.028349523125 kg.
    assert weighing.mass_kg == pytest.approx(5.528157, abs=1e-6)
    assert (weighing.mass_unit, weighing.mass_text) == ("lb", "12 lb 3 oz")


def test_before_it_was_tied_it_was_not_weighed(book, bundle):
    with pytest.raises(Refusal, match="was not tied until"):
        book.weigh(bundle, "2026-01-19", "8 kg")


def test_the_same_weighing_twice_is_refused(book, bundle):
    book.weigh(bundle, "2026-03-01", "6 kg")
    with pytest.raises(Refusal, match="in the book already"):
        book.weigh(bundle, "2026-03-01", "6 kg")
    book.weigh(bundle, "2026-03-01", "6.02 kg")
    assert Weighing.objects.of(bundle.holding).count() == 2


def test_a_bundle_of_which_nothing_is_left_is_not_weighed(book, bundle):
    bundles.take(
        **book.hand, bundle=bundle, on=day("2026-03-01"), purpose=Taking.Purpose.SOAK, share_ppb=1_000_000_000,
        said_how=Taking.SaidHow.REST,
    )  # fmt: skip
    book.weigh(bundle, "2026-03-01", "6 kg")
    with pytest.raises(Refusal, match="nothing was left"):
        book.weigh(bundle, "2026-03-02", "6 kg")


def test_an_oven_test_keeps_grams_and_what_was_typed(book, bundle):
    test = actions.oven_test(
        **book.hand, of=bundle, on=day("2026-06-01"), wet_g=units.read_mass("0.25 kg"), dry_g=units.read_mass("205 g")
    )
    assert (test.wet_g, test.dry_g, test.typed) == (pytest.approx(250), pytest.approx(205), "0.25 kg / 205 g")
    assert test.of_what == bundle


def test_rods_weigh_no_more_after_the_oven(book, bundle):
    with pytest.raises(Refusal, match="no more after the oven"):
        book.oven(bundle, "2026-06-01", 99)


def test_the_same_test_twice_would_make_us_falsely_sure(book, bundle):
    book.oven(bundle, "2026-06-01", 112)
    with pytest.raises(Refusal, match="in the book already"):
        book.oven(bundle, "2026-06-01", 112)
    book.oven(book.cut, "2026-06-01", 112)


def test_no_test_is_older_than_what_it_is_of(book, bundle):
    with pytest.raises(Refusal, match="can't be older"):
        book.oven(bundle, "2026-01-19", 190)
    with pytest.raises(Refusal, match="can't be older"):
        book.oven(book.cut, "2025-12-27", 190)
    assert book.oven(book.cut, "2025-12-28", 190).cut == book.cut


def test_how_goes_with_dry_alone(book, bundle):
    with pytest.raises(Refusal, match="I call it dry"):
        book.word(bundle, "2026-06-01", "mould", how="snaps")


def test_a_meter_reading(book, bundle):
    reading = actions.meter_reading(
        **book.hand,
        of=bundle,
        on=day("2026-06-01"),
        moisture=units.read_humidity("14 %"),
        meter="two pins, at the butt",
    )
    assert (reading.moisture, reading.typed) == (pytest.approx(0.14), "14 %")
    said = book.assess(bundle, "2026-06-01")
    # Half as sure as an oven: 0.02.
    assert (said.how_known, said.moisture_high - said.moisture) == ("meter", pytest.approx(1.2816 * 0.02))
    assert said.answer == "cant_say"


def test_a_reading_of_the_air_stands_once_a_moment(book):
    book.air("2026-05-20 09:00")
    with pytest.raises(Refusal, match="at that moment already"):
        book.air("2026-05-20 09:00", "21 °C")


def numbers(*things):
    for thing in things:
        thing.refresh_from_db()
    return [thing.evidence_no for thing in things]


def test_evidence_reaches_all_it_speaks_of(book):
    one, sister, apart = book.tie(), book.tie(), book.tie()
    stack = bundles.stack_up(**book.hand, name="North rack", bundles=[one, sister], on=TIED_ON)
    alien = ground.tied(book.hand, ground.cut(book.hand, ground.planted(book.hand, "Merrow Red", "Top Carr")))[0]
    holding = book.hand["holding"]
    every = (one, sister, apart, alien, stack, holding)

    def raised(do):
        before = numbers(*every)
        do()
        return [after - was for after, was in zip(numbers(*every), before, strict=True)]

    assert raised(lambda: book.weigh(one, "2026-03-01", "6 kg")) == [1, 0, 0, 0, 1, 0]
    assert raised(lambda: book.oven(apart, "2026-03-01", 150)) == [0, 0, 1, 0, 0, 0]
    assert raised(lambda: book.oven(stack, "2026-03-01", 150)) == [0, 0, 0, 0, 1, 0]
    assert raised(lambda: book.oven(book.cut, "2026-03-01", 150)) == [1, 1, 1, 0, 1, 0]
    assert raised(lambda: book.air("2026-03-01 09:00")) == [0, 0, 0, 0, 0, 1]


def test_striking_out_putting_back_and_correcting_raise_it_too(book, bundle):
    weighing = book.weigh(bundle, "2026-03-01", "6 kg")
    air = book.air("2026-03-01 09:00")
    by, at = book.hand["by"], instant("2026-03-02 09:00")
    assert numbers(bundle, book.hand["holding"]) == [1, 1]
    strike_out(record=weighing, by=by, reason="wrong bundle", at=at)
    strike_out(record=air, by=by, reason="wrong shed", at=at)
    assert numbers(bundle, book.hand["holding"]) == [2, 2]
    put_back(record=weighing, by=by)
    put_back(record=air, by=by)
    assert numbers(bundle, book.hand["holding"]) == [3, 3]
    actions.correct_weighing(**book.hand, weighing=weighing, on=day("2026-03-01"), mass=units.read_mass("6.2 kg"))
    assert bundle.evidence_no < numbers(bundle)[0]
    weighing.refresh_from_db()
    assert (weighing.mass_kg, weighing.mass_text) == (pytest.approx(6.2), "6.2 kg")
    assert weighing.history.count() == 4


def test_a_correction_obeys_the_same_rules(book, bundle):
    weighing = book.weigh(bundle, "2026-03-01", "6 kg")
    with pytest.raises(Refusal, match="was not tied until"):
        actions.correct_weighing(**book.hand, weighing=weighing, on=day("2026-01-01"), mass=units.read_mass("6 kg"))
    weighing.refresh_from_db()
    assert weighing.on == day("2026-03-01")
    test = book.oven(bundle, "2026-06-01", 150)
    actions.correct_oven_test(
        **book.hand, oventest=test, on=day("2026-06-02"), wet_g=units.read_mass("140 g"), dry_g=units.read_mass("100 g")
    )
    assert book.assess(bundle, "2026-06-02").moisture == pytest.approx(0.4)


@pytest.mark.parametrize("found", ["weigh", "oven"])
def test_a_bundle_was_tied_before_it_was_weighed_or_tested(book, bundle, found):
    getattr(book, found)(bundle, "2026-02-10", "7 kg" if found == "weigh" else 150)
    with pytest.raises(Refusal, match="it was there by then") as refused:
        bundles.correct_bundle(**book.hand, bundle=bundle, tied_on=day("2026-02-11"))
    assert refused.value.field == "tied_on"
    bundles.correct_bundle(**book.hand, bundle=bundle, tied_on=day("2026-02-10"))
