"""What every page does that keeps a record."""

import hashlib
import uuid
from collections.abc import Callable
from dataclasses import dataclass

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.db import IntegrityError
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal

from . import actions


def keep(
    request,
    *,
    form,
    template,
    act,
    then,
    fixed=None,
    kept=None,
    undo=True,
    context=None,
    initial=None,
    form_kwargs=None,
):
    """Show a form; once it is sent and whole, do `act` with what was said, once and only once.

    act    -- called as act(holding=…, by=…, **fixed, **form.said()); returns the record
    then   -- address to go to: a string, or a function of the record
    kept   -- function of the record giving the sentence for “Kept. …”
    undo   -- whether “Take it back” is offered beside it
    """
    fixed = fixed or {}
    bound = form(
        request.POST if request.method == "POST" else None,
        request.FILES if request.method == "POST" else None,
        holding=request.holding,
        today=request.today,
        now=request.now,
        initial=initial,
        **(form_kwargs or {}),
    )
    if request.method == "POST" and bound.is_valid():
        record = attempt(request, bound, act, fixed)
        if record is not None:
            say_kept(request, record, kept, undo=undo)
            return redirect(then(record) if callable(then) else then)
    status = 422 if bound.is_bound else 200
    return render(request, template, {"form": bound, **(context or {})}, status=status)


def attempt(request, form, act, fixed):
    """The record that was kept, or None with the refusal beside its field."""
    try:
        return actions.once(
            holding=request.holding,
            by=request.user,
            client_id=form.cleaned_data["client_id"],
            action=f"{act.__module__}.{act.__qualname__}",
            said=as_sent(request, fixed),
            do=lambda: act(holding=request.holding, by=request.user, **fixed, **form.said()),
        )
    except actions.AlreadyKept as refusal:
        form.data = form.data.copy()
        form.data["client_id"] = str(uuid.uuid4())
        form.add_error(None, refusal.sentence)
    except Refusal as refusal:
        form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
    except IntegrityError:
        form.add_error(
            None, _("Somebody else wrote in the book at the same moment. Look again, then press the button.")
        )
    return None


def as_sent(request, fixed):
    sent = {name: request.POST.getlist(name) for name in request.POST}
    for name in ("csrfmiddlewaretoken", "client_id", "sure"):
        sent.pop(name, None)
    sent |= {name: fingerprint(request.FILES[name]) for name in request.FILES}
    return {"at": request.path, "sent": sent, "fixed": {name: str(getattr(v, "uid", v)) for name, v in fixed.items()}}


def fingerprint(file):
    """Stands for what is in a file: another file on the same form is not the same form again."""
    file.seek(0)
    digest = hashlib.file_digest(file, "sha256").hexdigest()
    file.seek(0)
    return digest


def check_may_write(request):
    """Asked by the middleware before any page that is sent something."""
    if not request.hand.may_write:
        raise PermissionDenied(_("You may look into this book but not write in it."))


def say_kept(request, record, kept=None, *, undo=True):
    """“Kept. … Take it back”, shown on the next page."""
    records = record if isinstance(record, list) else [record]
    text = kept(record) if kept else ", ".join(str(each) for each in records)
    tags = f"{records[0].kind}:{','.join(str(each.uid) for each in records)}" if undo else ""
    messages.success(request, text, extra_tags=tags)


@dataclass(frozen=True)
class Correction:
    """How one kind of record is put right.

    act  -- called with the record under its kind: correct_lift(lift=…)
    now  -- what stands in the form to begin with, of the record; the form's own `of` if not given
    lent -- what else the form is made with, of the record
    """

    model: type
    form: type
    act: Callable
    now: Callable | None = None
    lent: Callable | None = None


def corrections(*found):
    """By the kind of record, as it stands in addresses."""
    return {each.model._meta.model_name: each for each in found}


def correct_with(corrections, *, then):
    """The view of all the pages on which a stage's records are corrected.

    then -- of the request and the corrected record, the address where it is seen
    """

    def correct(request, uid, kind):
        how = corrections[kind]
        record = get_object_or_404(how.model.objects.of(request.holding), uid=uid)
        return keep(
            request,
            form=how.form,
            template="_parts/form_page.html",
            act=how.act,
            fixed={kind: record},
            initial=(how.now or how.form.of)(record),
            form_kwargs=how.lent and how.lent(record),
            then=lambda corrected: then(request, corrected),
            # Taking it back would strike out the record itself.
            undo=False,
            context={
                "title": _("Correct: %(what)s") % {"what": record.named},
                "record": record,
                "save": _("Put it right"),
            },
        )

    return correct
