from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    CountField,
    DayField,
    MassField,
    PartField,
    PickField,
    RecordChoiceField,
    line_field,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TapSelect
from growers.harvest.models import Cut
from growers.harvest.queries import words_of
from growers.science.units import read_part

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


class TieForm(BaseForm):
    """At the bench: the tap on a length ties the bundle, with what else is set."""

    STAYS = ("thickness", "type", "form", "place", "on")
    """What is likely the same for the next bundle."""

    thickness = thickness_field()
    mass = mass_field()
    rods = rods_field()
    how_many = CountField(label=_("How many alike"), initial=1, most=200, likely=(1, 40))
    on = DayField(label=_("Tied on"), initial=_("today"))
    place = place_field(label=_("Put where"))
    butt_mm = butt_field()
    form = form_field()
    type = type_field()
    note = line_field(_("Note"), 300)
    length_class = length_field(label=_("Tap a length each time a bundle is tied"), widget=TapSelect)

    def said(self):
        return butt_in_mm(super().said())

    @property
    def stays(self):
        """What was set for the last bundle and is taken for the next too, in words."""
        bound = {name: self[name] for name in self.STAYS if self.initial.get(name)}
        return ", ".join(str(chosen_words(field)) for field in bound.values())


def chosen_words(bound):
    """What stands in a field, as its choices word it."""
    choices = {str(value): label for value, label in getattr(bound.field, "choices", ())}
    return choices.get(str(bound.value()), bound.value())


class FinishForm(BaseForm):
    how_much = PickField(
        label=_("Rejects"),
        choices=[
            ("hardly any", _("hardly any")),
            ("a tenth", _("a tenth")),
            ("a third", _("a third")),
            ("half", _("half")),
            ("", _("not said, or below")),
        ],
        required=False,
    )
    rejects = PartField(label=_("Or another part"), required=False)
    rejects_mass = MassField(label=_("Or their weight, green"), required=False, likely=(0.2, 1000))
    on = DayField(label=_("Finished on"), initial=_("today"))

    def clean(self):
        said = super().clean()
        if said.get("how_much") and (said.get("rejects") or said.get("rejects_mass")):
            self.add_error("how_much", _("Give the rejects one way only: tap “not said, or below” to give a figure."))
        return said

    def said(self):
        said = super().said()
        word = said.pop("how_much")
        return said | ({"rejects": read_part(word)} if word else {})


class BuyInForm(BaseForm):
    supplier = forms.CharField(label=_("From whom"), max_length=120)
    on = DayField(label=_("Day"), initial=_("today"))
    variety = variety_field()
    length_class = length_field()
    how_many = CountField(label=_("How many alike"), initial=1, most=200, likely=(1, 40))
    type = type_field()
    thickness = thickness_field()
    mass = mass_field()
    rods = rods_field()
    told_winter = line_field(_("Winter it was cut, as told"), 20, help_text=_("Such as 2025/26."))
    place = place_field(label=_("Put where"))
    note = note_field()


class FindForm(BaseForm):
    on = DayField(label=_("Found on"), initial=_("today"))
    likely_variety = variety_field(label=_("Likely variety"))
    length_class = length_field()
    type = type_field()
    thickness = thickness_field()
    mass = mass_field(_("Weight"))
    rods = rods_field(_("Rods"))
    told_winter = line_field(_("Winter it was cut, if told"), 20)
    place = place_field(label=_("Stands where"))
    note = note_field()


class SettleForm(BaseForm):
    variety = variety_field(label=_("It is"), required=True)
    why = line_field(_("How you know"), 100)


class OtherCutForm(BaseForm):
    cut = RecordChoiceField(Cut, label=_("The cut it is really of"))
    why = why_field(_("Why"), required=True)

    def __init__(self, *args, bundle, **kwargs):
        super().__init__(*args, **kwargs)
        field = self.fields["cut"]
        cuts = field.queryset.filter(first_on__lte=bundle.tied_on).exclude(pk=bundle.grading.cut_id)
        field.queryset = cuts.select_related("planting__bed", "planting__variety").order_by("-first_on", "pk")
        field.label_from_instance = words_of
