from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import DayField, LengthField, TemperatureField
from growers.furniture.forms import BaseForm, Look


class ShareForm(BaseForm):
    expires_on = DayField(label=_("Until"), required=False, future=True, help_text=_("Empty: until you withdraw it."))


class WithdrawForm(BaseForm):
    """Nothing to say: the button is all."""


class AskForm(Look, forms.Form):
    """What a reader of a sheet may ask: for rods of what length, in water how warm."""

    length = LengthField(label=_("Length of your rods"), required=False)
    water = TemperatureField(label=_("Your water"), required=False)

    def __init__(self, *args, reader, **kwargs):
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.bind(holding=reader, today=None, now=None)
