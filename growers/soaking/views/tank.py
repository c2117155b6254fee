from django.shortcuts import render
from django.utils.translation import gettext as _

from growers.people.pages import keep

from .. import actions, queries
from ..forms import CheckForm, TankForm, WaterForm
from ..models import Tank
from .about import find


def tank(request):
    """All tanks: what is in them, and what is out and waits."""
    board = queries.board(request.holding, request.now)
    lifted = queries.lifted_rods(request.holding)
    context = {
        "tanks": [(of_tank, [(each, tap_form(request, each.batch)) for each in of_tank.batches]) for of_tank in board],
        "any_in_water": any(of_tank.batches for of_tank in board),
        "lifted": [rods for rods in lifted if not rods.long_ago(request.now)],
        "long_ago": [rods for rods in lifted if rods.long_ago(request.now)],
    }
    return render(request, "soaking/tank.html", context)


def tap_form(request, batch):
    """A bend check that one tap on the row keeps."""
    return CheckForm(
        batch=batch, by=request.user, holding=request.holding, today=request.today, now=request.now, auto_id=False
    )


def tanks(request):
    return render(request, "soaking/tanks.html", {"tanks": queries.board(request.holding, request.now)})


def add_tank(request):
    return keep(
        request,
        form=TankForm,
        template="soaking/form.html",
        act=actions.add_tank,
        then=request.here("soaking:tank"),
        context={"title": _("A new tank"), "caution": "tank"},
    )


def water(request, uid):
    of = find(request, Tank, uid)
    return keep(
        request,
        form=WaterForm,
        template="soaking/form.html",
        act=actions.read_water,
        fixed={"tank": of},
        then=request.here("soaking:tank"),
        context={
            "title": _("The water of “%(tank)s”") % {"tank": of},
            "last": queries.last_reading(of, request.now),
            "caution": "electricity",
        },
    )
