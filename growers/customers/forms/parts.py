"""Fields that the forms about customers share."""

from django import forms
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.furniture.fields import (
    DayField,
    PickField,
    RecordChoiceField,
)
from growers.furniture.forms import BaseForm
from growers.harvest.models import LengthClass

from ..models import Customer, SaleLine


def day_field(**kwargs):
    return DayField(label=_("Day"), **({"initial": _("today")} | kwargs))


def customers_by_name(holding):
    return Customer.objects.of(holding).order_by("name_key")


def customer_field(**kwargs):
    said = {"label": _("To whom"), "required": False, "empty_label": _("somebody, no name")} | kwargs
    return RecordChoiceField(customers_by_name, **said)


def new_customer_field(**kwargs):
    return forms.CharField(label=_("Or a new customer's name"), required=False, max_length=120, **kwargs)


def varieties_by_name(holding):
    return Variety.objects.of(holding).order_by("name_key")


def lengths_in_order(holding):
    return LengthClass.objects.of(holding).order_by("min_m", "pk")


def variety_field():
    return RecordChoiceField(varieties_by_name, label=_("Variety"), required=False, empty_label=_("any"))


def length_field():
    return RecordChoiceField(lengths_in_order, label=_("Length"), required=False, empty_label=_("any"))


def type_field(**kwargs):
    return PickField(label=_("Type"), **({"choices": Bundle.Type, "initial": Bundle.Type.BROWN} | kwargs))


def state_field(**kwargs):
    return PickField(label=_("Sold as"), choices=SaleLine.State, **kwargs)


class WithCustomer(BaseForm):
    """A customer chosen, or the name of a new one."""

    def clean(self):
        said = super().clean()
        if said.get("customer") and said.get("new_customer"):
            self.add_error("new_customer", _("Choose a customer or write a new name, not both."))
        return said


class NamesCustomer(WithCustomer):
    """Here somebody must be named."""

    def clean(self):
        said = super().clean()
        asked = "customer" in self.fields and not {"customer", "new_customer"} & set(self.errors)
        if asked and not said.get("customer") and not said.get("new_customer"):
            self.add_error("customer", _("Choose a customer, or write a new name."))
        return said
