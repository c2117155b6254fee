"""Orders: taken, promised for, filled by sales, and what remains of them."""

import pytest

from growers.bundles.models import Bundle
from growers.customers import actions
from growers.customers.models import Order, OrderLine, OrderPromise, Sale
from growers.customers.queries import bundles_for, due, orders_now, orders_of, with_status
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.people import actions as people
from growers.science import units
from growers.stock import actions as stock
from growers.stock.models import Promise
from growers.stock.queries import free_ppb
from tests import ground


@pytest.fixture
def order(hand, orla, pellock, day):
    """3 kg of Pellock, ordered on 1 February and wanted by 1 March 2026."""
    said = {"variety": pellock, "state": "green", "wanted_by": day("2026-03-01")}
    return actions.take_order(**hand, customer=orla, on=day("2026-02-01"), much=read_much("3 kg"), **said)


@pytest.fixture
def line(order):
    return order.lines.get()


def now(order):
    [found] = orders_now(order.holding, [order])
    return found


def test_what_remains_of_an_order_by_weight(order, line, sell):
    assert now(order).lines[0].remains == 3.0
    sell("1 kg", on="2026-02-02", order_line=line)
    found = now(order)
    assert (found.status, found.lines[0].got, found.lines[0].remains) == ("standing", 1.0, 2.0)
    # 1.9 more come to 2.9 of 3 kg: 0.1 short is within a twentieth (0.15), so that is filled.
    sell("1.9 kg", on="2026-02-03", order_line=line)
    assert (now(order).status, now(order).lines[0].remains) == ("filled", 0.0)


def test_the_sale_is_to_whom_ordered(order, line, sell, orla, hand):
    assert sell("1 kg", order_line=line).sale.customer == orla
    with pytest.raises(Refusal, match="Orla Fenn ordered that, nobody else"):
        sell("1 kg", order_line=line, customer=actions.add_customer(**hand, name="Tam Birk"))
    with pytest.raises(Refusal, match="not ordered until"):
        sell("1 kg", order_line=line, on="2026-01-31")


def test_an_order_of_rods_counts_rods_by_the_count_or_by_the_share(hand, orla, bundle, sell, day):
    order = actions.take_order(**hand, customer=orla, on=day("2026-02-01"), much=read_much("60 rods"))
    line = order.lines.get()
    sell("20 rods", order_line=line)
    # A quarter of the hundred rods tied is about 25 more: 60 - 20 - 25 = 15.
    taken = stock.count(**hand, bundle=bundle, on=day("2026-02-02"), rods=80, why="agrees")
    assert taken.left_ppb == 800_000_000
    sell("1.5 kg", on="2026-02-03", order_line=line)
    found = now(order).lines[0]
    assert (found.got, found.remains, found.about) == (45, 15, True)


def test_an_order_of_bundles_counts_the_rest_of_one_as_one(hand, orla, bundle, cut, sell, day):
    order = actions.take_order(**hand, customer=orla, on=day("2026-02-01"), much=read_much("2 bundles"))
    line = order.lines.get()
    stock.take_out(**hand, bundle=bundle, on=day("2026-01-20"), purpose="work", much=read_much("a tenth"))
    sell("the rest", order_line=line)
    assert now(order).lines[0].remains == 1
    second = ground.tied(hand, cut, on=day("2026-01-12"))[0]
    sell("half", bundle=second, order_line=line)
    assert (now(order).lines[0].remains, now(order).lines[0].remains_whole) == (0.5, 1)
    sell("the rest", bundle=second, order_line=line)
    assert now(order).status == "filled"


def test_rods_never_weighed_leave_what_remains_unsaid_until_the_grower_says_it(hand, order, line, cut, sell, day):
    unweighed = ground.tied(hand, cut, on=day("2026-01-12"))[0]
    sell("half", bundle=unweighed, order_line=line)
    assert (now(order).lines[0].remains, now(order).status) == (None, "standing")
    actions.close_order(**hand, order=order, on=day("2026-02-04"))
    order.refresh_from_db()
    assert now(order).status == "filled"


def test_a_promise_for_an_order_is_kept_by_its_sale(hand, order, line, bundle, sell, day):
    # 3 of 6 kg are set aside: half of the bundle is free.
    link = actions.promise_for_order(
        **hand, order_line=line, bundle=bundle, on=day("2026-02-01"), much=read_much("3 kg")
    )
    assert link.promise.whom == "Orla Fenn"
    assert free_ppb(bundle) == 500_000_000
    with pytest.raises(Refusal, match="promised to Orla Fenn"):
        sell("4 kg")
    sold = sell("3 kg", order_line=line)
    link.promise.refresh_from_db()
    assert link.promise.kept_by == sold.taking
    bundle.refresh_from_db()
    assert (bundle.left_ppb, free_ppb(bundle)) == (500_000_000, 500_000_000)
    assert now(order).lines[0].promises == ()


def test_a_sale_that_keeps_an_orders_promise_goes_towards_the_order(hand, order, line, bundle, sell, day):
    link = actions.promise_for_order(
        **hand, order_line=line, bundle=bundle, on=day("2026-02-01"), much=read_much("3 kg")
    )
    assert sell("3 kg", promise=link.promise).order_line == line


def test_cancelling_frees_what_was_set_aside(hand, order, line, bundle, sell, day):
    actions.promise_for_order(**hand, order_line=line, bundle=bundle, on=day("2026-02-01"), much=read_much("3 kg"))
    actions.cancel_order(**hand, order=order, on=day("2026-02-03"))
    assert Promise.objects.get().released_on == day("2026-02-03")
    assert free_ppb(bundle) == 1_000_000_000
    order.refresh_from_db()
    assert now(order).status == "cancelled"
    with pytest.raises(Refusal, match="was cancelled"):
        sell("1 kg", order_line=OrderLine.objects.get())
    with pytest.raises(Refusal, match="was cancelled"):
        actions.add_line(**hand, order=order, much=read_much("1 kg"))
    actions.reopen_order(**hand, order=order)
    assert now(order).status == "standing"


def test_nothing_sold_is_not_filled(hand, order, day):
    with pytest.raises(Refusal, match="cancel it instead"):
        actions.close_order(**hand, order=order, on=day("2026-02-03"))


def test_a_struck_out_sale_leaves_the_order_open_again(order, line, sell, wren, utc):
    sold = sell("3 kg", order_line=line)
    assert now(order).status == "filled"
    people.strike_out(record=sold, by=wren, reason="twice", at=utc("2026-02-05 12:00"))
    assert (now(order).status, now(order).lines[0].remains) == ("standing", 3.0)


def test_an_order_with_its_promise_is_struck_out_and_put_back_whole(hand, order, line, bundle, wren, day, utc):
    actions.promise_for_order(**hand, order_line=line, bundle=bundle, on=day("2026-02-01"), much=read_much("3 kg"))
    people.strike_out(record=order, by=wren, reason="twice", at=utc("2026-02-05 12:00"))
    of = hand["holding"]
    assert not any(kind.objects.of(of).exists() for kind in (Order, OrderLine, OrderPromise, Promise))
    assert free_ppb(bundle) == 1_000_000_000
    people.put_back(record=order, by=wren)
    assert all(kind.objects.of(of).count() == 1 for kind in (Order, OrderLine, OrderPromise, Promise))


def test_a_promise_for_an_order_taken_back_leaves_the_order(hand, order, line, bundle, wren, day, utc):
    link = actions.promise_for_order(
        **hand, order_line=line, bundle=bundle, on=day("2026-02-01"), much=read_much("3 kg")
    )
    people.strike_out(record=link, by=wren, reason="taken back", at=utc("2026-02-05 12:00"))
    assert not Promise.objects.of(hand["holding"]).exists()
    assert now(order).lines[0].promises == ()


def test_an_order_that_was_sold_from_stays_with_its_customer(hand, order, line, sell, day):
    sell("1 kg", order_line=line)
    other = actions.add_customer(**hand, name="Tam Birk")
    with pytest.raises(Refusal, match="correct that sale first"):
        actions.correct_order(**hand, order=order, customer=other, on=order.on)
    with pytest.raises(Refusal, match="were sold towards it"):
        actions.correct_order(**hand, order=order, customer=order.customer, on=day("2026-02-09"))


def test_only_what_was_ordered_is_offered_for_it(hand, order, line, bundle, cut, day):
    ground.tied(hand, ground.cut(hand, ground.planted(hand, "Merrow Red")), on=day("2026-01-12"))
    four = ground.tied(hand, cut, on=day("2026-01-12"), label="4 ft")[0]
    found = bundles_for(hand["holding"], [line], day("2026-02-01"))[line.pk]
    assert {row.bundle for row in found} == {bundle, four}
    actions.correct_order_line(
        **hand, orderline=line, much=read_much("3 kg"), variety=line.variety, length_class=four.length_class
    )
    line.refresh_from_db()
    assert [row.bundle for row in bundles_for(hand["holding"], [line], day("2026-02-01"))[line.pk]] == [four]


def test_orders_wanted_within_the_week_are_due(order, hand, now, day):
    holding = hand["holding"]
    assert [each.kind for each in due(holding, today=day("2026-02-21"), now=now)] == []
    [soon] = due(holding, today=day("2026-02-22"), now=now)
    assert (soon.kind, soon.urgent, soon.why) == ("order", False, "3 kg: Pellock, brown, green")
    [late] = due(holding, today=day("2026-03-02"), now=now)
    assert late.urgent


def test_orders_by_how_they_stand(hand, order, line, orla, sell, day):
    holding = hand["holding"]
    empty = actions.take_order(**hand, customer=orla, on=day("2026-02-02"))
    sell("3 kg", order_line=line)
    assert with_status(holding, orders_of(holding), "filled") == [order]
    assert with_status(holding, orders_of(holding), "standing") == [empty]


def test_the_number_of_questions_to_the_database_does_not_grow(
    hand, orla, bundle, sell, day, django_assert_num_queries
):
    def took():
        order = actions.take_order(**hand, customer=orla, on=day("2026-02-01"), much=read_much("1 kg"))
        sell("0.5 kg", order_line=order.lines.get())

    took()
    for _each in range(3):
        with django_assert_num_queries(4):
            orders_now(hand["holding"], orders_of(hand["holding"]))
        took()


def test_whole_bundles_are_the_lines_of_one_sale(hand, bundle, cut, orla, day):
    others = ground.tied(hand, cut, on=day("2026-01-12"), how_many=2, mass=units.read_mass("5 kg"))
    lines = actions.sell_bundles(
        **hand,
        bundles=[others[1], bundle, others[0]],
        on=day("2026-02-01"),
        customer=orla,
        price=20,
        state_said="green",
    )
    assert Sale.objects.of(hand["holding"]).get() == lines[0].sale
    assert [line.taking.bundle for line in lines] == [bundle, *others]
    assert {line.price for line in lines} == {20}
    assert not Bundle.objects.of(hand["holding"]).with_some_left().exists()


def test_whole_bundles_without_a_name_are_still_one_sale(hand, bundle, cut, day):
    other = ground.tied(hand, cut, on=day("2026-01-12"))[0]
    lines = actions.sell_bundles(**hand, bundles=[bundle, other], on=day("2026-02-01"))
    assert lines[0].sale == lines[1].sale


def test_if_one_bundle_cannot_be_sold_none_is(hand, bundle, cut, day):
    young = ground.tied(hand, cut, on=day("2026-02-02"))[0]
    with pytest.raises(Refusal, match="not tied until"):
        actions.sell_bundles(**hand, bundles=[bundle, young], on=day("2026-02-01"))
    bundle.refresh_from_db()
    assert bundle.left_ppb == 1_000_000_000
    assert not Sale.objects.of(hand["holding"]).exists()
