"""Two people at once: nobody takes what is not there, and nobody is refused what is."""

import uuid
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connections

from growers.bundles.actions import take as take_a_share
from growers.bundles.models import Bundle, Grading, Origin, Taking
from growers.bundles.rules import with_check_digits
from growers.exchange.queries import doctor
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.people.actions import AlreadyKept, once, write
from growers.people.models import Receipt
from growers.science.units import read_part
from growers.soaking import actions as soaking
from growers.soaking.models import Lift
from growers.stock import actions as stock
from tests.ledger.book import LATER, NOON, TIED_ON, ground

pytestmark = pytest.mark.django_db(transaction=True)

WHOLE = 1_000_000_000
TRIES = 100
SLOW_TRIES = 15


@pytest.fixture
def base(holding, wren):
    return ground(holding, wren)


def tied(base, how_many):
    """So many sound bundles of 6 kg, without the bench."""
    holding, by, [cut, _] = base.book.holding, base.book.by, base.cuts
    grading = write(Grading(holding=holding, cut=cut, began_on=TIED_ON), by=by)
    bundles = [
        Bundle(
            holding=holding, made_by=by, made="graded", grading=grading, tag=with_check_digits(number), tied_on=TIED_ON,
            length_class=base.lengths[1], tied_mass_kg=6.0, tied_mass_unit="kg", tied_mass_text="6",
        )
        for number in range(how_many)
    ]  # fmt: skip
    Bundle.objects.bulk_create(bundles)
    Origin.objects.bulk_create(
        Origin(holding=holding, made_by=by, bundle=bundle, cut=cut, part_ppb=WHOLE) for bundle in bundles
    )
    return bundles


def two_at_once(things, act):
    """Two people do the same to each thing at the same moment; what each got, or what each was refused with."""
    start = Barrier(2, timeout=60)

    def person():
        got = []
        try:
            for thing in things:
                start.wait()
                try:
                    got.append(act(thing))
                except Refusal as refusal:
                    got.append(refusal)
            return got
        finally:
            connections.close_all()

    with ThreadPoolExecutor(2) as people:
        both = [people.submit(person) for _ in range(2)]
        return list(zip(*(each.result(timeout=300) for each in both), strict=True))


def passed(pair):
    return sum(not isinstance(each, Refusal) for each in pair)


def take_share(base, share_ppb):
    said = {"holding": base.book.holding, "by": base.book.by, "on": LATER, "purpose": "work", "said_how": "part"}
    return lambda bundle: take_a_share(bundle=bundle, share_ppb=share_ppb, **said)


def take(base, much):
    said = {"holding": base.book.holding, "by": base.book.by, "on": LATER, "purpose": "work", "much": read_much(much)}
    return lambda bundle: stock.take_out(bundle=bundle, **said)


def shares(base):
    left = dict(Bundle.objects.of(base.book.holding).values_list("pk", "left_ppb"))
    taken = dict.fromkeys(left, 0)
    for bundle, share_ppb in Taking.objects.of(base.book.holding).values_list("bundle", "share_ppb"):
        taken[bundle] += share_ppb
    return left, taken


def test_two_who_take_six_tenths_each_get_it_once(base):
    pairs = two_at_once(tied(base, TRIES), take_share(base, 600_000_000))
    assert [passed(pair) for pair in pairs] == [1] * TRIES
    left, taken = shares(base)
    assert set(left.values()) == {400_000_000}
    assert set(taken.values()) == {600_000_000}
    assert doctor() == []


def test_two_who_take_four_tenths_each_both_get_it(base):
    pairs = two_at_once(tied(base, TRIES), take_share(base, 400_000_000))
    assert [passed(pair) for pair in pairs] == [2] * TRIES
    left, taken = shares(base)
    assert set(left.values()) == {200_000_000}
    assert set(taken.values()) == {800_000_000}
    assert doctor() == []


@pytest.mark.parametrize(("much", "pass_"), [("3.6 kg", 1), ("2.4 kg", 2)])
def test_so_it_is_by_weight_out_of_six_kilos(base, much, pass_):
    pairs = two_at_once(tied(base, SLOW_TRIES), take(base, much))
    assert [passed(pair) for pair in pairs] == [pass_] * SLOW_TRIES
    assert doctor() == []


def test_two_bundles_at_once_the_other_way_round_do_not_wait_on_each_other_for_ever(base):
    bundles = tied(base, 10)
    pairs = [bundles[n : n + 2] for n in range(0, 10, 2)]
    turn = iter([*range(2)] * len(pairs))

    def merge(pair):
        this_way = pair if next(turn) else pair[::-1]
        return stock.merge(holding=base.book.holding, by=base.book.by, bundles=this_way, on=LATER)

    assert [passed(both) for both in two_at_once(pairs, merge)] == [1] * len(pairs)
    assert doctor() == []


def test_one_form_sent_twice_at_once_is_kept_once(base):
    bundles = tied(base, 2 * SLOW_TRIES)
    ids = {bundle.pk: uuid.uuid4() for bundle in bundles}
    taking = take(base, "1 kg")

    def send(bundle):
        return once(
            holding=base.book.holding,
            by=base.book.by,
            client_id=ids[bundle.pk],
            action="take_out",
            said={"much": "1 kg"},
            do=lambda: taking(bundle),
        )

    pairs = two_at_once(bundles, send)
    assert all(one == other for one, other in pairs)
    assert Taking.objects.count() == Receipt.objects.count() == len(bundles)
    assert {pair[0].bundle_id for pair in pairs} == set(ids)
    assert doctor() == []


def test_one_form_with_other_words_at_once_is_kept_as_the_first_said(base):
    bundles = tied(base, SLOW_TRIES)
    ids = {bundle.pk: uuid.uuid4() for bundle in bundles}
    words = iter(range(10_000))

    def send(bundle):
        return once(
            holding=base.book.holding, by=base.book.by, client_id=ids[bundle.pk], action="take_out", said=next(words),
            do=lambda: take(base, "1 kg")(bundle),
        )  # fmt: skip

    for pair in two_at_once(bundles, send):
        assert passed(pair) == 1
        assert any(isinstance(each, AlreadyKept) for each in pair)
    assert Taking.objects.count() == len(bundles)


@pytest.fixture
def batches(base):
    put_in = {"tank": base.tank, "moment": Moment(NOON, NOON, "noon"), "much": read_much("the rest")}
    return [base.book.do(soaking.put_in, bundle=bundle, **put_in) for bundle in tied(base, SLOW_TRIES)]


def lift(base, part=None):
    said = {"holding": base.book.holding, "by": base.book.by, "moment": Moment(NOON, NOON, "noon"), "part": part}
    return lambda batch: soaking.lift(batch=batch, **said)


def test_two_who_lift_all_of_a_batch_lift_it_once(base, batches):
    assert [passed(pair) for pair in two_at_once(batches, lift(base))] == [1] * SLOW_TRIES
    assert {batch_after(batch) for batch in batches} == {(0, WHOLE)}
    assert Lift.objects.count() == SLOW_TRIES
    assert doctor() == []


def test_two_who_lift_half_of_what_is_there_both_lift(base, batches):
    # The second finds half, and lifts half of that.
    assert [passed(pair) for pair in two_at_once(batches, lift(base, read_part("half")))] == [2] * SLOW_TRIES
    assert {batch_after(batch) for batch in batches} == {(250_000_000, WHOLE)}
    assert doctor() == []


def batch_after(batch):
    batch.refresh_from_db()
    return batch.in_water_ppb, batch.left_ppb
