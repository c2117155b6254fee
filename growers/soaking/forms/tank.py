from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    CountField,
    LengthField,
    PickField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm

from ..models import Tank, WaterReading
from .parts import (
    InstantField,
    WaterField,
)


class TankForm(BaseForm):
    name = forms.CharField(label=_("Name"), max_length=120)
    what = PickField(label=_("What it is"), choices=Tank.What.choices, initial=Tank.What.TANK)
    greatest_length = LengthField(
        label=_("Longest rod that goes in"),
        required=False,
        likely=(0.3, 6),
        help_text=_("Then the book says so when rods won't fit."),
    )
    room_bundles = CountField(label=_("How many 5 ft bundles fit"), required=False, likely=(1, 60))
    note = note_field()


class CorrectTankForm(TankForm):
    why = why_field()


class WaterForm(BaseForm):
    temperature = WaterField(
        label=_("The water"), help_text=_("A number, or how it feels to the hand: cold, cool, mild.")
    )
    how = PickField(
        label=_("Anything to it"),
        required=False,
        choices=[("", _("no")), (WaterReading.How.TOPPED, WaterReading.How.TOPPED.label)],
    )
    at = InstantField()


class CorrectWaterForm(WaterForm):
    why = why_field()
