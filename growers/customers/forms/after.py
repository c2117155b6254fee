"""Complaints, and rods that come back."""

from django import forms
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Place
from growers.furniture.fields import (
    DayField,
    HoursField,
    MuchField,
    PartField,
    PickField,
    RecordChoiceField,
    TemperatureField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm

from ..models import Complaint
from .parts import (
    customer_field,
    day_field,
)


class ComplaintForm(BaseForm):
    customer = customer_field(label=_("Whose"))
    what = PickField(label=_("What was wrong"), choices=Complaint.What)
    water = TemperatureField(
        label=_("How warm their water was"), required=False, help_text=_("As they tell it: a figure or a word.")
    )
    hours = HoursField(label=_("How long they soaked"), required=False, unit="d", help_text=_("5 days, or 12 h"))
    on = day_field()
    note = note_field()

    def __init__(self, *args, line=None, **kwargs):
        super().__init__(*args, **kwargs)
        if line is not None:
            del self.fields["customer"]


class CorrectComplaintForm(ComplaintForm):
    answered_on = DayField(label=_("Answered on"), required=False)
    answer = forms.CharField(label=_("What was answered"), required=False, widget=forms.Textarea(attrs={"rows": 4}))
    why = why_field()

    def clean(self):
        said = super().clean()
        if "answered_on" not in self.errors and bool(said.get("answered_on")) != bool(said.get("answer")):
            self.add_error("answer", _("An answer has its words and its day: give both, or neither."))
        return said


class AnswerForm(BaseForm):
    answer = forms.CharField(
        label=_("What you answer"),
        widget=forms.Textarea(attrs={"rows": 5}),
        error_messages={"required": _("Write what you answered.")},
    )
    on = day_field()


class BringBackForm(BaseForm):
    much = MuchField(
        label=_("How much came back"), initial=_("the rest"), help_text=_("2.3 kg, 40 rods, half, or the rest")
    )
    soaked = forms.BooleanField(label=_("They were soaked meanwhile"), required=False)
    place = RecordChoiceField(Place, label=_("It stands in"), required=False, empty_label=_("not said"))
    on = day_field()
    note = note_field()


class CorrectReturnedForm(BaseForm):
    part = PartField(
        label=_("What part of all that was sold"), required=False, help_text=_("Empty: as it was, %(part)s.")
    )
    on = day_field(initial=None)
    note = note_field()
    why = why_field()

    def __init__(self, *args, was, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["part"].help_text = self.fields["part"].help_text % {"part": was}
