"""Finding a record of the tank, and what the pages about a batch show above their form."""

from django.shortcuts import get_object_or_404

from growers.people.pages import keep

from .. import queries
from ..models import Batch


def find(request, model, uid, *related):
    return get_object_or_404(model.objects.of(request.holding).select_related(*related), uid=uid)


def batch_at(request, uid):
    return find(request, Batch, uid, "tank", "taking__bundle__length_class", "holding")


def keep_of_batch(request, batch, *, title, form, act, fixed, **kwargs):
    """A page that keeps something of a batch, and goes back to the batch."""
    return keep(
        request,
        form=form,
        act=act,
        fixed=fixed,
        template=kwargs.pop("template", "soaking/form.html"),
        then=kwargs.pop("then", request.here("soaking:batch", batch.uid)),
        kept=kwargs.pop("kept", lambda record: f"{queries.name_of(batch.taking.bundle)}: {record}"),
        context={"title": title, "now": queries.batch_in_water(batch, request.now)} | kwargs.pop("context", {}),
        **kwargs,
    )
