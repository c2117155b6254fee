from django import forms
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import note_field, why_field
from growers.furniture.forms import BaseForm


class CustomerForm(BaseForm):
    name = forms.CharField(label=_("Name"), max_length=120, error_messages={"required": _("Write the name.")})
    contact = forms.CharField(
        label=_("How to reach them"),
        required=False,
        max_length=200,
        help_text=_("Telephone, mail, village: what you need."),
    )
    note = note_field()


class CorrectCustomerForm(CustomerForm):
    why = why_field()
