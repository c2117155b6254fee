from django import forms
from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from growers.furniture.dates import write_day
from growers.furniture.fields import DayField, MassField, PartField, PickField
from growers.furniture.forms import BaseForm
from growers.furniture.writing import write

from ..actions.scales import weights_between

WAYS = [("light", gettext_lazy("light: it showed too little")), ("heavy", gettext_lazy("heavy: it showed too much"))]


class ScaleForm(BaseForm):
    """A scale found to read wrong: by how much, either as a part or by a weight that is known."""

    one_of_several = ("way", "part", "known", "showed")

    from_on = DayField(label=gettext_lazy("First day it read wrong"))
    to_on = DayField(label=gettext_lazy("Last day it read wrong"), initial=gettext_lazy("today"))
    way = PickField(label=gettext_lazy("It read"), choices=WAYS, required=False)
    part = PartField(label=gettext_lazy("By how much"), required=False, unit="%", help_text=gettext_lazy("such as 4 %"))
    known = MassField(
        label=gettext_lazy("Or: a weight that is known"),
        required=False,
        help_text=gettext_lazy("such as a 5 kg weight"),
    )
    showed = MassField(label=gettext_lazy("The scale showed for it"), required=False)
    why = forms.CharField(
        label=gettext_lazy("How it was found out"),
        max_length=200,
        error_messages={"required": gettext_lazy("Write in a few words how it was found out.")},
    )

    def clean(self):
        said = super().clean()
        if self.errors:
            return said
        if said["to_on"] < said["from_on"]:
            self.add_error("to_on", _("The span ends before it begins."))
            return said
        self.factor = self.factor_said(said)
        if self.factor is not None:
            self.show_what_changes(said)
        return said

    def factor_said(self, said):
        """What the weights are to be multiplied by; None with the error beside its field."""
        if said["known"] and said["showed"]:
            return said["known"].value / said["showed"].value
        if said["known"] or said["showed"]:
            self.add_error("showed" if said["known"] else "known", _("Give both weights, or neither."))
        elif not said["part"]:
            self.add_error("part", _("Say by how much it was wrong, or give a known weight below."))
        elif not said["way"]:
            self.add_error("way", _("Tap whether it read light or heavy."))
        elif said["way"] == "light" and said["part"].value >= 1:
            self.add_error("part", _("A scale that reads all of it too light shows nothing."))
        else:
            # A scale 4 % light shows 96 for every 100 there are.
            return 1 / (1 - said["part"].value) if said["way"] == "light" else 1 / (1 + said["part"].value)
        return None

    def show_what_changes(self, said):
        unit = self.holding.mass_unit
        self.changes = [
            (row, write("mass", getattr(row, mass), unit), write("mass", getattr(row, mass) * self.factor, unit))
            for row, mass, _scale in weights_between(self.holding, said["from_on"], said["to_on"])
        ]
        if self.changes:
            sentence = ngettext(
                "This makes %(n)d weight %(factor)s times what was read, from %(first)s to %(last)s.",
                "This makes %(n)d weights %(factor)s times what was read, from %(first)s to %(last)s.",
                len(self.changes),
            )
            words = {"factor": number_format(round(self.factor, 4)), "n": len(self.changes)}
            words |= {"first": write_day(said["from_on"]), "last": write_day(said["to_on"])}
            self.question(None, sentence % words)

    def said(self):
        said = super().said()
        return {"from_on": said["from_on"], "to_on": said["to_on"], "why": said["why"], "factor": self.factor}
