"""Fields and habits that the forms about one bundle share."""

from django import forms
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Place
from growers.furniture.fields import (
    DayField,
    MassField,
    MuchField,
    RecordChoiceField,
)
from growers.furniture.forms import BaseForm

from ..models import Promise
from ..queries import standing_promises


def day_field():
    return DayField(label=_("Day"), initial=_("today"))


def much_field(**kwargs):
    kwargs.setdefault("help_text", _("2.3 kg, 40 rods, half, or the rest"))
    return MuchField(label=_("How much"), **kwargs)


def left_weighs_field():
    return MassField(
        label=_("What is left weighs"), required=False, help_text=_("Weighed too, it saves the book a guess.")
    )


def place_field():
    return RecordChoiceField(Place, label=_("It stands in"), required=False, empty_label=_("not said"))


def promise_field():
    return RecordChoiceField(Promise, label=_("This keeps a promise"), required=False, empty_label=_("none"))


def promised_too_field():
    return forms.BooleanField(label=_("Take it even if it is promised"), required=False)


class OfBundle(BaseForm):
    """A form about one bundle; it asks about promises only where some stand on the bundle."""

    def __init__(self, *args, bundle, **kwargs):
        self.bundle = bundle
        super().__init__(*args, **kwargs)
        promises = standing_promises(bundle)
        if "promise" in self.fields:
            self.fields["promise"].queryset = promises
        if not promises:
            self.fields.pop("promise", None)
            self.fields.pop("promised_too", None)
