from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.bundles.queries import by_tag, near_tags
from growers.bundles.rules import WHOLE
from growers.people.pages import keep

from .. import actions, queries
from ..forms import CheckForm, PutInForm, WholeSoakForm
from ..models import Tank
from .about import batch_at, find, keep_of_batch


def put_in_by_tag(request):
    """Which bundle? By its tag, or from those with something left."""
    typed = request.GET.get("tag", "").strip()
    bundle = by_tag(request.holding, typed) if typed else None
    if bundle:
        return redirect(request.here("soaking:put_in", bundle.uid))
    context = {
        "typed": typed,
        "wrong": bool(typed) or "tag" in request.GET,
        "near": near_tags(request.holding, typed) if typed else [],
        "bundles": queries.named_bundles(queries.bundles_to_soak(request.holding)[:30]),
    }
    return render(request, "soaking/by_tag.html", context)


def put_in(request, uid):
    return into_water(request, uid, title=_("Put rods in the water"), form=PutInForm, act=actions.put_in)


def whole_soak(request, uid):
    return into_water(
        request, uid, title=_("A whole soak, told afterwards"), form=WholeSoakForm, act=actions.whole_soak
    )


def into_water(request, uid, *, title, form, act):
    bundle = find(request, Bundle, uid, "length_class", "holding")
    if not Tank.objects.of(request.holding).exists():
        return render(request, "soaking/no_tank.html", {"title": title})
    return keep(
        request,
        form=form,
        template="soaking/put_in.html",
        act=act,
        fixed={"bundle": bundle},
        form_kwargs={"bundle": bundle},
        then=lambda batch: request.here("soaking:batch", batch.uid),
        kept=lambda batch: _("%(name)s, in “%(tank)s”") % {"name": queries.name_of(bundle), "tank": batch.tank},
        context={"title": title, "bundle": bundle, "name": queries.name_of(bundle)},
    )


def batch(request, uid):
    found = batch_at(request, uid)
    context = {
        "now": queries.batch_in_water(found, request.now),
        "out": found.out_ppb / WHOLE,
        "story": queries.story_of(found),
        "lifts": queries.lifts_told(found),
        "keeps": queries.kept_of(found),
    }
    return render(request, "soaking/batch.html", context)


def check(request, uid):
    found = batch_at(request, uid)
    return keep_of_batch(
        request,
        found,
        title=_("Bend a rod"),
        form=CheckForm,
        act=actions.check_bend,
        fixed={"batch": found},
        form_kwargs={"batch": found, "by": request.user},
        then=request.here("soaking:tank"),
        kept=lambda kept: f"{queries.name_of(found.taking.bundle)}: {kept.get_result_display()}",
    )


def variety(request, uid):
    """What first soaks of a variety say, type by type."""
    of = find(request, Variety, uid)
    return render(request, "soaking/variety.html", {"variety": of, "types": queries.bounds_by_type(of)})
