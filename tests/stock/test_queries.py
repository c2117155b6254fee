import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from growers.bundles import actions as bundles
from growers.bundles.models import Bundle
from growers.bundles.queries import of_winter, winters_in
from growers.drying import actions as drying
from growers.furniture.much import read_much
from growers.harvest import actions as harvest
from growers.science import units
from growers.stock import actions
from growers.stock.queries import due, what_is_left
from growers.stock.queries.shed import shed_bundles, shed_rows


@pytest.fixture
def now(day):
    from datetime import UTC, datetime

    return datetime(2026, 11, 12, 12, tzinfo=UTC)


@pytest.fixture
def promise(hand, bundle, day):
    return actions.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day("2026-02-01"), much=read_much("half"))


def oven(hand, bundle, on):
    weights = {"wet_g": units.read_mass("110 g"), "dry_g": units.read_mass("100 g")}
    drying.oven_test(**hand, of=bundle, on=on, **weights)


def test_what_is_left_and_free(hand, bundle, promise, day):
    left = what_is_left(bundle, day("2026-02-02"))
    assert (left.kg, left.rods, left.free, left.free_kg) == (6.1, 100, 0.5, 3.05)
    assert left.promises == (promise,)
    assert left.ancestry.name == "Pellock"


def test_a_promise_wants_keeping_once_the_rods_are_fit(hand, holding, bundle, promise, day, now):
    today = day("2026-11-12")
    drying.judge_stale(holding, today)
    assert due(holding, today=today, now=now) == []
    oven(hand, bundle, day("2026-11-10"))
    drying.judge_stale(holding, today)
    (each,) = due(holding, today=today, now=now)
    assert each.sentence == "Pellock, 5 ft is fit to sell: Orla Fenn waits for it"
    assert (each.page, each.args, each.urgent) == ("customers:sell", (bundle.uid,), False)


def test_the_growers_word_makes_a_promise_want_keeping_too(hand, holding, bundle, promise, day, now):
    drying.give_word(**hand, of=bundle, on=day("2026-11-10"), says="dry")
    drying.judge_stale(holding, day("2026-11-12"))
    (each,) = due(holding, today=day("2026-11-12"), now=now)
    assert each.kind == "keep_promise"


def test_the_shed_asks_no_more_of_the_book_for_more_kinds_of_bundles(hand, holding, tie, day):
    def asked_for():
        with CaptureQueriesContext(connection) as asked:
            assert len(shed_rows(holding, shed_bundles(holding), day("2026-11-12"))) == Bundle.objects.count()
        return len(asked)

    tie()
    few = asked_for()
    for feet in (6, 7, 8):
        tie(length_class=harvest.add_length(**hand, label=f"{feet} ft", min_m=feet * 0.3048))
    assert asked_for() == few


def test_more_promised_than_left_is_urgent(hand, holding, bundle, promise, day, now):
    more = {"purpose": "gone", "gone": "mouse", "much": read_much("three quarters"), "promised_too": True}
    actions.take_out(**hand, bundle=bundle, on=day("2026-02-02"), **more)
    (each,) = due(holding, today=day("2026-02-03"), now=now)
    assert each.urgent
    assert "promised to Orla Fenn than is left" in each.sentence


def test_a_kept_or_released_promise_wants_nothing(hand, holding, bundle, promise, day, now):
    oven(hand, bundle, day("2026-11-10"))
    actions.release(**hand, promise=promise, on=day("2026-11-11"))
    drying.judge_stale(holding, day("2026-11-12"))
    assert due(holding, today=day("2026-11-12"), now=now) == []


def test_the_shed_runs_from_dry_to_damp_and_leaves_out_what_is_used_up(hand, holding, tie, day):
    damp, unsaid, dry, used = (tie(mass="6 kg") for _each in range(4))
    oven(hand, dry, day("2026-11-10"))
    drying.give_word(**hand, of=damp, on=day("2026-11-10"), says="mould")
    actions.take_out(**hand, bundle=used, on=day("2026-11-10"), purpose="work", much=read_much("the rest"))
    drying.judge_stale(holding, day("2026-11-12"))
    assert list(shed_bundles(holding)) == [dry, unsaid, damp]
    rows = shed_rows(holding, shed_bundles(holding), day("2026-11-12"))
    assert [row.words.word for row in rows] == ["Dry", "Can't say yet", "Damp found"]


def test_a_winter_is_cut_or_told(hand, holding, bundle, five_foot, day):
    bought = bundles.buy_in(
        **hand, supplier="a grower at the ford", on=day("2026-09-01"), length_class=five_foot, told_winter="2024/25"
    )[0]
    assert winters_in(holding) == ["2025/26", "2024/25"]
    assert [origin.bundle for origin in of_winter(holding, "2025/26")] == [bundle]
    assert [origin.bundle for origin in of_winter(holding, "2024/25")] == [bought]
    assert not of_winter(holding, "no winter").exists()


def test_a_southern_winter_has_one_year(hand, holding, bundle):
    holding.winter_begins_month = 1
    holding.save()
    # Cut 28 December 2025: in the south, where a winter begins in January, that is 2025.
    assert winters_in(holding) == ["2025"]
    assert [origin.bundle for origin in of_winter(holding, "2025")] == [bundle]
    assert not of_winter(holding, "2025/26").exists()


def test_the_shed_asks_the_book_a_fixed_number_of_times(hand, holding, tie, day, django_assert_max_num_queries):
    for _each in range(12):
        tie(mass="6 kg")
    with django_assert_max_num_queries(12):
        shed_rows(holding, shed_bundles(holding), day("2026-11-12"))
