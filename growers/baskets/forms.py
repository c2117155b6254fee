from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.bundles.models import Bundle
from growers.bundles.queries import tagged
from growers.furniture.fields import (
    CountField,
    DayField,
    MuchField,
    PickField,
    RecordChoiceField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.refusals import Refusal
from growers.furniture.widgets import TapSelect, Typed
from growers.harvest.models import LengthClass
from growers.soaking.models import Batch
from growers.soaking.queries import lifted_rods

from . import queries
from .models import StayedTight


class PartOfBasketField(forms.CharField):
    """What the rods are in the basket, with the parts of its pattern, or else the usual words, to tap."""

    usual = (
        gettext_lazy("base"),
        gettext_lazy("stakes"),
        gettext_lazy("weavers"),
        gettext_lazy("waling"),
        gettext_lazy("border"),
        gettext_lazy("handle"),
    )

    def __init__(self):
        super().__init__(label=gettext_lazy("As what"), required=False, max_length=60, widget=Typed())
        self.chips = self.usual

    def of(self, pattern):
        parts = queries.parts_of(pattern)
        if parts:
            self.chips = tuple(part.name for part in parts)
            self.help_text = _("A part of “%(pattern)s”, or a word of your own.") % {"pattern": pattern}


def much_field(**kwargs):
    return MuchField(label=gettext_lazy("How much"), initial=gettext_lazy("the rest"), **kwargs)


class PatternForm(BaseForm):
    name = forms.CharField(label=gettext_lazy("Name"), max_length=120)
    note = note_field()


class CorrectPatternForm(PatternForm):
    why = why_field()


class PartForm(BaseForm):
    name = forms.CharField(
        label=gettext_lazy("Which part"), max_length=60, widget=Typed(), help_text=gettext_lazy("Such as stakes.")
    )
    rods = CountField(label=gettext_lazy("Rods for one basket"), required=False, likely=(1, 300))
    length_class = RecordChoiceField(
        LengthClass, label=gettext_lazy("Length"), required=False, empty_label=gettext_lazy("any")
    )
    thickness = PickField(
        label=gettext_lazy("Thickness"),
        choices=[("", gettext_lazy("any")), *Bundle.Thickness.choices[1:]],
        required=False,
    )


class CorrectPartForm(PartForm):
    why = why_field()


class BasketForm(BaseForm):
    name = forms.CharField(label=gettext_lazy("What it is"), max_length=120)
    made_on = DayField(label=gettext_lazy("Finished"), initial=gettext_lazy("today"))
    pattern = RecordChoiceField(
        queries.patterns_of, label=gettext_lazy("Pattern"), required=False, empty_label=gettext_lazy("none")
    )
    note = note_field()


class CorrectBasketForm(BasketForm):
    why = why_field()


class UseForm(BaseForm):
    """Soaked rods into this basket."""

    batch = RecordChoiceField(Batch, label=gettext_lazy("Rods out of the water"))
    much = much_field(help_text=gettext_lazy("A part is of what is out and unused."))
    part_of_basket = PartOfBasketField()

    def __init__(self, *args, basket, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["part_of_basket"].of(basket.pattern)
        rods = lifted_rods(self.holding)
        names = {each.batch.pk: f"{each.name}, {each.bundle.tag_shown}" for each in rods}
        field = self.fields["batch"]
        field.queryset = field.queryset.filter(pk__in=names)
        field.label_from_instance = lambda batch: names[batch.pk]
        if len(rods) == 1:
            field.initial = rods[0].batch.uid


class UseUnsoakedForm(BaseForm):
    """Rods worked without soaking, straight out of a bundle."""

    bundle = forms.CharField(label=gettext_lazy("The bundle's tag"), widget=Typed(attrs={"inputmode": "numeric"}))
    much = much_field()
    part_of_basket = PartOfBasketField()

    def __init__(self, *args, basket, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["part_of_basket"].of(basket.pattern)

    def clean_bundle(self):
        try:
            return tagged(self.holding, self.cleaned_data["bundle"])
        except Refusal as refusal:
            raise ValidationError(refusal.sentence) from refusal


class UseBatchForm(BaseForm):
    """Rods of this batch into a basket, which may be new to the book."""

    much = much_field(help_text=gettext_lazy("A part is of what is out and unused."))
    basket = RecordChoiceField(
        queries.baskets_of, label=gettext_lazy("Which basket"), required=False, empty_label=gettext_lazy("a new one")
    )
    new_basket = forms.CharField(label=gettext_lazy("The new basket"), required=False, max_length=120)
    made_on = DayField(label=gettext_lazy("Finished"), initial=gettext_lazy("today"), required=False)
    part_of_basket = PartOfBasketField()

    def clean_made_on(self):
        return self.cleaned_data["made_on"] or self.today


class CorrectUsedForm(BaseForm):
    much = MuchField(label=gettext_lazy("How much"))
    part_of_basket = PartOfBasketField()
    why = why_field()

    def __init__(self, *args, pattern, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["part_of_basket"].of(pattern)

    def said(self):
        # What was not touched stays exactly what it was.
        said = super().said()
        return said if "much" in self.changed_data else said | {"much": None}


class TightForm(BaseForm):
    """One tap keeps it."""

    on = DayField(label=gettext_lazy("Looked at"), initial=gettext_lazy("today"))
    note = note_field()
    result = PickField(label=gettext_lazy("Has it stayed tight?"), choices=StayedTight.Result.choices, widget=TapSelect)


class CorrectTightForm(BaseForm):
    on = DayField(label=gettext_lazy("Looked at"))
    result = PickField(label=gettext_lazy("Had it stayed tight?"), choices=StayedTight.Result.choices)
    note = note_field()
    why = why_field()
