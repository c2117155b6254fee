from django.db import transaction
from django.utils.translation import gettext as _

from growers.bundles.actions import lock
from growers.bundles.models import Taking
from growers.furniture.dates import write_day
from growers.furniture.refusals import Refusal
from growers.people.actions import before_strike_out, correct, write

from ..models import Promise
from ..queries import standing_promises
from .taking import reckon

SAID = ("share_ppb", "said_how", "said_value", "said_unit", "said_text")


@transaction.atomic
def promise(*, holding, by, bundle, whom, on, much, note=""):
    """Set rods aside for somebody. What is promised can't be promised again."""
    bundle = lock(holding=holding, bundles=[bundle])[bundle.pk]
    said = share_of_the_free(bundle, much, on)
    return write(Promise(holding=holding, bundle=bundle, whom=whom, on=on, note=note, **said), by=by)


def share_of_the_free(bundle, much, on, *, but=None):
    promised = [each for each in standing_promises(bundle) if each != but]
    free_ppb = bundle.left_ppb - sum(each.share_ppb for each in promised)
    if free_ppb <= 0 and promised:
        names = ", ".join(dict.fromkeys(each.whom for each in promised))
        raise Refusal(_("All of it is promised already, to %(names)s.") % {"names": names}, field="much")
    # “The rest” of a bundle that is partly promised is the rest that is free.
    reckoned = reckon(bundle, much, on, left_ppb=free_ppb if much.how in ("rest", "part") else None)
    if reckoned["share_ppb"] > free_ppb:
        names = ", ".join(dict.fromkeys(each.whom for each in promised))
        raise Refusal(_("Not so much is free: part of it is promised to %(names)s.") % {"names": names}, field="much")
    return {name: reckoned[name] for name in SAID}


@transaction.atomic
def release(*, holding, by, promise, on):
    """The rods are free again, unsold."""
    if promise.kept_by_id or promise.released_on:
        raise Refusal(_("That promise has been kept or released already."))
    if on < promise.on:
        raise Refusal(_("It was not promised until %(day)s.") % {"day": write_day(promise.on)}, field="on")
    return correct(record=promise, by=by, released_on=on)


@transaction.atomic
def correct_promise(*, holding, by, promise, whom, on, much, note="", why=""):
    bundle = lock(holding=holding, bundles=[promise.bundle])[promise.bundle_id]
    said = share_of_the_free(bundle, much, on, but=promise)
    return correct(record=promise, by=by, why=why, whom=whom, on=on, note=note, **said)


@before_strike_out.register(Taking)
def _promised_still(record, *, by):
    """A promise that was kept with rods which were never taken out stands again."""
    for promise in Promise.objects.of(record.holding).filter(kept_by=record):
        correct(record=promise, by=by, why=_("the rods were not taken out"), kept_by=None)
