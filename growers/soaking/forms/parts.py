"""Fields and habits that the forms of the tank share."""

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.furniture.dates import tidy
from growers.furniture.fields import (
    MomentField,
    RecordChoiceField,
    TemperatureField,
)
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TileSelect, Typed

from ..models import Tank
from ..rules import LIKE_LAST_TIME


class WaterField(TemperatureField):
    """The water as a number, a word, or “like last time”."""

    def __init__(self, **kwargs):
        kwargs.setdefault("likely", (0, 40))
        super().__init__(widget=Typed(kind="water", keys=self.keys), **kwargs)
        self.chips = (gettext_lazy("like last time"), *self.chips)

    def to_python(self, value):
        same = {tidy(_("like last time")), tidy(_("as last time")), tidy(_("same as last time"))}
        if value == LIKE_LAST_TIME or (isinstance(value, str) and tidy(value) in same):
            return LIKE_LAST_TIME
        return super().to_python(value)

    def echo(self, value):
        return _("like last time") if value == LIKE_LAST_TIME else super().echo(value)

    def doubt(self, value):
        return None if value == LIKE_LAST_TIME else super().doubt(value)


class WordsField(forms.CharField):
    """A few words, with the usual ones to tap."""

    def __init__(self, *, chips=(), **kwargs):
        super().__init__(widget=Typed(), **kwargs)
        self.chips = chips


class InstantField(MomentField):
    """When something was seen: one instant, the middle of what was said. Nothing said is now."""

    def __init__(self, **kwargs):
        kwargs.setdefault("label", gettext_lazy("When"))
        kwargs.setdefault("initial", gettext_lazy("now"))
        super().__init__(required=False, **kwargs)

    def clean(self, value):
        moment = super().clean(value)
        return getattr(moment, "middle", moment) or self.now


def tank_field(**kwargs):
    return RecordChoiceField(Tank, label=gettext_lazy("Which tank"), widget=TileSelect, empty_label=None, **kwargs)


def moment_field(label=None, **kwargs):
    kwargs.setdefault("initial", gettext_lazy("now"))
    return MomentField(label=label or gettext_lazy("When"), **kwargs)


class Corrects(BaseForm):
    """Corrects a record: a part that was not touched stays exactly what it was."""

    def said(self):
        said = super().said()
        if "part" in said and "part" not in self.changed_data:
            said["part"] = None
        return said
