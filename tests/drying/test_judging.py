"""A kept answer is what judging afresh would say, whatever was written meanwhile."""

from dataclasses import asdict
from datetime import timedelta

import pytest

from growers.bundles import actions as bundles
from growers.bundles.models import Bundle, Taking
from growers.drying import actions, queries
from growers.drying.models import DrynessAnswer
from growers.drying.queries import answers_for, assess
from growers.people.actions import change_settings, correct, put_back, strike_out
from tests.drying.conftest import TIED_ON, day, instant

TODAY = day("2026-06-22")


def check_kept(holding, today=TODAY):
    actions.judge_stale(holding, today)
    every = list(Bundle.objects.of(holding).with_some_left())
    kept = answers_for(every)
    for bundle in every:
        fresh = asdict(assess(bundle, today))
        assert {name: getattr(kept[bundle.pk], name) for name in fresh} == fresh


def test_a_kept_answer_equals_a_fresh_one(book, wren):
    telltale, sister, apart = book.tie(), book.tie(), book.tie(label="4 ft")
    holding = book.hand["holding"]
    stack = bundles.stack_up(
        **book.hand, name="North rack", bundles=[telltale, sister], on=TIED_ON, telltales=[telltale]
    )
    loft = bundles.add_place(**book.hand, name="Loft")
    at = instant("2026-06-22 18:00")
    kept = {}

    def half():
        kept["taking"] = bundles.take(
            **book.hand, bundle=telltale, on=day("2026-06-10"), purpose=Taking.Purpose.SOAK, share_ppb=500_000_000,
            said_how=Taking.SaidHow.PART,
        )  # fmt: skip

    def test():
        kept["test"] = book.oven(telltale, "2026-06-01", 116)

    steps = [
        lambda: book.weigh(telltale, "2026-06-01", "5.8 kg"),
        test,
        lambda: book.weigh(telltale, "2026-06-20", "2.8 kg"),
        half,
        lambda: correct(record=kept["taking"], by=wren, share_ppb=400_000_000),
        lambda: strike_out(record=kept["taking"], by=wren, reason="no", at=at),
        lambda: put_back(record=kept["taking"], by=wren),
        lambda: book.air("2026-05-20 09:00"),
        lambda: book.air("2026-05-30 09:00"),
        lambda: book.air("2026-05-30 09:00", "5 °C", "85 %", place=loft),
        lambda: book.air("2026-05-20 09:00", "5 °C", "85 %", place=loft),
        lambda: bundles.move(**book.hand, bundles=[apart], place=loft, on=day("2026-03-01")),
        lambda: book.oven(stack, "2026-06-02", 118),
        lambda: book.oven(book.cut, "2026-06-03", 119),
        lambda: book.word(sister, "2026-06-04", "mould"),
        lambda: book.word(apart, "2026-06-04", "dry"),
        lambda: strike_out(record=kept["test"], by=wren, reason="no", at=at),
        lambda: put_back(record=kept["test"], by=wren),
        lambda: bundles.call_telltale(**book.hand, bundle=telltale, telltale=False),
        lambda: bundles.leave_stack(**book.hand, bundle=sister),
        lambda: change_settings(**book.hand, shrink_limit=0.015),
    ]
    check_kept(holding)
    for step in steps:
        for bundle in (telltale, sister, apart):
            bundle.refresh_from_db()
        step()
        holding.refresh_from_db()
        check_kept(holding)
    check_kept(holding, day("2026-07-01"))


def test_only_the_stale_are_judged_anew(book, django_assert_max_num_queries):
    one, other = book.tie(), book.tie()
    holding = book.hand["holding"]
    assert actions.judge_stale(holding, TODAY) == 2
    assert actions.judge_stale(holding, TODAY) == 0
    book.weigh(one, "2026-06-01", "5.8 kg")
    assert actions.judge_stale(holding, TODAY) == 1
    book.air("2026-06-01 09:00")
    assert actions.judge_stale(holding, TODAY) == 2
    assert actions.judge_stale(holding, day("2026-06-23")) == 2
    assert DrynessAnswer.objects.of(holding).count() == 2
    assert other.pk in answers_for([one, other])


def test_the_number_of_queries_does_not_grow_with_the_book(book, django_assert_max_num_queries):
    for _each in range(3):
        book.oven(book.tie(), "2026-06-01", 116)
    with django_assert_max_num_queries(30) as few:
        actions.judge_stale(book.hand["holding"], TODAY)
    for _each in range(20):
        book.oven(book.tie(), "2026-06-01", 116)
    # SQLite writes many rows in a few batches.
    with django_assert_max_num_queries(len(few.captured_queries) + 3):
        actions.judge_stale(book.hand["holding"], TODAY)


def test_used_up_bundles_are_judged_when_asked_about(book):
    bundle = book.tie()
    bundles.take(
        **book.hand, bundle=bundle, on=day("2026-06-10"), purpose=Taking.Purpose.SOAK, share_ppb=1_000_000_000,
        said_how=Taking.SaidHow.REST,
    )  # fmt: skip
    assert actions.judge_stale(book.hand["holding"], TODAY) == 0
    assert actions.judged([bundle], TODAY)[bundle.pk].answer == "cant_say"


@pytest.mark.parametrize("times", [1, 2])
def test_judging_twice_keeps_one_answer(book, times):
    bundle = book.tie()
    for time in range(times):
        assert actions.judged([bundle], TODAY + timedelta(days=time))[bundle.pk].bundle == bundle
    assert DrynessAnswer.objects.of(bundle.holding).count() == 1


def test_what_wants_doing_and_why(book):
    holding = book.hand["holding"]
    green, fresh, other = book.tie(), book.tie(), book.tie()
    bundles.stack_up(
        **book.hand, name="North rack", bundles=[green, fresh, other], on=TIED_ON, telltales=[green, fresh]
    )
    book.weigh(fresh, "2026-06-01", "5.8 kg")
    book.air("2026-06-10 09:00")
    actions.judge_stale(holding, TODAY)

    def due(now):
        return [
            (each.kind, each.tag, each.when, each.why) for each in queries.due(holding, today=TODAY, now=instant(now))
        ]

    # Tied and weighed on 20 January: six weeks later is 3 March. `fresh` has until 13 July, `other` is no tell-tale.
    weigh = ("weigh", green.tag, day("2026-03-03"), "last weighed 20 Jan 2026")
    assert due("2026-06-22 09:00") == [weigh]
    # A fortnight after it was read.
    assert due("2026-06-24 09:01")[1][:3] == ("read_air", "", instant("2026-06-24 09:00"))
