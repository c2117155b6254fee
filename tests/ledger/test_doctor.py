"""Each rule of the doctor is shown to find a fault planted behind the actions' backs, and nothing else to find it."""

from contextlib import contextmanager
from datetime import timedelta

import pytest
from django.core.management import CommandError, call_command
from django.db import connection, transaction

from growers.bundles.actions import NewBundle, came_back
from growers.bundles.models import Adjustment, Origin
from growers.customers.models import Returned
from growers.exchange.queries import doctor, faults
from growers.exchange.rules import all_rules
from growers.exchange.rules.entries import entry_models, relations
from growers.stock.models import Count
from tests.ledger.book import LATER, NOON, TIED_ON

WHOLE = 1_000_000_000
DAY, HOUR = timedelta(days=1), timedelta(hours=1)
RULES = {rule.code: rule for rule in all_rules()}
PLANTS = {}


@contextmanager
def unchecked():
    """The database looks away: what its own constraints hold can be planted too."""
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("PRAGMA ignore_check_constraints = ON")
            yield
            cursor.execute("PRAGMA ignore_check_constraints = OFF")
        else:
            # Taken back with the test's transaction.
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
            cursor.execute(
                "SELECT conrelid::regclass::text, conname FROM pg_constraint WHERE contype = 'c' AND conrelid <> 0"
                " AND connamespace = 'public'::regnamespace"
            )
            for table, name in cursor.fetchall():
                cursor.execute(f'ALTER TABLE {table} DROP CONSTRAINT "{name}"')
            yield


def plant(record, **columns):
    """Change a row as no action would."""
    assert type(record).objects.filter(pk=record.pk).update(**columns) == 1


def plants(code):
    def keep(function):
        PLANTS[code] = function
        return function

    return keep


@plants("bundle_left")
def _(book, other):
    plant(book.bought, left_ppb=WHOLE - 1)


@plants("bundle_left_in_bounds")
def _(book, other):
    right = book.book.add(Adjustment, bundle=book.bought, on=LATER, share_ppb=-5)
    book.book.add(Count, bundle=book.bought, on=LATER, rods=200, why="unknown", left_ppb=WHOLE, adjustment=right)
    with unchecked():
        plant(book.bought, left_ppb=WHOLE + 5)


@plants("making_in")
def _(book, other):
    taking = book.mixed.takings.first()
    plant(taking, part_of_making_ppb=taking.part_of_making_ppb - 1)


@plants("making_out")
def _(book, other):
    plant(book.mixed, rejects_ppb=1)


@plants("batch_in_water")
def _(book, other):
    plant(book.lift, part_ppb=499_999_999)


@plants("batch_left")
def _(book, other):
    plant(book.spoiled, part_ppb=99_999_999)


@plants("batch_lifted_before_used")
def _(book, other):
    plant(book.lift, part_ppb=300_000_000)
    with unchecked():
        plant(book.batch, in_water_ppb=700_000_000)


@plants("origins_whole")
def _(book, other):
    origin = book.child.origins.first()
    plant(origin, part_ppb=origin.part_ppb - 1)


@plants("origin_of_its_grading")
def _(book, other):
    plant(book.reds[2].origins.get(), cut=book.cuts[1])


@plants("origin_as_made")
def _(book, other):
    plant(book.bought.origins.get(), purchase=None, cut=book.cuts[0])


@plants("origins_mixed_rightly")
def _(book, other):
    more, less = book.child.origins.all()
    plant(more, part_ppb=more.part_ppb + 5)
    plant(less, part_ppb=less.part_ppb - 5)


@plants("origins_dried_again")
def _(book, other):
    plant(book.again.origins.get(), cut=book.cuts[1])


@plants("no_ring")
def _(book, other):
    # The child goes into its own making in place of the red bundle; all else is made to fit.
    red = book.mixed.takings.get(bundle=book.reds[3])
    plant(red, bundle=book.child)
    plant(book.reds[3], left_ppb=WHOLE)
    plant(book.child, left_ppb=0)
    Origin.objects.filter(bundle=book.child, cut=book.cuts[0]).delete()
    plant(book.child.origins.get(), part_ppb=WHOLE)


@plants("made_after_parents")
def _(book, other):
    plant(book.again, tied_on=TIED_ON - DAY)
    plant(book.dried, on=TIED_ON - DAY)


@plants("made_that_day")
def _(book, other):
    plant(book.mixed, on=LATER + DAY)


@plants("cut_first_day")
def _(book, other):
    plant(book.cuts[0], first_on=book.cuts[0].first_on - DAY)


@plants("one_cut_a_winter")
def _(book, other):
    plant(book.cuts[1], planting=book.plantings[0])


@plants("tied_after_cut")
def _(book, other):
    plant(book.cuts[1], first_on=TIED_ON + DAY)
    plant(book.cuts[1].days.get(), on=TIED_ON + DAY)


@plants("taken_after_tied")
def _(book, other):
    plant(book.gone, on=TIED_ON - DAY)


@plants("weighed_after_tied")
def _(book, other):
    plant(book.weighing, on=TIED_ON - DAY)


@plants("taken_on_its_day")
def _(book, other):
    plant(book.line.order_line.order, on=LATER - DAY)
    plant(book.sale, on=LATER - DAY)


@plants("dried_again_on_its_day")
def _(book, other):
    plant(book.dried, on=LATER + DAY)


@plants("looked_at_after_made")
def _(book, other):
    plant(book.basket.stayed_tights.get(), on=LATER - DAY)


@plants("soaked_before_carried")
def _(book, other):
    plant(book.reds[3], soaked_before=True)


@plants("lifted_after_put_in")
def _(book, other):
    plant(book.check, at=NOON - HOUR)


@plants("worked_after_lifted")
def _(book, other):
    plant(book.bench, at=NOON - HOUR)


@plants("taken_for_its_purpose")
def _(book, other):
    plant(book.sold, purpose="work")


@plants("taken_once")
def _(book, other):
    plant(book.gone, purpose="sale", gone="")


@plants("count_sets_its_bundle_right")
def _(book, other):
    plant(book.count, on=LATER + DAY)


@plants("set_right_by_a_count")
def _(book, other):
    plant(book.count, adjustment=None)


@plants("promise_kept_from_its_bundle")
def _(book, other):
    plant(book.promise, bundle=book.reds[0])


@plants("dried_again_from_its_batch")
def _(book, other):
    plant(book.again, dried_from=book.reds[2])


@plants("brought_back_from_its_sale")
def _(book, other):
    plant(book.back, dried_from=book.tansels[1])


@plants("brought_back_once")
def _(book, other):
    new = NewBundle(WHOLE, book.lengths[1])
    again = book.book.do(came_back, parent=book.tansels[0], new=new, on=LATER, soaked_before=False)
    rest = {"part_ppb": WHOLE // 2 + 1, "said_how": "rest"}
    book.book.add(Returned, line=book.line, bundle=again, on=LATER, **rest)


@plants("order_filled_for_its_customer")
def _(book, other):
    plant(book.line.order_line.order, on=LATER + DAY)


@plants("ended_order_promises_nothing")
def _(book, other):
    plant(book.promise, kept_by=None)
    plant(book.line.order_line.order, cancelled_on=LATER)


@plants("returned_on_its_day")
def _(book, other):
    plant(book.returned, on=LATER + DAY)


@plants("complained_after_sold")
def _(book, other):
    plant(book.line.complaints.get(), on=LATER - DAY)


@plants("stands_on_the_living")
def _(book, other):
    plant(book.customer, struck_out_at=NOON, struck_out_by=book.book.by, struck_out_reason="twice")


@plants("in_one_book")
def _(book, other):
    plant(book.bench, holding=other)


@plants("struck_out_whole")
def _(book, other):
    with unchecked():
        plant(book.tank, struck_out_reason="twice")


@plants("name_can_be_found")
def _(book, other):
    plant(book.tank, name_key="")


@plants("weight_as_read")
def _(book, other):
    with unchecked():
        plant(book.weighing, mass_unit="")


@plants("tag_checks")
def _(book, other):
    plant(book.bought, tag="1234567")


def test_a_sound_book_is_sound(book):
    assert [str(fault) for fault in doctor()] == []


def test_every_rule_has_its_planted_fault():
    assert set(PLANTS) == set(RULES)


@pytest.mark.parametrize("code", PLANTS)
def test_a_planted_fault_is_found_by_its_rule_alone(code, books):
    PLANTS[code](books.mine, books.theirs.book.holding)
    assert {fault.rule.code for fault in doctor()} == {code}


@pytest.mark.parametrize("code", ["bundle_left", "tag_checks"])
def test_a_fault_belongs_to_its_holding(code, books):
    book, other = books.mine, books.theirs.book.holding
    PLANTS[code](book, other)
    [fault] = doctor(book.book.holding)
    assert (fault.kind, fault.id, fault.holding) == ("bundle", book.bought.pk, book.book.holding)
    assert doctor(other) == []


def test_the_book_of_these_tests_has_every_kind_and_every_relation(book):
    assert {model.__name__ for model in entry_models() if not model.objects.exists()} == set()
    unused = [(model.__name__, field.name) for model, field in relations() if not in_use(model, field).exists()]
    assert unused == []


def in_use(model, field):
    return model.objects.filter(**{f"{field.name}__isnull": False})


def test_whatever_stands_on_something_struck_out_is_found(book):
    for model, field in relations():
        row = in_use(model, field).first()
        with transaction.atomic():
            plant(getattr(row, field.name), struck_out_at=NOON, struck_out_by=book.book.by, struck_out_reason="twice")
            assert (row.kind, row.pk) in found("stands_on_the_living"), (model, field.name)
            transaction.set_rollback(True)


def test_whatever_points_into_another_book_is_found(books):
    for model, field in relations():
        row = in_use(model, field).first()
        with transaction.atomic():
            plant(row, holding=books.theirs.book.holding)
            assert (row.kind, row.pk) in found("in_one_book"), (model, field.name)
            transaction.set_rollback(True)


def found(code):
    return {(fault.kind, fault.id) for fault in faults(RULES[code])}


def test_the_command_says_that_all_holds(book, capsys):
    call_command("doctor")
    assert capsys.readouterr().out == f"All {len(RULES)} rules hold.\n"


def test_the_command_names_what_is_wrong_and_fails(book, capsys):
    PLANTS["bundle_left"](book, None)
    with pytest.raises(CommandError, match=r"1 fault\. Nothing was changed\.") as failure:
        call_command("doctor")
    assert failure.value.returncode == 1
    said = capsys.readouterr().out
    assert said.startswith(f"Hallow Carr: bundle no. {book.bought.pk} ({book.bought.uid}) breaks a rule.")
    assert "What is left of a bundle is the whole, less what was taken out and set right." in said
