"""Sheets for customers: as the grower shares them, and as a stranger sees them."""

from dataclasses import dataclass

from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.people.pages import keep
from growers.people.queries import holding_for

from .. import actions
from ..forms import AskForm, ShareForm, WithdrawForm
from ..models import Sheet
from ..pages import for_strangers, says_nothing
from ..queries import (
    like_this_water,
    local_day,
    open_sheet,
    rule_for,
    sheet_of,
    sheet_says,
    soaks_in_words,
    stands_open,
)


def variety_sheet(request, uid):
    variety = get_object_or_404(Variety.objects.of(request.holding), uid=uid)
    return sharing(request, variety=variety)


def bundle_sheet(request, uid):
    bundle = get_object_or_404(Bundle.objects.of(request.holding).select_related("length_class"), uid=uid)
    return sharing(request, bundle=bundle)


def sharing(request, **of_what):
    """The grower's view of a sheet: whether it is shared, by what link, how often it was looked at."""
    sheet = sheet_of(request.holding, **of_what)
    would_say = sheet or Sheet(holding=request.holding, **of_what)

    def share_sheet(**said):
        return actions.share_sheet(today=request.today, **said)

    return keep(
        request,
        form=ShareForm,
        template="customers/sharing.html",
        act=share_sheet,
        fixed=of_what,
        then=request.get_full_path(),
        undo=False,
        initial={"expires_on": sheet.expires_on if stands_open(sheet, now=request.now) else None},
        context={
            **of_what,
            "sheet": sheet,
            "open": stands_open(sheet, now=request.now),
            "link": request.build_absolute_uri(reverse("sheet", args=[sheet.token])) if sheet else "",
            "says": sheet_says(would_say, request.today, request.holding.mass_unit),
            "ask": None,
        },
    )


def withdraw(request, uid):
    sheet = get_object_or_404(Sheet.objects.of(request.holding), uid=uid)
    page = "customers:variety_sheet" if sheet.variety else "customers:bundle_sheet"
    return keep(
        request,
        form=WithdrawForm,
        template="customers/withdraw.html",
        act=actions.withdraw_sheet,
        fixed={"sheet": sheet},
        then=request.here(page, (sheet.variety or sheet.bundle).uid),
        undo=False,
        context={"sheet": sheet},
    )


@dataclass(frozen=True)
class Reader:
    """The units in which whoever looks at a sheet reads it."""

    mass_unit: str
    length_unit: str
    temperature_unit: str
    zone: str


def keeps_this_book(user, holding):
    return user.is_authenticated and holding_for(user, holding.slug) is not None


UNITS = {"metric": ("kg", "cm", "C"), "imperial": ("lb", "ft", "F")}


def reader_of(holding, asked):
    own = (holding.mass_unit, holding.length_unit, holding.temperature_unit)
    return Reader(*UNITS.get(asked, own), holding.zone)


@require_safe
def sheet(request, token):
    """What a stranger sees by the link or the tag: one variety or bundle, and nothing else of the book."""
    found = open_sheet(token, now=request.now)
    if found is None:
        return says_nothing(request)
    if request.method == "GET" and not keeps_this_book(request.user, found.holding):
        actions.count_look(found)
    reader = reader_of(found.holding, request.GET.get("units"))
    says = sheet_says(found, local_day(found.holding, request.now), reader.mass_unit)
    context = {
        "whose": found.holding.name,
        "invented": found.holding.invented,
        # The tags write in the units of `holding`: here, the reader's.
        "holding": reader,
        "says": says,
        "ask": answer_to(request, says, reader),
        "units": request.GET.get("units"),
    }
    return for_strangers(render(request, "customers/sheet.html", context))


def answer_to(request, says, reader):
    """The form for the reader's own length and water, with the answer if something was asked."""
    form = AskForm(request.GET if {"length", "water"} & request.GET.keys() else None, reader=reader)
    if not form.is_bound or not form.is_valid():
        return {"form": form}
    length, water = form.cleaned_data["length"], form.cleaned_data["water"]
    return {
        "form": form,
        "length": length and length.value,
        "rule": length and rule_for(says, length.value),
        "water": water and water.value,
        "like": soaks_in_words(like_this_water(says.bounds, water.value)) if water and says.bounds else None,
    }
