"""Sheets for customers: shared by a link, and withdrawn."""

from django.db import transaction
from django.db.models import F
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal
from growers.people.actions import correct, write

from ..models import Sheet
from ..queries import sheet_of


@transaction.atomic
def share_sheet(*, holding, by, today, variety=None, bundle=None, expires_on=None):
    """Open the sheet of a variety or a bundle to whoever has its link; the link stays the same ever after."""
    if expires_on is not None and expires_on < today:
        raise Refusal(_("That day is past. Leave it empty to share until you withdraw it."), field="expires_on")
    sheet = sheet_of(holding, variety=variety, bundle=bundle)
    if sheet is None:
        return write(Sheet(holding=holding, variety=variety, bundle=bundle, expires_on=expires_on), by=by)
    return correct(record=sheet, by=by, why=_("shared"), shared=True, expires_on=expires_on)


@transaction.atomic
def withdraw_sheet(*, holding, by, sheet):
    """Close a sheet: its link and the tag that leads to it say nothing from now on."""
    return correct(record=sheet, by=by, why=_("withdrawn"), shared=False)


def count_look(sheet):
    Sheet.objects.of(sheet.holding).filter(pk=sheet.pk).update(looked_at=F("looked_at") + 1)
