"""Striking out and putting back: nothing is deleted."""

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from growers.furniture.refusals import Refusal

from .. import queries
from .hooks import before_strike_out, on_put_back, on_strike_out
from .writing import save_signed, write


@transaction.atomic
def strike_out(*, record, by, reason, at, with_what_stands_on_it=False, along_with=None):
    """Strike out a wrong record, unless something living stands on it (then that too, if asked)."""
    if not reason.strip():
        raise Refusal(_("Say in a word or two why it is struck out."), field="reason")
    if struck_out_meanwhile(record):
        return record
    said = {"by": by, "reason": reason, "at": at, "with_what_stands_on_it": with_what_stands_on_it}
    whole = whole_of(record)
    if whole and whole != along_with:
        if not with_what_stands_on_it or (along_with is None and not record.by_itself):
            raise part_of_a_whole(record, whole)
        strike_out(record=whole, **said)
        record.refresh_from_db()
        return record
    before_strike_out(record, by=by)
    clear_what_stands_on(record, **said)
    # What stood on it may have brought it down already.
    if struck_out_meanwhile(record):
        return record
    record.struck_out_at, record.struck_out_by, record.struck_out_reason = at, by, reason.strip()[:300]
    save_signed(record, by=by, why=reason)
    on_strike_out(record, by=by)
    for name in record.brings:
        brought = getattr(record, name)
        if brought is not None:
            strike_out(record=brought, **said)
    return record


def clear_what_stands_on(record, *, with_what_stands_on_it, **said):
    in_the_way = []
    # The latest first, as one would undo it by hand.
    for relation, other in reversed(queries.standing_on(record)):
        if with_what_stands_on_it or relation in other.goes_with:
            strike_out(record=other, along_with=record, with_what_stands_on_it=with_what_stands_on_it, **said)
        else:
            in_the_way.append(other)
    if in_the_way:
        raise StillStands(record, in_the_way)


def whole_of(record):
    """What this is a part of, if that has parts which must make the whole."""
    return next((whole for name in record.part_of if (whole := getattr(record, name)) is not None), None)


def part_of_a_whole(record, whole):
    words = {"record": record, "whole": whole}
    return Refusal(_("“%(record)s” is part of “%(whole)s”: strike out or put back that, and this with it.") % words)


def struck_out_meanwhile(record):
    record.refresh_from_db()
    return record.struck_out_at is not None


class StillStands(Refusal):
    """Striking out refused, naming what stands on the record."""

    def __init__(self, record, in_the_way):
        self.in_the_way = in_the_way
        shown = list(dict.fromkeys(other.stands_as for other in in_the_way))
        named = "; ".join(str(other) for other in shown[:5])
        if len(shown) > 5:
            named = _("%(named)s and %(more)d more") % {"named": named, "more": len(shown) - 5}
        super().__init__(
            ngettext(
                "“%(record)s” can't be struck out while this stands on it: %(named)s.",
                "“%(record)s” can't be struck out while these stand on it: %(named)s.",
                len(shown),
            )
            % {"record": record, "named": named}
        )


@transaction.atomic
def put_back(*, record, by, along_with=None):
    """Put a struck-out record back, with all that went with it, if it still holds."""
    record.refresh_from_db()
    if record.struck_out_at is None:
        return record
    whole = whole_of(record)
    if whole and whole != along_with:
        raise part_of_a_whole(record, whole)
    struck_out_at = record.struck_out_at
    went_with = queries.standing_on(record, struck_out_at=struck_out_at)
    for relation, other in went_with:
        # What another entry brought along comes back with it, and not without.
        if relation in other.brings and other != along_with:
            put_back(record=other, by=by)
            record.refresh_from_db()
            return record
    for name in record.brings:
        if getattr(record, name) is not None:
            put_back(record=getattr(record, name), by=by, along_with=record)
    # What it brought may have put it back already.
    record.refresh_from_db()
    record.struck_out_at, record.struck_out_by, record.struck_out_reason = None, None, ""
    write(record, by=by, why=_("put back"))
    on_put_back(record, by=by)
    for relation, other in went_with:
        if relation in other.goes_with:
            put_back(record=other, by=by, along_with=record)
    return record
