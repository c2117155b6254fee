from django import forms
from django.utils.translation import gettext as said_now
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    DayField,
    LengthField,
    MassField,
    MoneyField,
    MuchField,
    PickField,
    RecordChoiceField,
    TemperatureField,
)
from growers.furniture.forms import BaseForm, Look
from growers.stock.models import Promise
from growers.stock.queries import standing_promises

from .models import Customer, SaleLine
from .queries import said_of


def note_field():
    return forms.CharField(label=_("Note"), required=False, widget=forms.Textarea(attrs={"rows": 2}))


def why_field():
    return forms.CharField(label=_("Why it is corrected"), required=False, max_length=100)


def customers_by_name(holding):
    return Customer.objects.of(holding).order_by("name_key")


def customer_field():
    return RecordChoiceField(customers_by_name, label=_("To whom"), required=False, empty_label=_("somebody, no name"))


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


class SellForm(BaseForm):
    customer = customer_field()
    new_customer = forms.CharField(label=_("Or a new customer's name"), required=False, max_length=120)
    much = MuchField(label=_("How much"), help_text=_("2.3 kg, 40 rods, half, or the rest"))
    left_weighs = MassField(
        label=_("What is left weighs"), required=False, help_text=_("Weighed too, it saves the book a guess.")
    )
    price = MoneyField(label=_("Price of it all"), required=False)
    state_said = PickField(label=_("Sold as"), choices=SaleLine.State, initial=SaleLine.State.DRY)
    on = DayField(label=_("Day"), initial=_("today"))
    promise = RecordChoiceField(Promise, label=_("This keeps a promise"), required=False, empty_label=_("none"))
    promised_too = forms.BooleanField(label=_("Sell it even if it is promised"), required=False)
    note = note_field()

    def __init__(self, *args, bundle, sale=None, **kwargs):
        self.bundle = bundle
        super().__init__(*args, **kwargs)
        promises = standing_promises(bundle)
        self.fields["promise"].queryset = promises
        if not promises:
            del self.fields["promise"], self.fields["promised_too"]
        if sale is not None:
            del self.fields["customer"], self.fields["new_customer"], self.fields["on"]

    def clean(self):
        said = super().clean()
        if said.get("customer") and said.get("new_customer"):
            self.add_error("new_customer", _("Choose a customer or write a new name, not both."))
        if said.get("state_said") == SaleLine.State.DRY:
            self.ask_if_dry(said.get("on") or self.today)
        if self.bundle.soaked_before:
            self.question(
                "much", _("These rods were soaked before and dried again: for own work only, by custom. Sell them?")
            )
        return said

    def ask_if_dry(self, on):
        known = said_of(self.bundle, on)
        if not known.counts_as_dry:
            words = {"answer": known.answer_word, "how": known.how_known}
            self.question("state_said", said_now("The book says of it: %(answer)s (%(how)s). Sell it as dry?") % words)


class CorrectSaleForm(BaseForm):
    customer = customer_field()
    on = DayField(label=_("Day"))
    note = note_field()
    why = why_field()


class CorrectSaleLineForm(BaseForm):
    price = MoneyField(label=_("Price of it all"), required=False)
    state_said = PickField(label=_("Sold as"), choices=SaleLine.State)
    why = why_field()


class ShareForm(BaseForm):
    expires_on = DayField(label=_("Until"), required=False, future=True, help_text=_("Empty: until you withdraw it."))


class WithdrawForm(BaseForm):
    """Nothing to say: the button is all."""


class AskForm(Look, forms.Form):
    """What a reader of a sheet may ask: for rods of what length, in water how warm."""

    length = LengthField(label=_("Length of your rods"), required=False)
    water = TemperatureField(label=_("Your water"), required=False)

    def __init__(self, *args, reader, **kwargs):
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.bind(holding=reader, today=None, now=None)
