from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.people.pages import keep

from .. import actions, forms, queries
from ..filters import BundleFilter
from ..models import Bundle, Place, Stack


def places(request):
    return render(request, "bundles/places.html", {"places": queries.places_now(request.holding)})


def place(request, uid):
    found = get_object_or_404(Place.objects.of(request.holding), uid=uid)
    standing = queries.listed(request.holding).with_some_left().filter(place_id=found.pk)
    return render(request, "bundles/place.html", {"place": found, "bundles": queries.with_ancestry(standing)})


def add_place(request):
    return keep(
        request,
        form=forms.PlaceForm,
        template="_parts/form_page.html",
        act=actions.add_place,
        then=request.here("bundles:places"),
        context={"title": _("A new place")},
    )


def choosing(request, *, form, act, title, save, then, without=None):
    """A page on which several bundles are chosen, from a list that can be narrowed; the address may choose some."""
    found = queries.listed(request.holding).with_some_left()
    narrowed = BundleFilter(request.GET, without(found) if without else found, holding=request.holding)
    return keep(
        request,
        form=form,
        template="bundles/choose.html",
        act=act,
        then=then,
        form_kwargs={"found": narrowed.qs, "chosen": request.GET.getlist("bundle"), "all_chosen": "all" in request.GET},
        kept=lambda kept: said_in_short(kept, title),
        context={"title": title, "save": save, "filter": narrowed},
    )


def said_in_short(kept, title):
    return str(kept) if not isinstance(kept, list) else f"{title}: {len(kept)}"


def move(request):
    return choosing(
        request,
        form=forms.MoveForm,
        act=actions.move,
        title=_("Move bundles"),
        save=_("They stand there now"),
        then=lambda moves: request.here("bundles:place", moves[0].place.uid),
    )


def stack_up(request):
    return choosing(
        request,
        form=forms.StackUpForm,
        act=actions.stack_up,
        title=_("Stack up sisters"),
        save=_("They dry together"),
        then=lambda made: request.here("bundles:stack", made.uid),
        without=lambda found: found.filter(stack=None),
    )


def stacks(request):
    return render(request, "bundles/stacks.html", {"stacks": queries.stacks_now(request.holding)})


def stack(request, uid):
    found = get_object_or_404(Stack.objects.of(request.holding), uid=uid)
    sisters = queries.with_ancestry(queries.listed(request.holding).filter(stack=found))
    return render(request, "bundles/stack.html", {"stack": found, "bundles": sisters})


def of_stack(request, uid, *, act, fixed=None, form, title, save, intro=""):
    """A page that does something to one bundle of a stack."""
    bundle = get_object_or_404(Bundle.objects.of(request.holding).filter(stack__isnull=False), uid=uid)
    label = queries.labels_of([bundle])[bundle.pk]
    return keep(
        request,
        form=form,
        template="_parts/form_page.html",
        act=act,
        fixed={"bundle": bundle, **(fixed(bundle) if fixed else {})},
        then=request.here("bundles:stack", bundle.stack.uid),
        undo=False,
        context={"title": title(bundle), "about": label, "save": save(bundle), "intro": intro},
    )


def telltale(request, uid):
    return of_stack(
        request,
        uid,
        form=forms.TelltaleForm,
        act=actions.call_telltale,
        fixed=lambda bundle: {"telltale": not bundle.telltale},
        title=lambda bundle: _("No tell-tale any more") if bundle.telltale else _("Make it a tell-tale"),
        save=lambda bundle: (
            _("It is not weighed for its sisters") if bundle.telltale else _("It is weighed for its sisters")
        ),
    )


def leave(request, uid):
    return of_stack(
        request,
        uid,
        form=forms.LeaveStackForm,
        act=actions.leave_stack,
        title=lambda bundle: _("Out of the stack"),
        save=lambda bundle: _("It left its stack"),
        intro=_("From now on what is found of its sisters says nothing about it."),
    )
