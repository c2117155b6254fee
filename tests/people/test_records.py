"""What every record has: it is written whole, into one book, corrected or struck out, never lost."""

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from django.db import transaction
from django.utils.functional import Promise as Lazy

from growers.beds import actions as beds
from growers.beds.models import Bed, Planting
from growers.bundles import actions as bundles
from growers.bundles.models import Bundle, Origin, Taking
from growers.customers.models import SaleLine
from growers.drying import actions as drying
from growers.drying.models import DrynessAnswer
from growers.exchange.queries import doctor
from growers.exchange.rules.entries import relations
from growers.furniture.moments import write_moment
from growers.furniture.refusals import Refusal
from growers.people.actions import StillStands, correct, on_correct, put_back, strike_out, write
from growers.people.models import Record, User
from growers.people.queries import HIDDEN, changes_of, is_told_by_its_text, kinds, standing_in_short
from growers.science.units import read_mass
from growers.soaking.models import Batch
from growers.stock import actions as stock
from growers.stock.models import Promise
from tests.ledger.book import LATER, NOON, TIED_ON
from tests.ledger.invariants import snapshot

WHOLE = 1_000_000_000
SECOND = dt.timedelta(seconds=1)


def in_use(book, model, field):
    """A row of this book in which the relation points to something."""
    return model.objects.of(book.book.holding).filter(**{f"{field.name}__isnull": False}).order_by("pk").first()


def test_no_relation_may_point_into_another_book(books):
    for model, field in relations():
        row, theirs = (in_use(book, model, field) for book in (books.mine, books.theirs))
        setattr(row, field.name, getattr(theirs, field.name))
        with pytest.raises(Refusal, match=r"^That is not in this book\.$") as refusal:
            write(row, by=books.mine.book.by)
        assert refusal.value.field == field.name
        row.refresh_from_db()
        assert getattr(row, field.name).holding_id == row.holding_id


def test_no_relation_of_a_living_record_may_point_to_what_is_struck_out(book):
    for model, field in relations():
        row = in_use(book, model, field)
        other = getattr(row, field.name)
        with transaction.atomic():
            struck = {"struck_out_at": NOON, "struck_out_by": book.book.by, "struck_out_reason": "twice"}
            type(other).objects.filter(pk=other.pk).update(**struck)
            row = model.objects.get(pk=row.pk)
            with pytest.raises(Refusal, match=r"has been struck out\. Put it back first\.") as refusal:
                write(row, by=book.book.by)
            assert refusal.value.field == field.name, (model, field)
            transaction.set_rollback(True)


def out(record, book, at=NOON, **more):
    return strike_out(record=record, by=book.book.by, reason="a mistake", at=at, **more)


def test_striking_out_asks_why(book):
    with pytest.raises(Refusal, match="Say in a word or two why") as refusal:
        strike_out(record=book.bought, by=book.book.by, reason="  ", at=NOON)
    assert refusal.value.field == "reason"


def test_what_stands_on_a_record_is_named(book):
    with pytest.raises(StillStands) as refusal:
        out(book.bed, book)
    assert [type(other) for other in refusal.value.in_the_way] == [Planting, Planting]
    for planting in book.plantings:
        assert str(planting) in str(refusal.value)
    assert Bed.objects.of(book.book.holding).filter(pk=book.bed.pk).exists()


def test_a_refused_striking_out_changes_nothing(book):
    before = snapshot()
    with pytest.raises(StillStands):
        out(book.reds[2], book)
    assert snapshot() == before
    assert doctor() == []


def test_a_record_goes_with_what_stands_on_it_if_asked(book):
    out(book.bed, book, with_what_stands_on_it=True)
    assert doctor() == []
    # The red and the tansel bundles grew there; what was bought or found did not.
    assert set(Bundle.objects.of(book.book.holding)) == {book.bought, book.found}
    assert not Batch.objects.of(book.book.holding).exists()
    assert not SaleLine.objects.of(book.book.holding).exists()


def test_a_bundle_takes_its_origins_and_moves_along_and_brings_them_back(book):
    fresh = book.book.do(bundles.tie, cut=book.cuts[0], on=TIED_ON, length_class=book.lengths[0], place=book.place)[0]
    out(fresh, book)
    assert not Origin.objects.of(book.book.holding).filter(bundle=fresh).exists()
    put_back(record=fresh, by=book.book.by)
    assert Origin.objects.of(book.book.holding).get(bundle=fresh).part_ppb == WHOLE
    assert fresh.moves.of(book.book.holding).count() == 1
    assert doctor() == []


def test_a_batch_brings_its_taking_down_and_back(book):
    batch, bundle = book.batch, book.batch.taking.bundle
    left = Bundle.objects.get(pk=bundle.pk).left_ppb
    out(batch, book, with_what_stands_on_it=True)
    # A third had gone into the water.
    assert Bundle.objects.get(pk=bundle.pk).left_ppb == left + batch.taking.share_ppb == WHOLE
    assert Taking.objects.get(pk=batch.taking_id).struck_out_reason == "a mistake"
    put_back(record=Taking.objects.get(pk=batch.taking_id), by=book.book.by)
    assert Batch.objects.get(pk=batch.pk).struck_out_at is None
    assert Bundle.objects.get(pk=bundle.pk).left_ppb == left


def test_what_has_been_taken_meanwhile_can_not_be_put_back(book):
    red = book.reds[0]
    half = book.book.do(bundles.take, bundle=red, on=LATER, purpose="work", share_ppb=WHOLE // 2, said_how="part")
    out(half, book)
    book.book.do(bundles.take, bundle=red, on=LATER, purpose="work", share_ppb=WHOLE // 2 + 1, said_how="part")
    with pytest.raises(Refusal, match="By the book only about 50 %"):
        put_back(record=half, by=book.book.by)
    half.refresh_from_db()
    assert half.struck_out_at == NOON
    assert Bundle.objects.get(pk=red.pk).left_ppb == WHOLE // 2 - 1


def test_a_name_taken_meanwhile_can_not_be_put_back(book):
    fresh = book.book.do(beds.add_bed, name="Top Carr")
    out(fresh, book)
    book.book.do(beds.add_bed, name="TOP  CARR")
    with pytest.raises(Refusal, match=r"This book has a bed of that name already\."):
        put_back(record=fresh, by=book.book.by)


@pytest.mark.parametrize("part", ["taking", "child", "origin"])
def test_a_part_is_struck_out_with_its_whole_only(book, part):
    record = {
        "taking": book.mixed.takings.first(),
        "child": book.child,
        "origin": book.child.origins.first(),
    }[part]
    with pytest.raises(Refusal, match="is part of"):
        out(record, book)
    out(book.mixed, book)
    record.refresh_from_db()
    assert record.struck_out_at == NOON
    parents = Bundle.objects.filter(pk__in=[book.reds[3].pk, book.tansels[1].pk])
    assert [parent.left_ppb for parent in parents] == [WHOLE, WHOLE]
    with pytest.raises(Refusal, match="is part of"):
        put_back(record=record, by=book.book.by)
    put_back(record=book.mixed, by=book.book.by)
    record.refresh_from_db()
    assert record.struck_out_at is None
    assert doctor() == []


@pytest.mark.parametrize("along", [False, True])
def test_an_origin_and_an_answer_are_never_struck_out_by_themselves(book, along):
    for record in (book.reds[3].origins.first(), DrynessAnswer.objects.of(book.book.holding).first()):
        whole = record.bundle
        with pytest.raises(Refusal, match=f"is part of “{whole}”"):
            out(record, book, with_what_stands_on_it=along)
        record.refresh_from_db()
        assert record.struck_out_at is None


def test_what_stands_on_a_cut_is_told_by_its_bundles(book):
    named = standing_in_short(book.cuts[0]).named
    assert not {Origin, DrynessAnswer} & {type(other) for other in named}
    assert set(Origin.objects.filter(cut=book.cuts[0]).values_list("bundle", flat=True)) == {
        other.pk for other in named if type(other) is Bundle
    }
    assert not {Origin, DrynessAnswer} & {type(other) for other in standing_in_short(book.reds[0]).named}


def test_an_origin_that_was_corrected_does_not_come_back(book):
    red, at = book.reds[2], NOON + SECOND
    wrong = red.origins.get()
    book.book.do(bundles.was_of_cut, bundle=red, cut=book.cuts[1], at=at, why="the rows were mistaken")
    with pytest.raises(Refusal, match="is part of"):
        put_back(record=wrong, by=book.book.by)
    assert doctor() == []


def test_a_promise_stands_again_when_what_kept_it_is_struck_out(book):
    out(book.count, book)
    out(book.gone, book)
    assert set(Promise.objects.of(book.book.holding).standing()) == {book.promise}
    assert doctor() == []


def test_history_keeps_who_when_and_what_was_before(book, tam):
    bed = book.book.do(beds.add_bed, name="Top Carr", note="wet")
    tam_writes = {"holding": book.book.holding, "by": tam}
    beds.correct_bed(**tam_writes, bed=bed, name="Top Carr", note="dry now", why="drained")
    strike_out(record=bed, by=book.book.by, reason="sold", at=NOON)
    newest, corrected, made = changes_of(bed)
    assert (newest.who, newest.why) == (book.book.by, "sold")
    assert (corrected.who, corrected.why, corrected.fields) == (tam, "drained", [("note", "wet", "dry now")])
    assert (made.who, made.fields) == (book.book.by, [])
    assert made.at < corrected.at < newest.at


@pytest.fixture
def tam(books):
    return User.objects.create_user(username="tam")


def test_a_correction_does_not_set_a_counter_back(book):
    stale = Bundle.objects.get(pk=book.reds[0].pk)
    book.book.do(bundles.take, bundle=book.reds[0], on=LATER, purpose="work", share_ppb=7, said_how="part")
    evidence = Bundle.objects.get(pk=stale.pk).evidence_no
    stale.note = "tied by Tam"
    write(stale, by=book.book.by)
    now = Bundle.objects.get(pk=stale.pk)
    assert (now.note, now.left_ppb, now.evidence_no) == ("tied by Tam", WHOLE - 7, evidence)


def test_a_corrected_share_goes_to_the_bundle_that_it_belongs_to(book):
    taken = {"on": LATER, "purpose": "work", "share_ppb": 100, "said_how": "part"}
    taking = book.book.do(bundles.take, bundle=book.reds[0], **taken)
    correct(record=taking, by=book.book.by, bundle=book.bought, share_ppb=300)
    assert Bundle.objects.get(pk=book.reds[0].pk).left_ppb == WHOLE
    assert Bundle.objects.get(pk=book.bought.pk).left_ppb == WHOLE - 300
    assert doctor() == []


def test_what_is_struck_out_is_not_corrected(book):
    fresh = book.book.do(beds.add_bed, name="Top Carr")
    out(fresh, book)
    with pytest.raises(Refusal, match=r"has been struck out\. Put it back first\."):
        book.book.do(beds.correct_bed, bed=fresh, name="Low Carr")


def test_a_bundle_can_not_have_been_tied_after_it_was_counted(book):
    counted = book.book.do(stock.count, bundle=book.bought, on=LATER, why="agrees", mass=read_mass("4 kg"))
    with pytest.raises(Refusal, match="It was counted on"):
        book.book.do(bundles.correct_bundle, bundle=book.bought, tied_on=LATER + dt.timedelta(days=1))
    assert counted.on >= Bundle.objects.get(pk=book.bought.pk).tied_on


def test_several_stages_may_have_their_say_about_one_kind(book, monkeypatch):
    said = []
    monkeypatch.setattr(on_correct, "acts", list(on_correct.acts))
    on_correct.register(Bed)(lambda record, **more: said.append("one"))
    on_correct.register(Bed)(lambda record, **more: said.append("other"))
    on_correct.register(Bundle)(lambda record, **more: said.append("not this"))
    book.book.do(beds.correct_bed, bed=book.bed, name="Beck Side", note="wet")
    assert said == ["one", "other"]


def test_history_tells_a_weight_as_it_was_typed_and_shares_as_parts(book):
    weighing = book.book.do(drying.weigh, bundle=book.bought, on=LATER, mass=read_mass("6.1 kg"))
    book.book.do(drying.correct_weighing, weighing=weighing, on=LATER, mass=read_mass("14", "lb"), wet=True, note="")
    assert [(str(name), old, new) for name, old, new in changes_of(weighing)[0].fields] == [
        ("weight", "6.1 kg", "14 lb"),
        ("weighed wet", "no", "yes"),
    ]
    promise = book.promise
    correct(record=promise, by=book.book.by, share_ppb=WHOLE // 4)
    [(name, _old, new)] = changes_of(promise)[0].fields
    assert (str(name), new) == ("part of the bundle", "a quarter")
    out(promise, book)
    struck = {str(name): new for name, _old, new in changes_of(promise)[0].fields}
    assert struck["struck out"] == write_moment(NOON, ZoneInfo(book.book.holding.zone))
    assert struck["why it was struck out"] == "a mistake"


def test_every_column_that_a_history_shows_has_words_for_people():
    for model in kinds(Record).values():
        columns = model.history.model.tracked_fields
        shown = [each for each in columns if each.name not in HIDDEN and not is_told_by_its_text(each, columns)]
        assert shown
        assert [each.name for each in shown if not isinstance(each.verbose_name, Lazy)] == [], model
