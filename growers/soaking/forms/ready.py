from django import forms
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.furniture.fields import MomentField, RecordChoiceField
from growers.furniture.forms import BaseForm
from growers.harvest.models import LengthClass

WISHES = 4


class ReadyByForm(BaseForm):
    """A day and hour, and what is wanted right for it: asks, and keeps nothing."""

    at = MomentField(label=_("To be right at the bench"), future=True, help_text=_("Such as Saturday 9:00."))

    def __init__(self, *args, **kwargs):
        # Made before the base form lends its fields the book.
        for number in range(1, WISHES + 1):
            self.base_fields = {**self.base_fields, **self.wish(number)}
        super().__init__(*args, **kwargs)
        del self.fields["client_id"]

    @staticmethod
    def wish(number):
        words = {"n": number}
        return {
            f"length_{number}": RecordChoiceField(
                LengthClass,
                label=_("Rods %(n)d: length") % words,
                required=number == 1,
                narrowed=lambda found: found.order_by("min_m"),
            ),
            f"type_{number}": forms.ChoiceField(
                label=_("Rods %(n)d: type") % words, choices=Bundle.Type.choices, required=False
            ),
            f"variety_{number}": RecordChoiceField(
                Variety,
                label=_("Rods %(n)d: variety") % words,
                required=False,
                empty_label=_("any"),
                narrowed=lambda found: found.order_by("name_key"),
            ),
        }

    def wishes(self):
        """What was asked for: (length class, type, variety or None, name)."""
        said = self.cleaned_data
        for number in range(1, WISHES + 1):
            length = said.get(f"length_{number}")
            if length:
                type_ = said.get(f"type_{number}") or Bundle.Type.BROWN
                variety = said.get(f"variety_{number}")
                names = [variety.name if variety else "", str(length), str(Bundle.Type(type_).label)]
                yield length, type_, variety, ", ".join(filter(None, names))
