from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    DayField,
    HoursField,
    PickField,
    RecordChoiceField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TapSelect, TileSelect

from ..models import GoneOver, Redamp, Steam, Tank
from .parts import (
    InstantField,
)

PURPOSES = [("", Steam.Purpose.UNSAID.label), *((value, label) for value, label in Steam.Purpose.choices if value)]
FOUND = [("", GoneOver.What.UNSAID.label), *((value, label) for value, label in GoneOver.What.choices if value)]


class SteamForm(BaseForm):
    purpose = PickField(label=_("What for"), choices=PURPOSES, required=False)
    minutes = HoursField(
        label=_("How many minutes"), unit="min", required=False, likely=(0.1, 3), help_text=_("Or “1 h”.")
    )
    at = InstantField()
    note = note_field()


class CorrectSteamForm(SteamForm):
    why = why_field()


class RedampForm(BaseForm):
    """How rods that had dried out were made damp again; the tank only where they went into one."""

    how = PickField(label=_("How they were damped again"), choices=Redamp.How.choices)
    tank = RecordChoiceField(
        Tank, label=_("In which tank"), required=False, widget=TileSelect, empty_label=_("in none")
    )
    at = InstantField(label=_("From when"))
    hours = HoursField(
        label=_("For how long"), required=False, likely=(0.02, 72), help_text=_("Such as “2 h”; empty if not known.")
    )
    note = note_field()


class CorrectRedampForm(RedampForm):
    why = why_field()


class GoneOverForm(BaseForm):
    """One tap keeps it."""

    one_of_several = ("what",)

    on = DayField(label=_("Found on"), initial=_("today"))
    note = note_field()
    what = PickField(label=_("What is wrong with them"), choices=FOUND, widget=TapSelect, required=False)


class CorrectGoneOverForm(BaseForm):
    on = DayField(label=_("Found on"))
    what = PickField(label=_("What was wrong with them"), choices=FOUND, required=False)
    note = note_field()
    why = why_field()
