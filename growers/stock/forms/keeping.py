from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    CountField,
    MassField,
    PickField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm

from ..models import Count
from .parts import (
    OfBundle,
    day_field,
    much_field,
)


class CountForm(BaseForm):
    mass = MassField(label=_("What is left weighs"), required=False)
    rods = CountField(
        label=_("Or rods left"),
        required=False,
        least=0,
        help_text=_("If you counted rods, no weight is wanted. None left: 0."),
    )
    why = PickField(label=_("Why it differs from the book"), choices=Count.Why)
    on = day_field()
    note = note_field()

    def clean(self):
        said = super().clean()
        if {"mass", "rods"} <= said.keys():
            if said["mass"] is None and said["rods"] is None:
                self.add_error("mass", _("Give what is left: a weight here, or a number of rods below."))
            elif said["mass"] is not None and said["rods"] is not None:
                self.add_error("rods", _("Give a weight or a number of rods, not both."))
        return said


class CorrectCountForm(CountForm):
    reason = why_field()


class PromiseForm(OfBundle):
    whom = forms.CharField(
        label=_("To whom"), max_length=120, error_messages={"required": _("Write whom it is promised to.")}
    )
    much = much_field()
    on = day_field()
    note = note_field()


class CorrectPromiseForm(PromiseForm):
    why = why_field()


class ReleaseForm(BaseForm):
    on = day_field()
