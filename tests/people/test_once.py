"""A form is kept once, however often it arrives."""

import uuid

import pytest

from growers.beds import actions as beds
from growers.beds.models import Bed
from growers.furniture.refusals import Refusal
from growers.people.actions import AlreadyKept, once, strike_out
from growers.people.models import Receipt
from tests.ledger.book import NOON


@pytest.fixture
def send(hand):
    client_id = uuid.uuid4()

    def send(name, said=None, client_id=client_id, do=None):
        do = do or (lambda: beds.add_bed(**hand, name=name))
        return once(**hand, client_id=client_id, action="add_bed", said=said or {"name": name}, do=do)

    return send


def test_the_same_form_again_gives_the_first_result(send):
    first = send("Beck Side")
    assert send("Beck Side") == first
    assert Bed.objects.count() == Receipt.objects.count() == 1


def test_what_was_kept_and_struck_out_since_is_told_so(send, wren):
    strike_out(record=send("Beck Side"), by=wren, reason="a mistake", at=NOON)
    with pytest.raises(AlreadyKept, match="struck out since"):
        send("Beck Side")
    assert Bed.objects.count() == 1


def test_striking_out_itself_is_once_too(send, hand, wren):
    bed = beds.add_bed(**hand, name="Beck Side")

    def strike():
        return strike_out(record=bed, by=wren, reason="a mistake", at=NOON)

    assert send("strike", do=strike) == send("strike", do=strike) == bed


def test_a_list_comes_back_as_a_list(send, hand):
    def two():
        return [beds.add_bed(**hand, name=name) for name in ("Beck Side", "Top Carr")]

    first = send("both", do=two)
    assert send("both", do=two) == first == list(Bed.objects.order_by("pk"))


def test_the_same_form_with_other_words_is_refused(send):
    send("Beck Side")
    with pytest.raises(AlreadyKept):
        send("Top Carr")
    assert [bed.name for bed in Bed.objects.all()] == ["Beck Side"]


def test_the_same_words_in_another_order_are_the_same(send):
    first = send("Beck Side", {"name": "Beck Side", "note": "wet"})
    assert send("Beck Side", {"note": "wet", "name": "Beck Side"}) == first


def test_another_form_with_the_same_words_is_another(send):
    send("Beck Side")
    with pytest.raises(Refusal, match="has a bed of that name already"):
        send("Beck Side", client_id=uuid.uuid4())
    assert Receipt.objects.count() == 1


def test_a_refusal_leaves_no_receipt_so_that_the_mended_form_is_kept(send, hand):
    beds.add_bed(**hand, name="Beck Side")
    with pytest.raises(Refusal):
        send("Beck Side")
    assert not Receipt.objects.exists()
    assert send("Top Carr").name == "Top Carr"


def test_two_holdings_may_have_the_same_client_id(send, hand, other, ida):
    send("Beck Side")
    [receipt] = Receipt.objects.all()
    theirs = once(
        holding=other, by=ida, client_id=receipt.client_id, action="add_bed", said={"name": "Beck Side"},
        do=lambda: beds.add_bed(holding=other, by=ida, name="Beck Side"),
    )  # fmt: skip
    assert theirs.holding == other
