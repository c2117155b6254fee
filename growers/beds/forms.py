from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    CountField,
    DayField,
    PickField,
    RecordChoiceField,
    YearField,
    line_field,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm

from .models import Bed, HealthNote, Variety


class CorrectionForm(BaseForm):
    """A form that stands filled in with what a record says now."""

    why = why_field()

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.order_fields([name for name in self.fields if name != "why"])

    @classmethod
    def of(cls, record):
        """What a record says, by field."""
        return {name: getattr(record, name) for name in cls.base_fields if hasattr(record, name)}


class VarietyForm(BaseForm):
    name = forms.CharField(label=_("Name"), max_length=120)
    species = line_field(_("Species"), 120, help_text=_("Such as Salix triandra."))
    opinion = note_field(
        _("What it is like"), help_text=_("Your own opinion, for your customers: butts, side shoots, borders, colour.")
    )
    note = note_field(_("Note, for yourself"))


class CorrectVarietyForm(CorrectionForm, VarietyForm):
    pass


class BedForm(BaseForm):
    name = forms.CharField(label=_("Name"), max_length=120)
    area_m2 = CountField(label=_("Area in square metres"), required=False, likely=(1, 20_000))
    note = note_field()


class CorrectBedForm(CorrectionForm, BedForm):
    pass


class PlantForm(BaseForm):
    one_of_several = ("variety", "new_variety", "planted_year", "planted_on")

    variety = RecordChoiceField(
        Variety, label=_("Variety"), required=False, narrowed=lambda found: found.order_by("name_key")
    )
    new_variety = line_field(_("Or a variety new to the book"), 120)
    planted_year = YearField(label=_("Year planted"), required=False)
    planted_on = DayField(label=_("Or the very day"), required=False)
    rows = line_field(_("Rows"), 60, help_text=_("Such as “1 to 6” or “the wet end”."))
    stools = CountField(label=_("Stools"), required=False, likely=(5, 20_000))
    note = note_field()


class CorrectPlantingForm(CorrectionForm):
    bed = RecordChoiceField(Bed, label=_("Bed"))
    variety = RecordChoiceField(Variety, label=_("Variety"))
    planted_year = YearField(label=_("Year planted"))
    planted_on = DayField(label=_("The very day"), required=False)
    grubbed_on = DayField(label=_("Grubbed out on"), required=False)
    rows = line_field(_("Rows"), 60)
    stools = CountField(label=_("Stools"), required=False, likely=(5, 20_000))
    note = note_field()

    @classmethod
    def of(cls, record):
        return super().of(record) | {"bed": record.bed.uid, "variety": record.variety.uid}


class GrubOutForm(BaseForm):
    on = DayField(label=_("Grubbed out on"), initial=_("today"))


class GapUpForm(BaseForm):
    on = DayField(label=_("Day"), initial=_("today"))
    stools = CountField(label=_("Stools replaced"))


class CorrectGapUpForm(CorrectionForm, GapUpForm):
    pass


class HealthNoteForm(BaseForm):
    what = PickField(label=_("What was seen"), choices=HealthNote.What)
    how_bad = PickField(label=_("How bad"), choices=HealthNote.HowBad, initial=HealthNote.HowBad.SOME)
    on = DayField(label=_("Day"), initial=_("today"))
    note = note_field()


class CorrectHealthNoteForm(CorrectionForm, HealthNoteForm):
    pass
