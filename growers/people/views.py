from django.contrib import messages
from django.contrib.auth import views as auth
from django.contrib.auth.decorators import login_required
from django.core.exceptions import PermissionDenied, ValidationError
from django.db import transaction
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from growers.furniture.echo import understood
from growers.furniture.refusals import Refusal

from . import actions, queries
from .forms import LetInForm, PutBackForm, ReasonForm, RoleForm, SettingsForm, SignInForm
from .models import Membership
from .pages import keep

sign_in = auth.LoginView.as_view(
    template_name="people/sign_in.html", authentication_form=SignInForm, redirect_authenticated_user=True
)
sign_out = auth.LogoutView.as_view(next_page="people:sign_in")


@login_required
def books(request):
    """The person's books; straight into the only one."""
    found = list(queries.books_of(request.user))
    if len(found) == 1:
        return redirect("today:today", found[0].slug)
    return render(request, "people/books.html", {"books": found})


@require_GET
def understand(request):
    """What a typed text would be understood as: the line under a field."""
    kind, text = request.GET.get("kind", ""), request.GET.get("text", "")
    echo = understood(kind, text, request.holding, request.today, request.now)
    return HttpResponse(echo, content_type="text/plain; charset=utf-8")


def record(request, kind, uid):
    """Any entry of the book: its history, what stands on it, striking out and putting back."""
    entry = found_or_404(request, kind, uid)
    return render(
        request,
        "people/record.html",
        {
            "entry": entry,
            "changes": queries.changes_of(entry),
            "stands_on": [other for _relation, other in queries.stands_on(entry)],
            "standing": queries.standing_in_short(entry),
            "correct_page": queries.correct_page(request, entry),
        },
    )


def strike_out(request, kind, uid):
    entry = found_or_404(request, kind, uid)
    standing = queries.standing_in_short(entry, in_the_way=True)
    page = request.here("people:record", kind, uid)
    return keep(
        request,
        form=ReasonForm,
        template="people/strike_out.html",
        act=struck_out_at(request.now),
        fixed={"record": entry},
        then=page,
        kept=lambda struck: _("%(what)s is struck out.") % {"what": struck},
        undo=False,
        context={"entry": entry, "standing": standing, "page": page},
    )


def struck_out_at(now):
    """Striking out, at the moment of the page."""

    def strike_out(*, holding, by, record, **said):
        return actions.strike_out(record=record, by=by, at=now, **said)

    return strike_out


def put_back(request, kind, uid):
    entry = found_or_404(request, kind, uid)
    page = request.here("people:record", kind, uid)
    return keep(
        request,
        form=PutBackForm,
        template="people/put_back.html",
        act=put_back_again,
        fixed={"record": entry},
        then=page,
        kept=lambda back: _("%(what)s is back.") % {"what": back},
        undo=False,
        context={"entry": entry, "page": page},
    )


def put_back_again(*, holding, by, record):
    return actions.put_back(record=record, by=by)


@require_POST
def take_back(request, kind, uids):
    """“Kept. Take it back”: what was kept a moment ago is struck out whole."""
    entries = [found_or_404(request, kind, uid) for uid in uids.split(",")]
    try:
        with transaction.atomic():
            for entry in entries:
                actions.strike_out(record=entry, by=request.user, reason=_("taken back at once"), at=request.now)
        messages.info(request, _("Taken back."))
    except Refusal as refusal:
        messages.error(request, refusal.sentence)
    return redirect(safe_back(request, entries) or request.here("today:today"))


def safe_back(request, entries):
    """The page the button stood on, if it is in this book; the page of what was taken back is there no more."""
    back = request.headers.get("referer", "")
    ok = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()}, require_https=request.is_secure())
    if not ok or f"/{request.holding.slug}/" not in back:
        return None
    gone = next((entry for entry in entries if entry.struck_out_at and str(entry.uid) in back), None)
    return request.here("people:record", gone.kind, gone.uid) if gone else back


def settings(request):
    check_keeps(request)
    return answer(
        request,
        SettingsForm,
        "people/settings.html",
        actions.change_settings,
        then="people:settings",
        kept=_("Kept: the settings of %(name)s.") % {"name": request.holding},
        initial=settings_now(request.holding),
    )


def check_keeps(request):
    if request.hand.role != Membership.Role.KEEPER:
        raise PermissionDenied(_("Only who keeps the book can change this."))


def answer(request, form, template, act, *, then, kept, initial=None, **fixed):
    """A form about the book itself, which is no entry in it: sent twice it says the same."""
    clock = {"today": request.today, "now": request.now}
    form = form(request.POST or None, holding=request.holding, initial=initial, **clock)
    if form.is_bound and form.is_valid():
        try:
            act(holding=request.holding, by=request.user, **fixed, **form.said())
        except Refusal as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            messages.success(request, kept)
            return redirect(request.here(then))
    return render(request, template, {"form": form, **fixed}, status=422 if form.errors else 200)


def hands(request):
    """Who is in this book, and what each may do."""
    check_keeps(request)
    return render(request, "people/hands.html", {"hands": queries.hands_of(request.holding)})


def let_in(request):
    check_keeps(request)
    kept = _("Kept: one more in the book.")
    return answer(request, LetInForm, "people/let_in.html", actions.let_in, then="people:hands", kept=kept)


def role(request, pk):
    check_keeps(request)
    membership = queries.hand_of(request.holding, pk)
    if membership is None:
        raise Http404
    return answer(
        request,
        RoleForm,
        "people/role.html",
        actions.change_role,
        then="people:hands",
        kept=_("Kept: what %(name)s may do.") % {"name": membership.user},
        initial={"role": membership.role},
        membership=membership,
    )


def struck_out(request):
    return render(request, "people/struck_out.html", {"entries": queries.struck_out_lately(request.holding)})


def settings_now(holding):
    now = {name: getattr(holding, name) for name in SettingsForm.base_fields if hasattr(holding, name)}
    return now | {"shrink_limit": f"{holding.shrink_limit * 100:g}"}


def found_or_404(request, kind, uid):
    try:
        entry = queries.record(request.holding, kind, uid, struck_out=True)
    except ValidationError:  # no uid at all
        entry = None
    if entry is None:
        raise Http404
    return entry
