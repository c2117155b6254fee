"""Writing an entry, and correcting one: the only way into the book."""

import copy

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal

from .. import queries
from .hooks import on_correct


def write(record, *, by, why=""):
    """Write an entry into the book: whole, within one holding, and on nothing struck out."""
    if record._state.adding:
        record.made_by = by
    check_stands(record)
    check_whole(record)
    save_signed(record, by=by, why=why)
    return record


def save_signed(record, *, by, why=""):
    record._history_user = by
    if why:
        record._change_reason = str(why)[:100]
    if record._state.adding or not record.counters:
        record.save()
    else:
        # A counter may have moved since the record was read: it must not be set back.
        columns = {field.name for field in record._meta.concrete_fields if not field.primary_key}
        record.save(update_fields=columns - set(record.counters))


def check_whole(record):
    relations = {field.name for field in record._meta.fields if field.is_relation}
    try:
        record.clean_fields(exclude=relations)
        record.validate_constraints()
    except ValidationError as problem:
        raise as_refusal(problem) from problem


def as_refusal(problem):
    for field, sentences in getattr(problem, "message_dict", {}).items():
        return Refusal(sentences[0], field=None if field == "__all__" else field)
    return Refusal(problem.messages[0])


def check_stands(record):
    """Refuse another holding's entries, and anything struck out, under a living entry."""
    for relation, other in queries.stands_on(record):
        if other.holding_id != record.holding_id:
            raise Refusal(_("That is not in this book."), field=relation)
        if other.struck_out_at and not record.struck_out_at:
            raise Refusal(_("“%(other)s” has been struck out. Put it back first.") % {"other": other}, field=relation)


@transaction.atomic
def correct(*, record, by, why="", **changes):
    """Correct a record; the old values stay in its history, with who and when."""
    record.refresh_from_db()
    if record.struck_out_at:
        raise Refusal(_("“%(record)s” has been struck out. Put it back first.") % {"record": record})
    before = copy.copy(record)
    for name, value in changes.items():
        setattr(record, name, value)
    write(record, by=by, why=why)
    on_correct(record, before=before, by=by)
    return record
