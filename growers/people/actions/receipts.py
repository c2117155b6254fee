"""Once and only once: a form that arrives again gets its first answer."""

import hashlib
import json

from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal

from .. import queries
from ..models import Receipt


def once(*, holding, by, client_id, action, said, do):
    """Do it once for this form: sent again, it gives the first result again.

    What is done returns a record, or a list of records of one kind.
    """
    digest = hashlib.sha256(json.dumps([action, said], sort_keys=True, default=str).encode()).hexdigest()
    receipt = Receipt(holding=holding, client_id=client_id, action=action, digest=digest, made_by=by)
    with transaction.atomic():
        try:
            # A second sender waits here until the first has finished.
            with transaction.atomic():
                receipt.save()
        except IntegrityError:
            return first_result(holding=holding, client_id=client_id, digest=digest)
        result = do()
        records = result if isinstance(result, list) else [result]
        receipt.result = {
            "kind": records[0].kind,
            "uids": [str(record.uid) for record in records],
            "several": isinstance(result, list),
            "struck_out": any(record.struck_out_at for record in records),
        }
        receipt.save(update_fields=["result"])
        return result


def first_result(*, holding, client_id, digest):
    receipt = Receipt.objects.get(holding=holding, client_id=client_id)
    if receipt.digest != digest:
        raise AlreadyKept(
            _("This page was kept already, with something else on it. Press the button again to keep this too.")
        )
    kind, uids = receipt.result["kind"], receipt.result["uids"]
    records = [queries.record(holding, kind, uid, struck_out=True) for uid in uids]
    if any(record.struck_out_at for record in records) and not receipt.result["struck_out"]:
        raise AlreadyKept(_("This was kept, and struck out since. Press the button again to keep it anew."))
    return records if receipt.result["several"] else records[0]


class AlreadyKept(Refusal):
    """The same form, sent again with other words on it."""
