"""Printable tags: what a bundle is, in letters to be read across a shed, and where its code leads."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

import segno
from django.shortcuts import render
from django.urls import reverse
from django.utils.safestring import mark_safe

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of
from growers.customers.queries import soak_rule
from growers.drying.models import DrynessAnswer
from growers.drying.queries import assess_all, state_on
from growers.furniture.lists import paged
from growers.stock.filters import ShedFilter
from growers.stock.queries import whole_masses
from growers.stock.queries.shed import shed_bundles, shed_rows

MOST = 200
"""So many tags are printed at a time, at most."""


@dataclass(frozen=True)
class Weighed:
    """What is left (kg) as last weighed, the day it was, and the state of the rods that day where it is known."""

    kg: float
    on: date
    state: str


@dataclass(frozen=True)
class Tag:
    bundle: Bundle
    ancestry: object
    state: str
    soak: str
    weighed: Weighed | None
    beds: tuple
    address: str
    qr: str


def tags(request):
    """The bundles that are ticked, or all that the list is narrowed to, on A4; else the list to tick in."""
    if "bundle" not in request.GET and "print" not in request.GET:
        return choose(request)
    if "bundle" in request.GET:
        bundles = Bundle.objects.of(request.holding).filter(uid__in=uids(request.GET.getlist("bundle")))
        bundles = bundles.select_related("length_class", "holding").order_by("pk")
    else:
        bundles = narrowed(request).qs
    found = list(bundles[: MOST + 1])
    context = {"tags": tags_of(request, found[:MOST]), "most": MOST, "more": len(found) > MOST}
    return render(request, "trace/tags.html", context)


def narrowed(request):
    bundles = shed_bundles(request.holding)
    return ShedFilter(request.GET, bundles, holding=request.holding, today=request.today, now=request.now)


def choose(request):
    narrow = narrowed(request)
    page = paged(request, narrow.qs)
    rows = shed_rows(request.holding, page.object_list, request.today)
    return render(request, "trace/choose_tags.html", {"filter": narrow, "page": page, "rows": rows})


def uids(texts):
    """Those of the texts in an address that are uids at all."""
    found = []
    for text in texts:
        try:
            found.append(UUID(text))
        except ValueError:
            continue
    return found


def tags_of(request, bundles):
    ancestries, answers = ancestry_of(bundles), assess_all(bundles, request.today)
    wholes = whole_masses(bundles, request.today)
    return [
        Tag(
            bundle=bundle,
            ancestry=ancestries[bundle.pk],
            state=state_now(answers[bundle.pk]),
            soak=soak_rule(bundle),
            weighed=weighed(bundle, wholes[bundle.pk]),
            beds=beds_of(ancestries[bundle.pk]),
            address=(address := address_of(request, bundle)),
            qr=qr_of(address),
        )
        for bundle in bundles
    ]


def state_now(found):
    """The answer of the day in a word; nothing is printed where the book can't say."""
    answer = DrynessAnswer.Answer(found.answer)
    return "" if answer == DrynessAnswer.Answer.CANT_SAY else answer.label


def weighed(bundle, whole):
    """Only what a scale said of this very bundle goes on a tag."""
    if whole is None or whole.known == "typical" or not bundle.left_ppb:
        return None
    return Weighed(whole.left_kg(bundle), whole.on, state_on(bundle, whole.on))


def beds_of(ancestry):
    """The beds the rods grew in, or what stands in their place."""
    places = [source.cut.planting.bed if source.cut else source.purchase or source.find for source in ancestry.sources]
    return tuple(dict.fromkeys(str(place) for place in places))


def address_of(request, bundle):
    return request.build_absolute_uri(reverse("tag", args=[bundle.token]))


def qr_of(address):
    """A QR code (ISO/IEC 18004) as SVG to stand in the page; black on white in every light."""
    code = segno.make(address, error="m", micro=False, boost_error=False)
    drawn = code.svg_inline(border=4, omitsize=True, svgclass="qr", dark="#000", light="#fff")
    return mark_safe(drawn)  # noqa: S308 - nothing typed is in it, only squares
