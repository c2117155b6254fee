from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.beds.models import Planting
from growers.beds.queries import health_notes
from growers.people.pages import Correction, correct_with, corrections, keep

from . import actions, forms, queries
from .models import Cut, CuttingDay, GreenOut, LengthClass


def find(request, model, uid):
    return get_object_or_404(model.objects.of(request.holding), uid=uid)


def winter(request):
    """The board of one winter: this one, unless the address names another."""
    every = queries.winters(request.holding, request.today)
    asked = request.GET.get("winter", "")
    shown = asked if asked in every else queries.this_winter(request.holding, request.today)
    board = queries.winter_board(request.holding, shown)
    current = shown == queries.this_winter(request.holding, request.today)
    return render(
        request, "harvest/winter.html", {"board": board, "winter": shown, "winters": every, "current": current}
    )


def planting(request, uid):
    found = find(request, Planting, uid)
    return render(request, "harvest/planting.html", {"planting": found, "cuts": queries.cuts_of_planting(found)})


def at_the_bed(request, found):
    """What the page at the bed shows beside its form."""
    this = queries.winter_board(request.holding, queries.this_winter(request.holding, request.today))
    cuts = next((row.cuts for row in this if row.planting == found), [])
    return {
        "planting": found,
        "cuts": cuts,
        "today_so_far": queries.so_far(cuts, request.today),
        "notes": health_notes(found)[:3],
        "growth": queries.growth_of(found, request.today),
    }


def lent(request, **kwargs):
    return {"holding": request.holding, "today": request.today, "now": request.now, **kwargs}


def cut_today(request, uid):
    """At the bed: one more bundle at a tap."""
    found = find(request, Planting, uid)
    return keep(
        request,
        form=forms.CutOneForm,
        template="harvest/cut_today.html",
        act=actions.cut_one,
        fixed={"planting": found, "on": request.today},
        then=request.here("harvest:cut_today", found.uid),
        context=at_the_bed(request, found),
    )


def cut(request, uid):
    """A cutting day written down whole: any day, by bundles, armfuls or weight."""
    found = find(request, Planting, uid)
    return keep(
        request,
        form=forms.CutForm,
        template="_parts/form_page.html",
        act=actions.cut,
        fixed={"planting": found},
        initial={"age_years": min(queries.growth_of(found, request.today), 3)},
        form_kwargs={"planting": found},
        then=lambda day: request.here("harvest:cut", day.cut.uid),
        context={"title": _("Cut"), "about": found},
    )


def cut_page(request, uid):
    found = find(request, Cut, uid)
    context = {
        "cut": found,
        "came_off": queries.came_off(Cut.objects.of(request.holding).filter(pk=found.pk))[0],
        "green_outs": queries.green_outs_of(found),
    }
    return render(request, "harvest/cut.html", context)


def green_out(request, uid):
    found = find(request, Cut, uid)
    return keep(
        request,
        form=forms.GreenOutForm,
        template="_parts/form_page.html",
        act=actions.green_out,
        fixed={"cut": found},
        then=request.here("harvest:cut", found.uid),
        context={"title": _("Green rods or sets gone"), "about": queries.words_of(found)},
    )


def lengths(request):
    context = {
        "lengths": queries.lengths(request.holding),
        "usual": forms.UsualLengthsForm(**lent(request, auto_id="usual_%s")),
    }
    return keep(
        request,
        form=forms.LengthForm,
        template="harvest/lengths.html",
        act=actions.add_length,
        then=request.here("harvest:lengths"),
        context=context,
    )


def usual_lengths(request):
    return keep(
        request,
        form=forms.UsualLengthsForm,
        template="_parts/form_page.html",
        act=actions.usual_lengths,
        then=request.here("harvest:lengths"),
        context={"title": _("The usual lengths")},
    )


def shown_on(request, record):
    """The page on which a record is seen."""
    if record.kind == "lengthclass":
        return request.here("harvest:lengths")
    # A day may have gone to another winter's cut.
    return request.here("harvest:cut", (record if record.kind == "cut" else record.cut).uid)


CORRECTIONS = corrections(
    Correction(LengthClass, forms.CorrectLengthForm, actions.correct_length),
    Correction(Cut, forms.CorrectCutForm, actions.correct_cut),
    Correction(CuttingDay, forms.CorrectCuttingDayForm, actions.correct_cutting_day),
    Correction(GreenOut, forms.CorrectGreenOutForm, actions.correct_green_out),
)
correct = correct_with(CORRECTIONS, then=shown_on)
