from growers.people.pages import keep

from .. import actions
from ..forms import ScaleForm


def scale(request):
    return keep(
        request,
        form=ScaleForm,
        template="stock/scale.html",
        act=actions.correct_scale,
        then=lambda correction: request.here("people:record", correction.kind, correction.uid),
    )
