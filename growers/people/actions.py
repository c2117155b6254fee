import copy
import hashlib
import json

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from growers.furniture.refusals import Refusal

from . import queries
from .models import Holding, Membership, Receipt, User
from .rules import tidy

RESERVED_SLUGS = {"sign-in", "sign-out", "t", "sheet", "static", "understand", "admin", "books", "style", "sw.js"}


@transaction.atomic
def open_book(*, name, username, password, slug="", zone="Europe/London", hemisphere="N", invented=False, **settings):
    """A new holding with its first person, who keeps the book."""
    slug = slug or slugify(name)[:40]
    if not slug or slug in RESERVED_SLUGS or Holding.objects.filter(slug=slug).exists():
        raise Refusal(_("“%(slug)s” can't be the book's address: choose another.") % {"slug": slug}, field="slug")
    settings.setdefault("winter_begins_month", 7 if hemisphere == "N" else 1)
    holding = Holding(slug=slug, name=tidy(name), zone=zone, hemisphere=hemisphere, invented=invented, **settings)
    check_whole(holding)
    holding.save()
    user = User.objects.filter(username=username).first()
    if user is None:
        user = User.objects.create_user(username=username, password=password)
    join(holding=holding, user=user, role=Membership.Role.KEEPER)
    return holding


def join(*, holding, user, role):
    membership, _made = Membership.objects.update_or_create(holding=holding, user=user, defaults={"role": role})
    return membership


@transaction.atomic
def change_settings(*, holding, by, **settings):
    """The holding's own settings; what was reckoned under the old ones is stale."""
    for name, value in settings.items():
        setattr(holding, name, value)
    check_whole(holding)
    holding.save(update_fields=list(settings))
    new_evidence(holding)
    return holding


def new_evidence(holding):
    """Everything reckoned for this holding is to be judged anew."""
    Holding.objects.filter(pk=holding.pk).update(evidence_no=F("evidence_no") + 1)


def once(*, holding, by, client_id, action, said, do):
    """Do it once for this form: sent again, it gives the first result again.

    What is done returns a record, or a list of records of one kind.
    """
    digest = hashlib.sha256(json.dumps([action, said], sort_keys=True, default=str).encode()).hexdigest()
    receipt = Receipt(holding=holding, client_id=client_id, action=action, digest=digest, made_by=by)
    with transaction.atomic():
        try:
            # A second sender waits here until the first has finished.
            with transaction.atomic():
                receipt.save()
        except IntegrityError:
            return first_result(holding=holding, client_id=client_id, digest=digest)
        result = do()
        records = result if isinstance(result, list) else [result]
        receipt.result = {
            "kind": records[0].kind,
            "uids": [str(record.uid) for record in records],
            "several": isinstance(result, list),
        }
        receipt.save(update_fields=["result"])
        return result


def first_result(*, holding, client_id, digest):
    receipt = Receipt.objects.get(holding=holding, client_id=client_id)
    if receipt.digest != digest:
        raise AlreadyKept(
            _("This page was kept already, with something else on it. Press the button again to keep this too.")
        )
    kind, uids = receipt.result["kind"], receipt.result["uids"]
    records = [queries.record(holding, kind, uid, struck_out=True) for uid in uids]
    return records if receipt.result["several"] else records[0]


class AlreadyKept(Refusal):
    """The same form, sent again with other words on it."""


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


class Hook:
    """What stages do when something befalls a kind of record; several may have their say about one kind."""

    def __init__(self):
        self.acts = []

    def register(self, model):
        def keep(act):
            self.acts.append((model, act))
            return act

        return keep

    def __call__(self, record, **said):
        for model, act in self.acts:
            if isinstance(record, model):
                act(record, **said)


before_strike_out = Hook()  # act(record, *, by)
on_strike_out = Hook()  # act(record, *, by)
on_put_back = Hook()  # act(record, *, by)
on_correct = Hook()  # act(record, *, before, by)


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
        if not with_what_stands_on_it:
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
            strike_out(record=brought, by=by, reason=reason, at=at)
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
        named = "; ".join(str(other) for other in in_the_way[:5])
        if len(in_the_way) > 5:
            named = _("%(named)s and %(more)d more") % {"named": named, "more": len(in_the_way) - 5}
        super().__init__(
            ngettext(
                "“%(record)s” can't be struck out while this stands on it: %(named)s.",
                "“%(record)s” can't be struck out while these stand on it: %(named)s.",
                len(in_the_way),
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
