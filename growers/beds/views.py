from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.people.pages import Correction, correct_with, corrections, keep

from . import actions, forms, queries
from .models import Bed, GapUp, HealthNote, Planting, Variety


def find(request, model, uid):
    return get_object_or_404(model.objects.of(request.holding), uid=uid)


def beds(request):
    return render(request, "beds/beds.html", {"beds": queries.beds_now(request.holding, request.today)})


def bed(request, uid):
    found = find(request, Bed, uid)
    return render(request, "beds/bed.html", {"now": queries.bed_now(found, request.today), "bed": found})


def planting(request, uid):
    found = find(request, Planting, uid)
    context = {
        "planting": found,
        "age": queries.age_years(found, request.today),
        "gap_ups": queries.gap_ups(found),
        "notes": queries.health_notes(found),
    }
    return render(request, "beds/planting.html", context)


def varieties(request):
    found = queries.varieties_now(request.holding, request.today)
    return render(request, "beds/varieties.html", {"varieties": found})


def variety(request, uid):
    found = find(request, Variety, uid)
    context = {"variety": found, "plantings": queries.plantings_of(found, request.today)}
    return render(request, "beds/variety.html", context)


def add_variety(request):
    return keep(
        request,
        form=forms.VarietyForm,
        template="_parts/form_page.html",
        act=actions.add_variety,
        then=lambda made: request.here("beds:variety", made.uid),
        context={"title": _("A new variety")},
    )


def add_bed(request):
    return keep(
        request,
        form=forms.BedForm,
        template="_parts/form_page.html",
        act=actions.add_bed,
        then=lambda made: request.here("beds:bed", made.uid),
        context={"title": _("A new bed")},
    )


def plant(request, uid):
    into = find(request, Bed, uid)
    return keep(
        request,
        form=forms.PlantForm,
        template="_parts/form_page.html",
        act=actions.plant,
        fixed={"bed": into},
        then=request.here("beds:bed", into.uid),
        context={"title": _("Planted in %(bed)s") % {"bed": into}},
    )


def of_planting(request, uid, form, act, title, *, undo=True):
    """A page that keeps something about one planting."""
    found = find(request, Planting, uid)
    return keep(
        request,
        form=form,
        template="_parts/form_page.html",
        act=act,
        fixed={"planting": found},
        then=request.here("beds:planting", found.uid),
        undo=undo,
        context={"title": title, "about": found},
    )


def grub_out(request, uid):
    return of_planting(request, uid, forms.GrubOutForm, actions.grub_out, _("Grubbed out"), undo=False)


def gap_up(request, uid):
    return of_planting(request, uid, forms.GapUpForm, actions.gap_up, _("Gapped up"))


def note_health(request, uid):
    return of_planting(request, uid, forms.HealthNoteForm, actions.note_health, _("Seen in the bed"))


def shown_on(request, record):
    """The page on which a record is seen."""
    shown = record if record.kind in ("variety", "bed", "planting") else record.planting
    return request.here(f"beds:{shown.kind}", shown.uid)


CORRECTIONS = corrections(
    Correction(Variety, forms.CorrectVarietyForm, actions.correct_variety),
    Correction(Bed, forms.CorrectBedForm, actions.correct_bed),
    Correction(Planting, forms.CorrectPlantingForm, actions.correct_planting),
    Correction(GapUp, forms.CorrectGapUpForm, actions.correct_gap_up),
    Correction(HealthNote, forms.CorrectHealthNoteForm, actions.correct_health_note),
)
correct = correct_with(CORRECTIONS, then=shown_on)
