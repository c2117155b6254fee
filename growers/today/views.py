from zoneinfo import ZoneInfo

from django.shortcuts import render
from django.utils.translation import gettext as _

from growers.drying.actions import judge_stale

from . import queries

STEPS = {
    "variety": (lambda: _("Write down a variety you grow"), "beds:varieties"),
    "planting": (lambda: _("Say where it stands: a bed, and what is planted in it"), "beds:beds"),
    "lengths": (lambda: _("Choose the lengths you sort into"), "harvest:lengths"),
    "cut": (lambda: _("Write down what you cut"), "harvest:winter"),
    "bundle": (lambda: _("Sort it, and tie the first bundle"), "bundles:bench"),
}


def today(request):
    """What wants doing now; in a new book, how to begin."""
    judge_stale(request.holding, request.today)
    found = queries.due(request.holding, today=request.today, now=request.now)
    context = {
        "due": [shown(request, each) for each in found],
        "became_dry": queries.became_dry(request.holding, request.today),
        "steps": steps(request),
    }
    return render(request, "today/today.html", context)


def shown(request, each):
    """One thing to do, with its page's address and the day it has wanted doing since."""
    on = queries.day_of(each.when, ZoneInfo(request.holding.zone))
    return {
        "sentence": each.sentence,
        "why": each.why,
        "tag": each.tag,
        "urgent": each.urgent,
        "url": request.here(each.page, *each.args),
        "on": on if on != request.today else None,
        "ahead": on is not None and on > request.today,
    }


def steps(request):
    """The first steps of a new book: done, the one to do now, and those that wait for it."""
    found, ahead = [], False
    for code, done in queries.first_steps(request.holding):
        words, page = STEPS[code]
        found.append({"words": words(), "url": request.here(page), "done": done, "now": not done and not ahead})
        ahead = ahead or not done
    return found
