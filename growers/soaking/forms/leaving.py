from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle, Place
from growers.furniture.fields import (
    CountField,
    DayField,
    MassField,
    PartField,
    PickField,
    RecordChoiceField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.harvest.models import LengthClass

from .parts import (
    Corrects,
    WordsField,
)

THICKNESSES = [("", _("as before")), *Bundle.Thickness.choices[1:]]
CAUSES = (_("slimy"), _("black spots"), _("brittle"), _("mould"))


def part_field():
    return PartField(label=_("How much of what is out of the water"), initial=_("all"), required=False)


def day_field():
    return DayField(label=_("Day"), initial=_("today"))


class DryAgainForm(BaseForm):
    part = part_field()
    on = day_field()
    length_class = RecordChoiceField(LengthClass, label=_("Length"), required=False, empty_label=_("as before"))
    thickness = PickField(
        label=_("Thickness"), choices=[("", _("as before")), *Bundle.Thickness.choices[1:]], required=False
    )
    mass = MassField(label=_("It weighs"), required=False, likely=(0.1, 30))
    rods = CountField(label=_("Rods in it"), required=False, likely=(5, 2000))
    place = RecordChoiceField(Place, label=_("It stands in"), required=False, empty_label=_("not said"))
    note = note_field()


class SpoilForm(BaseForm):
    part = part_field()
    cause = WordsField(label=_("What is wrong with them"), max_length=120, chips=CAUSES)
    on = day_field()


class CorrectDriedAgainForm(Corrects):
    part = PartField(label=_("What part of all that went in"))
    on = DayField(label=_("Day"))
    why = why_field()


class CorrectSpoiledForm(Corrects):
    part = PartField(label=_("What part of all that went in"))
    cause = WordsField(label=_("What was wrong with them"), max_length=120, chips=CAUSES)
    on = DayField(label=_("Day"))
    why = why_field()
