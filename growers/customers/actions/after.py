"""After a sale: complaints and their answers, and rods that come back."""

from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import NewBundle, came_back, check_tied, lock
from growers.bundles.models import Bundle
from growers.bundles.rules import WHOLE, parts
from growers.drying.queries import assess
from growers.furniture import much as ways
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, on_correct, on_put_back, write

from ..models import Complaint, Returned
from ..queries import part_out

SLACK = 0.02
"""So much more than was sold is all of it: scales and damp differ by as much."""


@transaction.atomic
def complain(*, holding, by, on, what, line=None, bundle=None, customer=None, water=None, hours=None, note=""):
    """Write down what somebody found wrong, of rods they were sold or of a bundle."""
    check_about(line, bundle, on)
    complaint = Complaint(
        holding=holding,
        line=line,
        bundle=bundle,
        customer=customer,
        on=on,
        what=what,
        note=note,
        **told_of(water, hours),
    )
    return write(complaint, by=by)


def check_about(line, bundle, on):
    if line is not None and on < line.sale.on:
        raise Refusal(_("It was not sold until %(day)s.") % {"day": write_day(line.sale.on)}, field="on")
    if bundle is not None:
        check_tied(bundle, on)


def told_of(water, hours):
    return {
        "water_c": water and water.value,
        "water_low_c": water and (water.value if water.low is None else water.low),
        "water_high_c": water and (water.value if water.high is None else water.high),
        "water_unit": water.unit if water else "",
        "water_text": water.text if water else "",
        "soaked_hours": hours and hours.value,
        "soaked_text": hours.text if hours else "",
    }


@transaction.atomic
def answer_complaint(*, holding, by, complaint, on, answer):
    if on < complaint.on:
        day = write_day(complaint.on)
        raise Refusal(_("They did not complain until %(day)s.") % {"day": day}, field="on")
    return correct(record=complaint, by=by, why=_("answered"), answered_on=on, answer=answer)


@transaction.atomic
def correct_complaint(
    *, holding, by, complaint, on, what, customer=None, water=None, hours=None, note="", answered_on=None, answer="",
    why=""
):  # fmt: skip
    check_about(complaint.line, complaint.bundle, on)
    said = {"on": on, "what": what, "note": note, "answered_on": answered_on, "answer": answer}
    return correct(record=complaint, by=by, why=why, customer=customer, **said, **told_of(water, hours))


@transaction.atomic
def bring_back(*, holding, by, line, on, much, soaked=False, place=None, note=""):
    """Sold rods came back: a bundle of their own, of what they were sold out of."""
    parent = lock(holding=holding, bundles=[line.taking.bundle])[line.taking.bundle_id]
    check_about(line, None, on)
    part_ppb = part_said(line.taking, much, part_out(line))
    new = NewBundle(
        part_ppb=WHOLE,
        length_class=parent.length_class,
        thickness=parent.thickness,
        butt_mm=parent.butt_mm,
        mass=much if much.how == ways.MASS else None,
        rods=int(much.value) if much.how == ways.RODS else None,
        note=note,
    )
    known = assess(parent, on)
    bundle = came_back(
        holding=holding,
        by=by,
        parent=parent,
        new=new,
        on=on,
        place=place,
        soaked_before=soaked,
        # Where it lay meanwhile is not known: only that it had dried out stays so.
        dried_out_before_on=known.dried_out_on,
        started_moisture=None if soaked else known.moisture,
    )
    said = {"said_how": much.how, "said_text": much.text, "note": note}
    return write(Returned(holding=holding, line=line, bundle=bundle, on=on, part_ppb=part_ppb, **said), by=by)


def part_said(taking, much, out_ppb):
    """What was said, in parts of what was sold; a part, or the rest, is of what is still out."""
    if not out_ppb:
        raise Refusal(_("All of it has come back already."), field="much")
    if much.how == ways.REST:
        return out_ppb
    if much.how == ways.PART:
        return max(parts(much.value, out_ppb), 1)
    sold = taking.rods if much.how == ways.RODS else taking.mass_kg
    if not sold:
        raise Refusal(_("How much was sold is not in the book that way: say a part, or the rest."), field="much")
    part_ppb = max(round(WHOLE * much.value / sold), 1)
    if part_ppb > out_ppb * (1 + SLACK):
        raise Refusal(_("That is more than was sold and is still out. Say the rest."), field="much")
    return min(part_ppb, out_ppb)


@transaction.atomic
def correct_returned(*, holding, by, returned, on, part=None, note="", why=""):
    """`part` is of what was sold; the bundle itself is corrected on its own page."""
    check_about(returned.line, None, on)
    lock(holding=holding, bundles=[returned.line.taking.bundle])
    if on != returned.bundle.tied_on:
        correct(record=returned.bundle, by=by, why=why, tied_on=on)
    said = {} if part is None else {"part_ppb": max(parts(part.value), 1), "said_how": "part", "said_text": part.text}
    return correct(record=returned, by=by, why=why, on=on, note=note, **said)


@on_put_back.register(Returned)
def _no_more_than_was_sold(record, *, by):
    if part_out(record.line) < 0:
        raise Refusal(_("More would have come back than was sold."), field="part")


@on_correct.register(Returned)
def _still_no_more_than_was_sold(record, *, before, by):
    _no_more_than_was_sold(record, by=by)


@on_correct.register(Bundle)
def _tied_before_complained_of(record, *, before, by):
    first = Complaint.objects.of(record.holding).filter(bundle=record).order_by("on").first()
    if first and record.tied_on > first.on:
        day = write_day(first.on)
        raise Refusal(_("Somebody complained of it on %(day)s already.") % {"day": day}, field="tied_on")


@on_correct.register(Bundle)
def _came_back_otherwise(record, *, before, by):
    """The day it was tied is the day it came back."""
    if record.made != Bundle.Made.RETURNED or record.tied_on == before.tied_on:
        return
    for returned in Returned.objects.of(record.holding).filter(bundle=record).exclude(on=record.tied_on):
        if record.tied_on < returned.line.sale.on:
            day = write_day(returned.line.sale.on)
            raise Refusal(_("It was not sold until %(day)s.") % {"day": day}, field="tied_on")
        correct(record=returned, by=by, on=record.tied_on)
