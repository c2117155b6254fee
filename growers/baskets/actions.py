"""Baskets: what went into them, and whether they stayed tight."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.models import Taking
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, on_correct, on_put_back, on_strike_out, write
from growers.people.rules import name_key, named, tidy
from growers.soaking.actions import check_lifted_by, part_to_use, use
from growers.soaking.models import Lift
from growers.stock.actions import correct_taking, take_out

from .models import Basket, Pattern, PatternPart, RodsUsed, StayedTight


@transaction.atomic
def add_pattern(*, holding, by, name, note=""):
    return write(Pattern(holding=holding, note=note, **named(name)), by=by)


@transaction.atomic
def correct_pattern(*, holding, by, pattern, name, note="", why=""):
    return correct(record=pattern, by=by, why=why, note=note, **named(name))


def part_fields(*, name, rods, length_class, thickness):
    return {
        "name": tidy(name),
        "name_key": name_key(name),
        "rods": rods,
        "length_class": length_class,
        "thickness": thickness,
    }


@transaction.atomic
def add_part(*, holding, by, pattern, name, rods=None, length_class=None, thickness=""):
    """A part of a pattern, such as 24 stakes, with what rods it takes for one basket."""
    fields = part_fields(name=name, rods=rods, length_class=length_class, thickness=thickness)
    return write(PatternPart(holding=holding, pattern=pattern, **fields), by=by)


@transaction.atomic
def correct_patternpart(*, holding, by, patternpart, name, rods=None, length_class=None, thickness="", why=""):
    fields = part_fields(name=name, rods=rods, length_class=length_class, thickness=thickness)
    return correct(record=patternpart, by=by, why=why, **fields)


@transaction.atomic
def make_basket(*, holding, by, name, made_on, pattern=None, note=""):
    return write(Basket(holding=holding, name=tidy(name), pattern=pattern, made_on=made_on, note=note), by=by)


@transaction.atomic
def correct_basket(*, holding, by, basket, name, made_on, pattern=None, note="", why=""):
    first = StayedTight.objects.of(holding).filter(basket=basket).order_by("on").first()
    if first and made_on > first.on:
        raise Refusal(
            _("It was looked at on %(day)s: it can't have been made after that.") % {"day": write_day(first.on)},
            field="made_on",
        )
    corrected = correct(record=basket, by=by, why=why, name=tidy(name), pattern=pattern, made_on=made_on, note=note)
    try:
        move_rods(corrected, by=by, why=why)
    except Refusal as refusal:
        raise Refusal(refusal.sentence, field="made_on") from refusal
    return corrected


def move_rods(basket, *, by, why):
    """Rods are worked on the day of their basket, and not before they were lifted."""
    for used in RodsUsed.objects.of(basket.holding).filter(basket=basket).select_related("batch", "taking"):
        if used.batch:
            check_lifted_by(used.batch, basket.made_on)
        elif used.taking.on != basket.made_on:
            correct(record=used.taking, by=by, why=why, on=basket.made_on, at=None)


@transaction.atomic
def use_rods(*, holding, by, basket, batch, much, part_of_basket=""):
    """Soaked rods go into a basket: never more than is out of the water and unused."""
    part_ppb = part_to_use(batch, on=basket.made_on, much=much)
    use(batch, part_ppb)
    used = RodsUsed(
        holding=holding,
        basket=basket,
        batch=batch,
        part_of_batch_ppb=part_ppb,
        part_of_basket=part_of_basket,
        **said(much),
    )
    return write(used, by=by)


@transaction.atomic
def use_batch(*, holding, by, batch, much, basket=None, new_basket="", made_on=None, part_of_basket=""):
    """Rods of a batch go into a basket of the book, or into one that is new to it."""
    if basket and new_basket.strip():
        raise Refusal(_("Choose a basket or write a new one, not both."), field="new_basket")
    if not basket and not new_basket.strip():
        raise Refusal(_("Choose the basket, or write its name below if it is new to the book."), field="basket")
    basket = basket or make_basket(holding=holding, by=by, name=new_basket, made_on=made_on)
    return use_rods(holding=holding, by=by, basket=basket, batch=batch, much=much, part_of_basket=part_of_basket)


def said(much):
    return {"said_how": much.how, "said_text": much.text}


@transaction.atomic
def use_unsoaked(*, holding, by, basket, bundle, much, part_of_basket="", promised_too=False):
    """Rods worked without soaking, straight out of a bundle."""
    taking = take_out(
        holding=holding,
        by=by,
        bundle=bundle,
        on=basket.made_on,
        purpose=Taking.Purpose.WORK,
        much=much,
        promised_too=promised_too,
    )
    used = RodsUsed(holding=holding, basket=basket, taking=taking, part_of_basket=part_of_basket, **said(much))
    return write(used, by=by)


@transaction.atomic
def correct_rodsused(*, holding, by, rodsused, much=None, part_of_basket="", why=""):
    """Correct what went in; without `much`, how much stays as it was."""
    changes = {"part_of_basket": part_of_basket}
    if much is not None and rodsused.batch:
        part_ppb = part_to_use(
            rodsused.batch, on=rodsused.basket.made_on, much=much, own_ppb=rodsused.part_of_batch_ppb
        )
        changes |= {"part_of_batch_ppb": part_ppb, **said(much)}
    elif much is not None:
        taking = rodsused.taking
        correct_taking(holding=holding, by=by, taking=taking, much=much, on=taking.on, note=taking.note, why=why)
        changes |= said(much)
    return correct(record=rodsused, by=by, why=why, **changes)


@transaction.atomic
def stayed_tight(*, holding, by, basket, on, result, note=""):
    check_made_by(basket, on)
    return write(StayedTight(holding=holding, basket=basket, on=on, result=result, note=note), by=by)


def check_made_by(basket, on):
    if on < basket.made_on:
        raise Refusal(_("That basket was not made until %(day)s.") % {"day": write_day(basket.made_on)}, field="on")


@transaction.atomic
def correct_stayedtight(*, holding, by, stayedtight, on, result, note="", why=""):
    check_made_by(stayedtight.basket, on)
    return correct(record=stayedtight, by=by, why=why, on=on, result=result, note=note)


@on_strike_out.register(RodsUsed)
def _there_again(record, *, by):
    if record.batch:
        use(record.batch, -record.part_of_batch_ppb)


@on_put_back.register(RodsUsed)
def _used_after_all(record, *, by):
    if record.batch:
        use(record.batch, record.part_of_batch_ppb)


@on_correct.register(RodsUsed)
def _used_otherwise(record, *, before, by):
    if record.batch:
        use(record.batch, record.part_of_batch_ppb - before.part_of_batch_ppb)


@on_correct.register(Taking)
def _worked_that_day(record, *, before, by):
    used = RodsUsed.objects.of(record.holding).filter(taking=record).select_related("basket").first()
    if used and used.basket.made_on != record.on:
        words = {"basket": used.basket}
        raise Refusal(_("These rods went into %(basket)s: their day is corrected with the basket.") % words, field="on")


@on_strike_out.register(Lift)
def _not_lifted(record, *, by):
    check_woven_after_lifted(record.batch)


@on_correct.register(Lift)
def _lifted_at_another_time(record, *, before, by):
    check_woven_after_lifted(record.batch)


def check_woven_after_lifted(batch):
    for used in RodsUsed.objects.of(batch.holding).filter(batch=batch).select_related("basket"):
        check_lifted_by(batch, used.basket.made_on, field="moment")
