from django.db import transaction
from django.utils.translation import gettext as _

from growers.beds.actions import check_stood
from growers.beds.models import Planting
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, on_correct, on_put_back, on_strike_out, strike_out, write
from growers.people.queries import standing_on
from growers.people.rules import name_key, tidy, weighed, winter_of

from . import rules
from .models import Cut, CuttingDay, GreenOut, LengthClass
from .queries import cuts_of_winter, growth_of


def labelled(label):
    return {"label": tidy(label), "name_key": name_key(label)}


@transaction.atomic
def add_length(*, holding, by, label, min_m, max_m=None):
    return write(LengthClass(holding=holding, min_m=min_m, max_m=max_m, **labelled(label)), by=by)


@transaction.atomic
def usual_lengths(*, holding, by, system="ft"):
    """Make the usual list of lengths, leaving alone those that are there by their label."""
    known = set(LengthClass.objects.of(holding).values_list("name_key", flat=True))
    wanted = [usual for usual in rules.usual_lengths(system) if name_key(usual[0]) not in known]
    if not wanted:
        raise Refusal(_("Your book has all of these lengths already."))
    return [add_length(holding=holding, by=by, label=label, min_m=min_m, max_m=max_m) for label, min_m, max_m in wanted]


@transaction.atomic
def correct_length(*, holding, by, lengthclass, label, min_m, max_m=None, why=""):
    return correct(record=lengthclass, by=by, why=why, min_m=min_m, max_m=max_m, **labelled(label))


@transaction.atomic
def cut(
    *, holding, by, planting, on, age_years=None, bundles=None, armfuls=None, mass=None, fault="", note=""
):  # fmt: skip
    """What came off a planting on a day goes to this winter's cut of it, or begins one."""
    check_stood(planting, on)
    age_years = age_years or growth_of(planting, on)
    this = cut_of_winter(planting, on, age_years)
    this = this or write(Cut(holding=holding, planting=planting, first_on=on, age_years=age_years), by=by)
    day = CuttingDay(
        holding=holding, cut=this, on=on, bundles=bundles, armfuls=armfuls, fault=fault, note=note, **weighed(mass)
    )
    write(day, by=by)
    settle_first_day(this, by=by)
    return day


@transaction.atomic
def cut_one(*, holding, by, planting, on, came_off, fault="", age_years=None):
    """One more bundle or armful, at a tap."""
    return cut(holding=holding, by=by, planting=planting, on=on, fault=fault, age_years=age_years, **{came_off: 1})


def cut_of_winter(planting, on, age_years):
    winter = winter_of(on, planting.holding.winter_begins_month)
    return cuts_of_winter(planting.holding, winter).filter(planting=planting, age_years=age_years).first()


def settle_first_day(this, *, by):
    """A cut begins on its earliest day."""
    first = CuttingDay.objects.of(this.holding).filter(cut=this).order_by("on").values_list("on", flat=True).first()
    this.refresh_from_db()
    if first and first != this.first_on and not this.struck_out_at:
        correct(record=this, by=by, why=_("its days say so"), first_on=first)


@transaction.atomic
def correct_cutting_day(*, holding, by, cuttingday, on, mass=None, why="", **changes):
    """Correct what came off; a day that proves to be of another winter goes to that winter's cut."""
    this = cuttingday.cut
    check_stood(this.planting, on)
    changes |= {"on": on, **weighed(mass)}
    if not same_winter(this, on):
        changes["cut"] = another_winters_cut(cuttingday, on, by=by)
    return correct(record=cuttingday, by=by, why=why, **changes)


def same_winter(this, on):
    begins = this.holding.winter_begins_month
    return winter_of(this.first_on, begins) == winter_of(on, begins)


def another_winters_cut(day, on, *, by):
    """The cut that a day goes to with its new date: that winter's, its own if it stands alone, or a new one."""
    this = day.cut
    found = cut_of_winter(this.planting, on, this.age_years)
    if found:
        return found
    if not CuttingDay.objects.of(day.holding).filter(cut=this).exclude(pk=day.pk).exists():
        return this
    return write(Cut(holding=day.holding, planting=this.planting, first_on=on, age_years=this.age_years), by=by)


@transaction.atomic
def correct_cut(*, holding, by, cut, planting, age_years, note="", why=""):
    """The cut was of another planting, or of rods of another age."""
    for day in CuttingDay.objects.of(holding).filter(cut=cut):
        try:
            check_stood(planting, day.on)
        except Refusal as refusal:
            raise Refusal(refusal.sentence, field="planting") from refusal
    standing = cut_of_winter(planting, cut.first_on, age_years) if not cut.struck_out_at else None
    if standing and standing.pk != cut.pk:
        raise Refusal(
            _("Rods of that age and planting were cut that winter by the book: correct the days there."),
            field="planting",
        )
    return correct(record=cut, by=by, why=why, planting=planting, age_years=age_years, note=note)


@transaction.atomic
def green_out(*, holding, by, cut, on, what, where, whom="", pieces=None, mass=None, note=""):
    """Green rods or sets leave the cut unbundled."""
    check_green(cut, on, pieces, mass)
    gone = GreenOut(
        holding=holding,
        cut=cut,
        on=on,
        what=what,
        where=where,
        whom=tidy(whom),
        pieces=pieces,
        note=note,
        **weighed(mass),
    )
    return write(gone, by=by)


@transaction.atomic
def correct_green_out(*, holding, by, greenout, on, pieces=None, mass=None, why="", **changes):
    check_green(greenout.cut, on, pieces, mass)
    return correct(record=greenout, by=by, why=why, on=on, pieces=pieces, **changes, **weighed(mass))


def check_green(this, on, pieces, mass):
    if on < this.first_on:
        day = write_day(this.first_on)
        raise Refusal(_("These rods were not cut until %(day)s.") % {"day": day}, field="on")
    if pieces is None and mass is None:
        raise Refusal(_("Say how much went: a number of pieces or a weight."), field="pieces")


@on_strike_out.register(CuttingDay)
def _day_struck_out(record, *, by):
    let_go(record.cut, by=by, reason=record.struck_out_reason, at=record.struck_out_at)
    settle_first_day(record.cut, by=by)


def let_go(this, *, by, reason, at):
    """A cut without a day, on which nothing else stands, was never made."""
    this.refresh_from_db()
    if not this.struck_out_at and not standing_on(this):
        strike_out(record=this, by=by, reason=reason, at=at)


@on_put_back.register(CuttingDay)
def _day_put_back(record, *, by):
    settle_first_day(record.cut, by=by)


@on_correct.register(CuttingDay)
def _day_corrected(record, *, before, by):
    settle_first_day(record.cut, by=by)
    if before.cut_id != record.cut_id and not standing_on(before.cut):
        # It has no day left to be struck out with; the correction says what became of it.
        this = before.cut
        strike_out(record=this, by=by, reason=_("its only day was of another winter"), at=record_time(record))
    elif before.cut_id != record.cut_id:
        settle_first_day(before.cut, by=by)


def record_time(record):
    """When a record was last written, by its history."""
    return record.history.latest().history_date


@on_correct.register(Planting)
def _planting_stood(record, *, before, by):
    """A planting was planted before its first cutting day, and not grubbed out before its last."""
    days = CuttingDay.objects.of(record.holding).filter(cut__planting=record).order_by("on")
    first, last = days.first(), days.last()
    if last and record.grubbed_on and record.grubbed_on < last.on:
        day = write_day(last.on)
        raise Refusal(_("Rods were cut there on %(day)s: it still stood then.") % {"day": day}, field="grubbed_on")
    if (first and (record.planted_on or first.on) > first.on) or (first and record.planted_year > first.on.year):
        day = write_day(first.on)
        raise Refusal(_("Rods were cut there on %(day)s: it was planted before.") % {"day": day}, field="planted_year")
