"""The ledger of takings, in shares: nothing is taken that is not there, and nothing goes unwritten."""

from django.db import transaction
from django.db.models import F
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import on_correct, on_put_back, on_strike_out, write

from ..models import Adjustment, Bundle, Taking
from ..rules import WHOLE


class NotEnoughLeft(Refusal):
    """More was to be taken out of a bundle than the book says is left."""


def lock(*, holding, bundles):
    """The bundles as they are now, held until the transaction ends.

    They are taken in order of id, so that no two hands wait on each other.
    """
    ids = sorted({bundle.pk for bundle in bundles})
    return {
        bundle.pk: bundle for bundle in Bundle.objects.of(holding).select_for_update().filter(pk__in=ids).order_by("pk")
    }


def draw(bundle, share_ppb):
    """Lower what is left by a share (raise it, for a share below nothing), within the whole."""
    bundles = Bundle.objects.of(bundle.holding, struck_out=True).filter(pk=bundle.pk)
    within = bundles.filter(left_ppb__gte=max(share_ppb, 0), left_ppb__lte=WHOLE + min(share_ppb, 0))
    changed = within.update(left_ppb=F("left_ppb") - share_ppb, evidence_no=F("evidence_no") + 1)
    bundle.refresh_from_db(fields=["left_ppb", "evidence_no"])
    if not changed and share_ppb > 0:
        raise NotEnoughLeft(not_enough(bundle), field="much")
    if not changed:
        raise Refusal(_("That would leave more in %(bundle)s than was ever tied.") % {"bundle": bundle})


def not_enough(bundle):
    if bundle.left_ppb == 0:
        return _("Nothing is left of %(bundle)s, by the book. If there is, count it first.") % {"bundle": bundle}
    percent = bundle.left_ppb * 100 / WHOLE
    return _(
        "By the book only about %(percent).0f %% of %(bundle)s is left. "
        "Say “all the rest”, or count what is there first."
    ) % {"bundle": bundle, "percent": max(percent, 1)}


def give_evidence(*, bundle=None, stack=None):
    """What was reckoned of this bundle, or of this stack's bundles, is to be judged anew."""
    thing = bundle or stack
    type(thing).objects.of(thing.holding, struck_out=True).filter(pk=thing.pk).update(evidence_no=F("evidence_no") + 1)


def check_tied(bundle, on, field="on"):
    """Refuse a day before the bundle was tied."""
    if on < bundle.tied_on:
        words = {"bundle": bundle, "day": write_day(bundle.tied_on)}
        raise Refusal(_("%(bundle)s was not tied until %(day)s.") % words, field=field)


@transaction.atomic
def take(*, holding, by, bundle, on, purpose, share_ppb, said_how, at=None, **how_said):
    """Write that a share of a bundle's dry matter was taken out."""
    check_tied(bundle, on)
    taking = Taking(
        holding=holding,
        bundle=bundle,
        on=on,
        at=at,
        purpose=purpose,
        share_ppb=share_ppb,
        said_how=said_how,
        **how_said,
    )
    draw(bundle, share_ppb)
    return write(taking, by=by)


@transaction.atomic
def set_right(*, holding, by, bundle, on, share_ppb):
    """Set the ledger right after a count: by this share it had said too much (below nothing: too little)."""
    check_tied(bundle, on)
    draw(bundle, share_ppb)
    return write(Adjustment(holding=holding, bundle=bundle, on=on, share_ppb=share_ppb), by=by)


@on_strike_out.register(Taking)
@on_strike_out.register(Adjustment)
def _give_back(record, *, by):
    draw(record.bundle, -record.share_ppb)


@on_put_back.register(Taking)
@on_put_back.register(Adjustment)
def _take_again(record, *, by):
    draw(record.bundle, record.share_ppb)


@on_correct.register(Taking)
@on_correct.register(Adjustment)
def _take_the_difference(record, *, before, by):
    check_tied(record.bundle, record.on)
    if before.bundle_id == record.bundle_id:
        draw(record.bundle, record.share_ppb - before.share_ppb)
        return
    # In order of id, as lock() takes them.
    for bundle, share_ppb in sorted(
        [(before.bundle, -before.share_ppb), (record.bundle, record.share_ppb)], key=lambda pair: pair[0].pk
    ):
        draw(bundle, share_ppb)
