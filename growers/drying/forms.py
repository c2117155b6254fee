from zoneinfo import ZoneInfo

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.bundles.queries import tagged
from growers.furniture.fields import (
    DayField,
    HumidityField,
    MassField,
    MomentField,
    PickField,
    TemperatureField,
    line_field,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.refusals import Refusal
from growers.furniture.writing import typed

from .models import Word
from .queries import likely_mass

HANDFUL_KG = (0.01, 5.0)
STORE_C = (-15.0, 35.0)


class Why(forms.Form):
    """What a form of correction asks besides."""

    why = why_field()


class WeighForm(BaseForm):
    """`bundle` is known from the address, or else from the tag that was typed."""

    mass = MassField(label=gettext_lazy("It weighs"))
    when = MomentField(label=gettext_lazy("When"), initial=gettext_lazy("now"))
    wet = forms.BooleanField(label=gettext_lazy("Wet outside, from rain or dew"), required=False)
    note = note_field()

    def __init__(self, *args, bundle=None, **kwargs):
        super().__init__(*args, **kwargs)
        self.bundle = bundle

    @property
    def on(self):
        return self.cleaned_data["when"].at.astimezone(ZoneInfo(self.holding.zone)).date()

    def clean(self):
        if self.bundle and {"mass", "when"} <= set(self.cleaned_data) and not self.cleaned_data.get("wet"):
            self.fields["mass"].likely = self.likely()
        return self.cleaned_data

    def likely(self):
        """What it should weigh on that day; nothing is asked of a day before it was tied, which is refused anyway."""
        return likely_mass(self.bundle, self.on) if self.on >= self.bundle.tied_on else None

    def said(self):
        said = super().said()
        when = said.pop("when")
        return said | {"on": self.on, "at": when.at if when.exact else None}


class WeighByTagForm(WeighForm):
    tag = forms.CharField(
        label=gettext_lazy("Tag"),
        widget=forms.TextInput(attrs={"inputmode": "numeric", "autocomplete": "off"}),
        error_messages={"required": gettext_lazy("Type the figures on its tag.")},
    )
    field_order = ("tag", "mass", "when", "wet", "note")

    def clean_tag(self):
        try:
            self.bundle = tagged(self.holding, self.cleaned_data["tag"])
        except Refusal as refusal:
            raise ValidationError(refusal.sentence) from refusal
        return self.cleaned_data["tag"]

    def said(self):
        said = super().said()
        del said["tag"]
        return said | {"bundle": self.bundle}


class CorrectWeighingForm(WeighForm, Why):
    field_order = ("mass", "when", "wet", "note", "why")

    @staticmethod
    def of(weighing):
        when = weighing.at or date_format(weighing.on, "j M Y")
        return {
            "mass": typed(weighing.mass_text, weighing.mass_unit),
            "when": when,
            "wet": weighing.wet,
            "note": weighing.note,
        }

    def likely(self):
        return None


class AirForm(BaseForm):
    temperature = TemperatureField(label=gettext_lazy("Temperature"), words=False, likely=STORE_C)
    humidity = HumidityField(label=gettext_lazy("Dampness of the air"), likely=(0.2, 1.0))
    at = MomentField(label=gettext_lazy("When"), initial=gettext_lazy("now"))

    def said(self):
        said = super().said()
        return said | {"at": said["at"].middle}


class CorrectAirForm(AirForm, Why):
    field_order = ("temperature", "humidity", "at", "why")

    @staticmethod
    def of(reading):
        return {"temperature": reading.temperature_c, "humidity": reading.humidity, "at": reading.at}


class AirFileForm(BaseForm):
    file = forms.FileField(
        label=gettext_lazy("The logger's file"),
        help_text=gettext_lazy(
            "A CSV whose first line is datetime,temp_c,rh_pct and whose rows are like 2026-01-31 14:00,4.5,87. "
            "Times are those of your clock, unless they say otherwise."
        ),
        error_messages={
            "required": gettext_lazy("Choose the logger's file."),
            "empty": gettext_lazy("That file is empty."),
        },
    )

    def said(self):
        return super().said() | {"now": self.now}


class OvenForm(BaseForm):
    wet_g = MassField(label=gettext_lazy("The rods before the oven"), unit="g", likely=HANDFUL_KG)
    dry_g = MassField(label=gettext_lazy("The same rods after it"), unit="g", likely=HANDFUL_KG)
    on = DayField(label=gettext_lazy("Day they went in"), initial=gettext_lazy("today"))
    note = note_field()

    def clean(self):
        wet, dry = self.cleaned_data.get("wet_g"), self.cleaned_data.get("dry_g")
        if wet and dry:
            if dry.value > wet.value:
                self.add_error(
                    "dry_g", _("Rods weigh no more after the oven than before it. Are the two the wrong way round?")
                )
            elif wet.value > 2.6 * dry.value:
                self.question("dry_g", _("They lost more water than green rods hold. Are both weights right?"))
            elif wet.value < 1.04 * dry.value:
                self.question(
                    "dry_g", _("They lost next to nothing, drier than any store makes them. Are both weights right?")
                )
        return self.cleaned_data


class CorrectOvenForm(OvenForm, Why):
    field_order = ("wet_g", "dry_g", "on", "note", "why")

    @staticmethod
    def of(test):
        wet, _slash, dry = test.typed.partition(" / ")
        grams = {"wet_g": wet, "dry_g": dry} if dry else {"wet_g": test.wet_g / 1000, "dry_g": test.dry_g / 1000}
        return grams | {"on": test.on, "note": test.note}


class MoistureField(HumidityField):
    """What a moisture meter shows."""

    def to_python(self, value):
        try:
            return super().to_python(value)
        except ValidationError:
            raise ValidationError(_("Write what the meter shows, in per cent: such as 18 %.")) from None


class MeterForm(BaseForm):
    moisture = MoistureField(
        label=gettext_lazy("The meter shows"),
        error_messages={"required": gettext_lazy("Write what the meter shows, in per cent: such as 18 %.")},
        likely=(0.05, 1.0),
    )
    meter = line_field(gettext_lazy("Which meter, and where on the rod"), 80)
    on = DayField(label=gettext_lazy("Day"), initial=gettext_lazy("today"))


class CorrectMeterForm(MeterForm, Why):
    field_order = ("moisture", "meter", "on", "why")

    @staticmethod
    def of(reading):
        return {"moisture": reading.typed or reading.moisture, "meter": reading.meter, "on": reading.on}


class WordForm(BaseForm):
    says = PickField(label=gettext_lazy("What you say"), choices=Word.Says)
    how = PickField(
        label=gettext_lazy("How you know it is dry"),
        choices=Word.How,
        required=False,
    )
    on = DayField(label=gettext_lazy("Day"), initial=gettext_lazy("today"))
    note = note_field()


class CorrectWordForm(WordForm, Why):
    field_order = ("says", "how", "on", "note", "why")

    @staticmethod
    def of(word):
        return {"says": word.says, "how": word.how, "on": word.on, "note": word.note}
