from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.furniture.lists import paged
from growers.people.pages import Correction, correct_with, corrections, keep
from growers.soaking.models import Batch
from growers.soaking.queries import lifted_rods, name_of

from . import actions, forms, queries
from .models import Basket, Pattern, PatternPart, RodsUsed, StayedTight


def find(request, model, uid, *related):
    return get_object_or_404(model.objects.of(request.holding).select_related(*related), uid=uid)


def baskets(request):
    page = paged(request, queries.baskets_of(request.holding))
    context = {"page": page, "to_ask": queries.to_ask_after(request.holding, request.today)}
    return render(request, "baskets/baskets.html", context)


def basket(request, uid):
    found = find(request, Basket, uid, "pattern")
    went = queries.rods_of(found)
    context = {
        "basket": found,
        "went": went,
        "parts": queries.by_part(found, went),
        "kg": queries.kg_of(went),
        "looks": queries.looks_at(found),
    }
    return render(request, "baskets/basket.html", context)


def add(request):
    return keep(
        request,
        form=forms.BasketForm,
        template="baskets/form.html",
        act=actions.make_basket,
        then=lambda made: request.here("baskets:basket", made.uid),
        context={"title": _("A new basket")},
    )


def keep_of_basket(request, basket, *, title, form, act, **kwargs):
    return keep(
        request,
        form=form,
        template="baskets/form.html",
        act=act,
        fixed={"basket": basket},
        then=request.here("baskets:basket", basket.uid),
        context={"title": title, "basket": basket} | kwargs.pop("context", {}),
        **kwargs,
    )


def use(request, uid):
    found = find(request, Basket, uid, "pattern")
    return keep_of_basket(
        request,
        found,
        title=_("Rods that went in"),
        form=forms.UseForm,
        act=actions.use_rods,
        form_kwargs={"basket": found},
        context={
            "nothing": "" if lifted_rods(request.holding) else _("Nothing is out of the water and unused."),
            "other_way": request.here("baskets:use_unsoaked", found.uid),
        },
    )


def use_unsoaked(request, uid):
    found = find(request, Basket, uid, "pattern")
    return keep_of_basket(
        request,
        found,
        title=_("Rods worked without soaking"),
        form=forms.UseUnsoakedForm,
        act=actions.use_unsoaked,
        form_kwargs={"basket": found},
    )


def use_batch(request, uid):
    """From the tank: these soaked rods went into a basket."""
    batch = find(request, Batch, uid, "tank", "taking__bundle__length_class")
    return keep(
        request,
        form=forms.UseBatchForm,
        template="baskets/form.html",
        act=actions.use_batch,
        fixed={"batch": batch},
        then=lambda used: request.here("baskets:basket", used.basket.uid),
        context={"title": _("Used in a basket"), "about": name_of(batch.taking.bundle)},
    )


def tight(request, uid):
    return keep_of_basket(
        request,
        find(request, Basket, uid),
        title=_("Has it stayed tight?"),
        form=forms.TightForm,
        act=actions.stayed_tight,
    )


def patterns(request):
    return render(request, "baskets/patterns.html", {"patterns": queries.patterns_of(request.holding)})


def add_pattern(request):
    return keep(
        request,
        form=forms.PatternForm,
        template="baskets/form.html",
        act=actions.add_pattern,
        then=lambda pattern: request.here("baskets:pattern", pattern.uid),
        context={"title": _("A new pattern")},
    )


def pattern(request, uid):
    found = find(request, Pattern, uid)
    context = {"pattern": found, "parts": queries.parts_of(found), "made": queries.made_of(found)}
    return render(request, "baskets/pattern.html", context)


def add_part(request, uid):
    found = find(request, Pattern, uid)
    return keep(
        request,
        form=forms.PartForm,
        template="baskets/form.html",
        act=actions.add_part,
        fixed={"pattern": found},
        then=request.here("baskets:pattern", found.uid),
        context={"title": _("A part of “%(pattern)s”") % {"pattern": found}},
    )


def part_now(part):
    now = as_written("name", "rods", "thickness")(part)
    return now | {"length_class": part.length_class and part.length_class.uid}


def as_written(*names):
    return lambda record: {name: getattr(record, name) for name in names}


def basket_now(basket):
    now = as_written("name", "made_on", "note")(basket)
    return now | {"pattern": basket.pattern and basket.pattern.uid}


def used_now(used):
    return {"much": used.said_text or used.get_said_how_display(), "part_of_basket": used.part_of_basket}


CORRECTIONS = corrections(
    Correction(Pattern, forms.CorrectPatternForm, actions.correct_pattern, as_written("name", "note")),
    Correction(PatternPart, forms.CorrectPartForm, actions.correct_patternpart, part_now),
    Correction(Basket, forms.CorrectBasketForm, actions.correct_basket, basket_now),
    Correction(
        RodsUsed,
        forms.CorrectUsedForm,
        actions.correct_rodsused,
        used_now,
        lent=lambda used: {"pattern": used.basket.pattern},
    ),
    Correction(StayedTight, forms.CorrectTightForm, actions.correct_stayedtight, as_written("on", "result", "note")),
)
correct = correct_with(CORRECTIONS, then=lambda request, record: request.here("people:record", record.kind, record.uid))
