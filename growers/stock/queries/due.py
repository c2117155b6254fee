"""What wants doing about promises."""

from collections import defaultdict

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from growers.bundles.queries import ancestry_of
from growers.drying.queries import answers_for, counts_as_dry
from growers.furniture.due import Due

from ..models import Promise


def due(holding, *, today, now):
    promises = Promise.objects.of(holding).standing().select_related("bundle__length_class", "bundle__holding")
    by_bundle = defaultdict(list)
    for promise in promises.order_by("on", "pk"):
        by_bundle[promise.bundle].append(promise)
    names = ancestry_of(by_bundle)
    fit = {pk for pk, answer in answers_for(by_bundle).items() if counts_as_dry(answer)}
    return [
        each
        for bundle, standing in by_bundle.items()
        for each in due_of(bundle, standing, f"{names[bundle.pk].name}, {bundle.length_class}", bundle.pk in fit)
    ]


def due_of(bundle, standing, name, fit):
    whom = ", ".join(dict.fromkeys(promise.whom for promise in standing))
    about = {"when": standing[0].on, "tag": bundle.tag}
    if sum(promise.share_ppb for promise in standing) > bundle.left_ppb:
        sentence = _("More of %(name)s is promised to %(whom)s than is left")
        yield Due(
            "over_promised",
            sentence % {"name": name, "whom": whom},
            "trace:bundle",
            (bundle.uid,),
            urgent=True,
            **about,
        )
    elif fit:
        sentence = ngettext(
            "%(name)s is fit to sell: %(whom)s waits for it",
            "%(name)s is fit to sell: %(whom)s wait for it",
            len({promise.whom for promise in standing}),
        )
        yield Due("keep_promise", sentence % {"name": name, "whom": whom}, "customers:sell", (bundle.uid,), **about)
