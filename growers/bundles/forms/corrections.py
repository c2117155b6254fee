from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    CountField,
    DayField,
    HoursField,
    MassField,
    PartField,
    line_field,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.writing import typed
from growers.science.units import Reading

from ..rules import WHOLE
from .fields import (
    butt_field,
    butt_in_mm,
    form_field,
    length_field,
    mass_field,
    place_field,
    rods_field,
    thickness_field,
    type_field,
    variety_field,
)
from .places import PlaceForm


def says(record, *names):
    """What a record says, by field; other records by their uid."""
    shown = {name: getattr(record, name) for name in names}
    return {name: getattr(value, "uid", value) for name, value in shown.items()}


class CorrectBundleForm(BaseForm):
    length_class = length_field()
    tied_on = DayField(label=_("Tied on"))
    type = type_field()
    thickness = thickness_field()
    butt_mm = butt_field()
    form = form_field()
    mass = mass_field(_("Weight when tied"))
    tied_rods = rods_field(_("Rods when tied"))
    age_years = CountField(label=_("Years of growth"), most=10)
    note = note_field()
    why = why_field()

    @classmethod
    def of(cls, record):
        shown = says(record, "length_class", "tied_on", "type", "thickness", "form", "tied_rods", "age_years", "note")
        butt = record.butt_mm and record.butt_mm / 1000
        return shown | {"butt_mm": butt, "mass": typed(record.tied_mass_text, record.tied_mass_unit)}

    def said(self):
        said = butt_in_mm(super().said())
        return said | {"clear_mass": said["mass"] is None}


class CorrectMoveForm(BaseForm):
    place = place_field(required=True)
    on = DayField(label=_("Day"))
    why = why_field()

    @classmethod
    def of(cls, record):
        return says(record, "place", "on")


class CorrectPlaceForm(PlaceForm):
    why = why_field()

    @classmethod
    def of(cls, record):
        return says(record, "name", "cover", "note")


class CorrectStackForm(BaseForm):
    name = forms.CharField(label=_("What you call the stack"), max_length=120)
    stacked_on = DayField(label=_("Stacked on"))
    why = why_field()

    @classmethod
    def of(cls, record):
        return says(record, "name", "stacked_on")


class CorrectPurchaseForm(BaseForm):
    supplier = forms.CharField(label=_("From whom"), max_length=120)
    on = DayField(label=_("Day"))
    variety = variety_field()
    told_winter = line_field(_("Winter it was cut, as told"), 20)
    note = note_field()
    why = why_field()

    @classmethod
    def of(cls, record):
        return says(record, "supplier", "on", "variety", "told_winter", "note")


class CorrectFindForm(BaseForm):
    on = DayField(label=_("Found on"))
    likely_variety = variety_field(label=_("Likely variety"))
    variety = variety_field(label=_("Settled: it is"))
    told_winter = line_field(_("Winter it was cut, if told"), 20)
    note = note_field()
    why = why_field()

    @classmethod
    def of(cls, record):
        return says(record, "on", "likely_variety", "variety", "told_winter", "note")


class CorrectGradingForm(BaseForm):
    began_on = DayField(label=_("Begun on"))
    closed_on = DayField(label=_("Finished on"), required=False)
    rejects = PartField(label=_("Rejects, as a part"), required=False)
    rejects_mass = MassField(label=_("Or as a weight, green"), required=False)
    why = why_field()

    @classmethod
    def of(cls, record):
        part = record.rejects_part_ppb
        text = record.rejects_said
        return says(record, "began_on", "closed_on") | {
            "rejects": Reading(part / WHOLE, "part", record.rejects_text) if part else None,
            "rejects_mass": text if record.rejects_mass_kg else None,
        }


class CorrectMakingForm(BaseForm):
    hours = HoursField(label=_("Boiled or steamed"), required=False)
    note = note_field()
    why = why_field()

    @classmethod
    def of(cls, record):
        return says(record, "hours", "note")

    def said(self):
        said = super().said()
        return said | {"hours": said["hours"] and said["hours"].value}
