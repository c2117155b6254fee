from zoneinfo import ZoneInfo

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.furniture.fields import (
    CountField,
    MuchField,
    PickField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TapSelect
from growers.stock.queries import standing_promises

from .. import queries
from ..models import BenchResult, BendCheck
from .parts import (
    InstantField,
    WaterField,
    moment_field,
    tank_field,
)


class IntoWater(BaseForm):
    """Rods of one bundle that go, or went, into a tank."""

    much = MuchField(label=gettext_lazy("How much"), initial=gettext_lazy("the rest"))
    tank = tank_field()
    all_under = forms.BooleanField(label=gettext_lazy("All of it under the water"), required=False, initial=True)
    water = WaterField(label=gettext_lazy("The water"), required=False)
    promised_too = forms.BooleanField(label=gettext_lazy("Take it even if it is promised"), required=False)
    note = note_field()

    def __init__(self, *args, bundle, **kwargs):
        self.bundle = bundle
        super().__init__(*args, **kwargs)
        if not standing_promises(bundle):
            del self.fields["promised_too"]
        tanks = self.fields["tank"].queryset.order_by("name_key")
        self.fields["tank"].queryset = tanks
        if tanks.count() == 1:
            self.fields["tank"].initial = tanks.get().uid

    def clean(self):
        super().clean()
        if tank := self.cleaned_data.get("tank"):
            for field, sentence in queries.doubts_of_putting_in(self.bundle, tank, self.goes_in_now(), self.today):
                self.question(field, sentence)

    def goes_in_now(self):
        """How much of the tank's room it wants now, beside what is in it; nothing of a soak that is over."""
        return


class PutInForm(IntoWater):
    moment = moment_field()
    field_order = ["much", "tank", "moment", "water", "all_under", "promised_too", "note"]

    def goes_in_now(self):
        return self.cleaned_data.get("much")


class WholeSoakForm(IntoWater):
    """The lazy record, and a whole one: in, out, and how it was at the bench."""

    went_in = moment_field(gettext_lazy("Went in"), initial="")
    came_out = moment_field(gettext_lazy("Came out"), initial="")
    result = PickField(label=gettext_lazy("At the bench"), choices=BenchResult.Result.choices)
    field_order = ["much", "tank", "went_in", "came_out", "result", "water", "all_under", "promised_too", "note"]


class CorrectBatchForm(BaseForm):
    tank = tank_field()
    moment = moment_field()
    all_under = forms.BooleanField(label=gettext_lazy("All of it under the water"), required=False)
    soaked_before = forms.BooleanField(label=gettext_lazy("Soaked once before"), required=False)
    note = note_field()
    why = why_field()


class CheckForm(BaseForm):
    """One tap keeps it."""

    at = InstantField()
    rods_tried = CountField(label=gettext_lazy("Rods tried"), required=False, likely=(1, 30))
    note = note_field()
    result = PickField(
        label=gettext_lazy("The thick end, bent through 90 degrees"),
        choices=BendCheck.Result.choices,
        widget=TapSelect,
    )

    def __init__(self, *args, batch, by, **kwargs):
        self.batch, self.by = batch, by
        super().__init__(*args, **kwargs)

    def clean(self):
        super().clean()
        at, result = self.cleaned_data.get("at"), self.cleaned_data.get("result")
        if not (at and result):
            return
        same = queries.same_check_by_another(self.batch, at=at, result=result, by=self.by)
        if same:
            at = date_format(same.at.astimezone(ZoneInfo(self.holding.zone)), "G:i")
            words = {"who": same.made_by, "result": same.get_result_display(), "at": at}
            self.question("result", _("%(who)s wrote “%(result)s” at %(at)s. Is this another look?") % words)


class CorrectCheckForm(BaseForm):
    at = InstantField()
    result = PickField(label=gettext_lazy("The thick end bent"), choices=BendCheck.Result.choices)
    rods_tried = CountField(label=gettext_lazy("Rods tried"), required=False, likely=(1, 30))
    note = note_field()
    why = why_field()
