from django.http import Http404
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle, Place, Stack
from growers.bundles.queries import ancestry_of
from growers.charts.weighings import weighings_figure
from growers.furniture.lists import paged
from growers.harvest.models import Cut
from growers.people.pages import Correction, correct_with, corrections, keep

from . import actions, forms, queries
from .models import AirReading, MeterReading, OvenTest, Weighing, Word

SAMPLED = {"bundle": Bundle, "stack": Stack, "cut": Cut}


def find(request, model, uid):
    return get_object_or_404(model.objects.of(request.holding), uid=uid)


def in_words(request, bundles):
    """(bundle, its answer in words) of each, judged anew where it is stale."""
    answers = actions.judged(bundles, request.today)
    return [(bundle, queries.in_words(answers[bundle.pk])) for bundle in bundles]


def drying(request):
    actions.judge_stale(request.holding, request.today)
    found = queries.due(request.holding, today=request.today, now=request.now)
    return render(request, "drying/drying.html", {"due": found, "stores": queries.stores(request.holding)})


def weigh(request, uid):
    bundle = find(request, Bundle, uid)
    return keep(
        request,
        form=forms.WeighForm,
        form_kwargs={"bundle": bundle},
        template="drying/weigh.html",
        act=actions.weigh,
        fixed={"bundle": bundle},
        then=request.here("drying:answer", bundle.uid),
        context={
            "bundle": bundle,
            "ancestry": ancestry_of([bundle])[bundle.pk],
            "last": queries.weighings_of(bundle).first(),
        },
    )


def weigh_by_tag(request):
    return keep(
        request,
        form=forms.WeighByTagForm,
        template="drying/weigh_by_tag.html",
        act=actions.weigh,
        then=lambda weighing: request.here("drying:answer", weighing.bundle.uid),
    )


def answer(request, uid):
    """A bundle's answer in full."""
    bundle = find(request, Bundle, uid)
    judged = actions.judged([bundle], request.today)[bundle.pk]
    history = queries.mass_history(bundle, request.today)
    figure = None
    if history["on"].nunique() > 1:
        figure = figure_of(history, request.holding)
    context = {
        "bundle": bundle,
        "ancestry": ancestry_of([bundle])[bundle.pk],
        "answer": judged,
        "words": queries.in_words(judged),
        "history": queries.history_in_words(history),
        "figure": figure,
        "readings": queries.samples_of(bundle),
    }
    return render(request, "drying/answer.html", context)


def figure_of(history, holding):
    labels = {"mass": _("The whole bundle, %(unit)s"), "moisture": _("Moisture, %"), "limit": _("dry enough")}
    limit = queries.moisture_of_dry(holding)
    return weighings_figure(history, unit=holding.mass_unit, limit=limit, labels=labels).to_plotly_json()


def weighings(request):
    found = Weighing.objects.of(request.holding).select_related("bundle").order_by("-on", "-at", "-pk")
    return render(request, "drying/weighings.html", {"page": paged(request, found)})


def tests(request):
    return render(request, "drying/tests.html", {"page": paged(request, queries.tests_of(request.holding))})


def store(request, uid):
    place = find(request, Place, uid)
    standing = Bundle.objects.of(request.holding).with_some_left().standing_in(place)
    bundles = list(standing.select_related("length_class").order_by("tag"))
    ancestries = ancestry_of(bundles)
    air = queries.store_now(place, request.today)
    context = {
        "place": place,
        "air": air,
        "settles": queries.store_in_words(air.moisture if air else None),
        "last": queries.last_reading(place),
        "rows": [(bundle, ancestries[bundle.pk], words) for bundle, words in in_words(request, bundles)],
    }
    return render(request, "drying/store.html", context)


def airs(request, uid):
    place = find(request, Place, uid)
    context = {"place": place, "page": paged(request, queries.readings_of(place)), "files": queries.files_of(place)}
    return render(request, "drying/airs.html", context)


def of_place(request, uid, form, act, template, kept=None):
    place = find(request, Place, uid)
    return keep(
        request,
        form=form,
        template=template,
        act=act,
        fixed={"place": place},
        then=request.here("drying:store", place.uid),
        kept=kept,
        context={"place": place},
    )


def air(request, uid):
    return of_place(request, uid, forms.AirForm, actions.read_air, "drying/air.html")


def air_file(request, uid):
    return of_place(request, uid, forms.AirFileForm, actions.read_air_file, "drying/air_file.html", kept=file_kept)


def file_kept(file):
    if not file.skipped:
        return str(file)
    return _("%(file)s; %(n)d were in the book already") % {"file": file, "n": file.skipped}


def sampled(request, what, uid, form, act, template):
    """A page that keeps a reading of a bundle, a stack or a cut."""
    if what not in SAMPLED:
        raise Http404
    thing = find(request, SAMPLED[what], uid)
    return keep(
        request,
        form=form,
        template=template,
        act=act,
        fixed={"of": thing},
        then=request.here("drying:answer", thing.uid) if what == "bundle" else request.here("drying:tests"),
        context={"thing": thing},
    )


def oven(request, what, uid):
    return sampled(request, what, uid, forms.OvenForm, actions.oven_test, "drying/oven.html")


def meter(request, what, uid):
    return sampled(request, what, uid, forms.MeterForm, actions.meter_reading, "drying/meter.html")


def word(request, what, uid):
    return sampled(request, what, uid, forms.WordForm, actions.give_word, "drying/word.html")


def shown_on(request, record):
    if record.kind == "airreading":
        return request.here("drying:airs", record.place.uid)
    if record.bundle:
        return request.here("drying:answer", record.bundle.uid)
    return request.here("drying:tests")


CORRECTIONS = corrections(
    Correction(
        Weighing, forms.CorrectWeighingForm, actions.correct_weighing, lent=lambda weighing: {"bundle": weighing.bundle}
    ),
    Correction(AirReading, forms.CorrectAirForm, actions.correct_air),
    Correction(OvenTest, forms.CorrectOvenForm, actions.correct_oven_test),
    Correction(MeterReading, forms.CorrectMeterForm, actions.correct_meter),
    Correction(Word, forms.CorrectWordForm, actions.correct_word),
)
correct = correct_with(CORRECTIONS, then=shown_on)
