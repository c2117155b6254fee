from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    DayField,
    PickField,
    RecordsChoiceField,
    note_field,
)
from growers.furniture.forms import BaseForm

from ..models import Bundle, Place
from ..queries import labels_of
from .fields import (
    place_field,
)

MOST_SHOWN = 200


class BundlesForm(BaseForm):
    """Several bundles are chosen from those that the page was narrowed to."""

    bundles = RecordsChoiceField(Bundle, label=_("Bundles"))

    def __init__(self, *args, found, chosen=(), all_chosen=False, **kwargs):
        super().__init__(*args, **kwargs)
        shown = list(found[:MOST_SHOWN])
        self.initial["bundles"] = [str(bundle.uid) for bundle in shown] if all_chosen else list(chosen)
        labels = labels_of(shown)
        field = self.fields["bundles"]
        field.queryset = found.filter(pk__in=labels)
        field.label_from_instance = lambda bundle: labels[bundle.pk]


class PlaceForm(BaseForm):
    name = forms.CharField(label=_("Name"), max_length=120)
    cover = PickField(label=_("What it is"), choices=Place.Cover, initial=Place.Cover.SHED)
    note = note_field()


class MoveForm(BundlesForm):
    place = place_field(label=_("Where to"), required=True)
    on = DayField(label=_("Day"), initial=_("today"))


class StackUpForm(BundlesForm):
    name = forms.CharField(label=_("What you call the stack"), max_length=120)
    on = DayField(label=_("Stacked on"), initial=_("today"))

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["telltales"] = RecordsChoiceField(Bundle, label=_("Tell-tales, tied red"), required=False)
        field, bundles = self.fields["telltales"], self.fields["bundles"]
        field.help_text = _("The longest, stoutest and innermost: it is weighed for all. One or two do.")
        field.bind(holding=self.holding, today=self.today, now=self.now)
        field.queryset, field.label_from_instance = bundles.queryset, bundles.label_from_instance
        self.order_fields(["bundles", "telltales"])

    def clean(self):
        said = super().clean()
        chosen, telltales = set(said.get("bundles") or ()), set(said.get("telltales") or ())
        if telltales - chosen:
            self.add_error("telltales", _("A tell-tale is one of the stack's own bundles: tap it above too."))
        return said


class TelltaleForm(BaseForm):
    """Nothing is asked: the button says it."""


class LeaveStackForm(BaseForm):
    """Nothing is asked: the button says it."""
