from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import check_tied
from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write
from growers.people.rules import weighed

from ..models import Weighing
from ..queries import left_when_weighed
from .raising import raise_evidence


@transaction.atomic
def weigh(*, holding, by, bundle, on, mass, at=None, wet=False, note=""):
    """A bundle as it stands on the scale. Evidence of drying: it never changes the ledger."""
    weighing = Weighing(
        holding=holding,
        bundle=bundle,
        on=on,
        at=at,
        wet=wet,
        note=note,
        **weighed(mass),
    )
    check_weighing(weighing)
    write(weighing, by=by)
    raise_evidence(weighing)
    return weighing


def check_weighing(weighing):
    bundle = weighing.bundle
    check_tied(bundle, weighing.on, field="when")
    if not left_when_weighed(bundle, weighing.on, weighing.at):
        raise Refusal(
            _("By the book nothing was left of %(bundle)s then. If there was, count it first.") % {"bundle": bundle},
            field="mass",
        )
    same = Weighing.objects.of(weighing.holding).filter(
        bundle=bundle, on=weighing.on, at=weighing.at, mass_kg=weighing.mass_kg
    )
    if same.exclude(pk=weighing.pk).exists():
        raise Refusal(_("That weighing is in the book already."), field="mass")


@transaction.atomic
def correct_weighing(*, holding, by, weighing, on, mass, at=None, wet=False, note="", why=""):
    """Correct a weighing. Where its scale was set right, a weight typed anew is set right as well."""
    changes = {"on": on, "at": at, "wet": wet, "note": note}
    if (mass.text, mass.unit) != (weighing.mass_text, weighing.mass_unit):
        changes |= weighed(mass, factor=weighing.scale.factor if weighing.scale else 1.0)
    corrected = correct(record=weighing, by=by, why=why, **changes)
    check_weighing(corrected)
    return corrected
