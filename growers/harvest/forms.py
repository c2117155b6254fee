from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Planting
from growers.furniture.fields import (
    CountField,
    DayField,
    LengthField,
    MassField,
    PickField,
    RecordChoiceField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TapSelect
from growers.furniture.writing import typed

from . import queries
from .models import CuttingDay, GreenOut

AGES = [(1, _("one year")), (2, _("two years")), (3, _("three years or more"))]


def age_field():
    return forms.TypedChoiceField(
        label=_("Growth of the rods"), choices=AGES, coerce=int, widget=forms.Select, initial=1
    )


def mass_of(record):
    """A weight as it was typed, to stand in a form again."""
    return typed(record.mass_text, record.mass_unit)


class LengthForm(BaseForm):
    label = forms.CharField(label=_("Label"), max_length=40, help_text=_("As it stands on your tags, such as “5 ft”."))
    min_m = LengthField(label=_("From"), likely=(0.3, 4))
    max_m = LengthField(label=_("Up to"), required=False, likely=(0.4, 6), help_text=_("Left empty: and longer."))

    def clean(self):
        said = super().clean()
        shortest, longest = said.get("min_m"), said.get("max_m")
        if shortest and longest and longest.value <= shortest.value:
            self.add_error(
                "max_m", ValidationError(_("This is no longer than “from”. Perhaps the two are changed over."))
            )
        return said

    def said(self):
        lengths = {name: self.cleaned_data[name] for name in ("min_m", "max_m")}
        return super().said() | {name: length and length.value for name, length in lengths.items()}


class CorrectLengthForm(LengthForm):
    why = why_field()

    @classmethod
    def of(cls, record):
        return {"label": record.label, "min_m": record.min_m, "max_m": record.max_m}


class UsualLengthsForm(BaseForm):
    system = forms.ChoiceField(
        label=_("Take the usual list"),
        choices=[("ft", _("3 ft to 9 ft, a foot apart")), ("20cm", _("80 to 280 cm, 20 cm apart"))],
        widget=TapSelect,
    )


class CutOneForm(BaseForm):
    """At the bed: one tap for each bundle; a fault, if there is one, is tapped before it."""

    fault = PickField(label=_("With a fault"), choices=CuttingDay.Fault.choices, required=False)
    came_off = forms.ChoiceField(
        label=_("One more"), choices=[("bundles", _("+1 bundle")), ("armfuls", _("+1 armful"))], widget=TapSelect
    )


class CutForm(BaseForm):
    on = DayField(label=_("Day"), initial=_("today"))
    bundles = CountField(label=_("Bundles"), required=False, likely=(1, 300))
    armfuls = CountField(label=_("Armfuls"), required=False, likely=(1, 300))
    mass = MassField(label=_("Weight, green"), required=False, likely=(1, 3000))
    age_years = age_field()
    fault = PickField(label=_("Fault"), choices=CuttingDay.Fault.choices, required=False)
    note = note_field()

    def __init__(self, *args, planting=None, **kwargs):
        self.planting = planting
        super().__init__(*args, **kwargs)

    def clean(self):
        said = super().clean()
        written = self.planting and said.get("on") and queries.said_of_day(self.planting, said["on"])
        if written:
            self.question("on", gettext("%(much)s is written for that day already. Is this more?") % {"much": written})
        return said


class CorrectCuttingDayForm(CutForm):
    age_years = None
    why = why_field()

    @classmethod
    def of(cls, record):
        shown = {name: getattr(record, name) for name in ("on", "bundles", "armfuls", "fault", "note")}
        return shown | {"mass": mass_of(record)}


class CorrectCutForm(BaseForm):
    planting = RecordChoiceField(
        Planting, label=_("Planting"), narrowed=lambda found: found.select_related("bed", "variety").order_by("pk")
    )
    age_years = CountField(label=_("Years of growth"), most=10)
    note = note_field()
    why = why_field()

    @classmethod
    def of(cls, record):
        return {"planting": record.planting.uid, "age_years": record.age_years, "note": record.note}


class GreenOutForm(BaseForm):
    what = PickField(label=_("What went"), choices=GreenOut.What, initial=GreenOut.What.RODS)
    where = PickField(label=_("What became of it"), choices=GreenOut.Where, initial=GreenOut.Where.SOLD)
    pieces = CountField(label=_("How many pieces"), required=False, likely=(1, 20_000))
    mass = MassField(label=_("Or the weight"), required=False, likely=(0.2, 2000))
    on = DayField(label=_("Day"), initial=_("today"))
    whom = forms.CharField(label=_("To whom"), max_length=120, required=False)
    note = note_field()


class CorrectGreenOutForm(GreenOutForm):
    why = why_field()

    @classmethod
    def of(cls, record):
        names = ("what", "where", "pieces", "on", "whom", "note")
        return {name: getattr(record, name) for name in names} | {"mass": mass_of(record)}
