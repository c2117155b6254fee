from urllib.parse import urlencode

from django.http import Http404
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.beds.queries import health_notes
from growers.harvest.models import Cut
from growers.harvest.queries import lengths, winter_of_cut, words_of
from growers.people.pages import keep
from growers.people.rules import winter_span

from .. import actions, forms, queries
from ..models import Bundle, Find


def bench(request):
    """Which cut stands at the bench."""
    cuts = queries.cuts_at_bench(request.holding, request.today)
    return render(request, "bundles/bench.html", {"cuts": cuts})


def bench_cut(request, uid):
    """One variety on the bench: a tap on a length ties a bundle."""
    cut = get_object_or_404(Cut.objects.of(request.holding), uid=uid)
    stays = {name: request.GET[name] for name in forms.TieForm.STAYS if request.GET.get(name)}

    def then(tied):
        return f"{request.here('bundles:bench_cut', cut.uid)}{what_stays(request)}"

    def kept(tied):
        tags = ", ".join(bundle.tag_shown for bundle in tied[:3]) + (" …" if len(tied) > 3 else "")
        return _("%(length)s tied: %(tags)s") % {"length": tied[0].length_class, "tags": tags}

    return keep(
        request,
        form=forms.TieForm,
        template="bundles/bench_cut.html",
        act=actions.tie,
        fixed={"cut": cut},
        initial=stays or None,
        then=then,
        kept=kept,
        context=at_the_bench(request, cut),
    )


def what_stays(request):
    """What was set for this bundle and is likely the same for the next, as an address carries it."""
    usual = {"type": "brown", "form": "bundle", "on": _("today")}
    sent = {name: request.POST.get(name, "").strip() for name in forms.TieForm.STAYS}
    stays = {name: value for name, value in sent.items() if value and value != usual.get(name)}
    return f"?{urlencode(stays)}" if stays else ""


def at_the_bench(request, cut):
    first = winter_span(winter_of_cut(cut), request.holding.winter_begins_month)[0]
    return {
        "cut": cut,
        "winter": winter_of_cut(cut),
        # What was seen in the summer before, and since.
        "notes": health_notes(cut.planting, since=first.replace(year=first.year - 1)),
        "tally": queries.tally_of(cut),
        "balance": queries.balance_of(cut),
        "grading": queries.grading_of(cut),
        "lengths": lengths(request.holding),
    }


def finish(request, uid):
    cut = get_object_or_404(Cut.objects.of(request.holding), uid=uid)
    return keep(
        request,
        form=forms.FinishForm,
        template="_parts/form_page.html",
        act=actions.finish_grading,
        fixed={"cut": cut},
        then=request.here("bundles:bench_cut", cut.uid),
        undo=False,
        context={"title": _("Grading finished"), "about": words_of(cut)},
    )


def no_lengths_yet(request, title):
    """The page in place of a form that asks for a length, until the book has some."""
    return render(request, "bundles/no_lengths.html", {"title": title})


def buy_in(request):
    title = _("Bundles bought in")
    if not lengths(request.holding):
        return no_lengths_yet(request, title)
    return keep(
        request,
        form=forms.BuyInForm,
        template="_parts/form_page.html",
        act=actions.buy_in,
        then=lambda bought: after(request, bought),
        context={"title": title},
    )


def after(request, made):
    """Where it goes on after bundles came in: to the one, or to the list."""
    if len(made) == 1:
        return request.here("trace:bundle", made[0].uid)
    return request.here("bundles:bundles")


def find_untagged(request):
    title = _("A bundle without a tag")
    if not lengths(request.holding):
        return no_lengths_yet(request, title)
    return keep(
        request,
        form=forms.FindForm,
        template="_parts/form_page.html",
        act=actions.find,
        then=lambda bundle: request.here("trace:bundle", bundle.uid),
        context={
            "title": title,
            "intro": _("It gets a tag now. Its variety stays unknown, perhaps with a likely one, until you settle it."),
        },
    )


def settle(request, uid):
    found = get_object_or_404(Find.objects.of(request.holding), uid=uid)
    return keep(
        request,
        form=forms.SettleForm,
        template="_parts/form_page.html",
        act=actions.settle_find,
        fixed={"find": found},
        initial={"variety": found.likely_variety and found.likely_variety.uid},
        then=request.here("bundles:bundles"),
        undo=False,
        context={"title": _("What variety is it?"), "about": found},
    )


def other_cut(request, uid):
    """A bundle was tied under the wrong cut."""
    bundle = get_object_or_404(Bundle.objects.of(request.holding), uid=uid)
    if bundle.grading is None:
        raise Http404
    return keep(
        request,
        form=forms.OtherCutForm,
        template="_parts/form_page.html",
        act=actions.was_of_cut,
        fixed={"bundle": bundle, "at": request.now},
        then=request.here("trace:bundle", bundle.uid),
        form_kwargs={"bundle": bundle},
        undo=False,
        context={
            "title": _("It was of another cut"),
            "about": bundle,
            "intro": _("The bundle, and all that was made from it, is put under the cut you choose."),
        },
    )
