from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal

from .lifting import bench_result, lift
from .putting_in import put_in


@transaction.atomic
def whole_soak(
    *,
    holding,
    by,
    bundle,
    tank,
    went_in,
    came_out,
    result,
    much,
    water=None,
    all_under=True,
    promised_too=False,
    note="",
):
    """A whole soak told afterwards: in, out, and how it was at the bench."""
    if came_out.over_by(went_in.at):
        raise Refusal(_("They can't come out before they went in."), field="came_out")
    try:
        batch = put_in(
            holding=holding,
            by=by,
            bundle=bundle,
            tank=tank,
            moment=went_in,
            much=much,
            all_under=all_under,
            water=water,
            promised_too=promised_too,
            note=note,
        )
    except Refusal as refusal:
        raise Refusal(refusal.sentence, field="went_in" if refusal.field == "moment" else refusal.field) from refusal
    lifted = lift(holding=holding, by=by, batch=batch, moment=came_out)
    bench_result(holding=holding, by=by, lift=lifted, at=came_out.until, result=result)
    batch.refresh_from_db()
    return batch
