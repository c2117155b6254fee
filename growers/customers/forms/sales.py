from django import forms
from django.utils.translation import gettext as said_now
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of, labels_of
from growers.furniture.fields import (
    MassField,
    MoneyField,
    MuchField,
    RecordChoiceField,
    RecordsChoiceField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.stock.models import Promise
from growers.stock.queries import standing_promises

from ..models import OrderLine, SaleLine
from ..queries import lines_for_bundle, said_of, standing_lines
from .parts import (
    WithCustomer,
    customer_field,
    day_field,
    new_customer_field,
    state_field,
)


def order_line_field():
    return RecordChoiceField(OrderLine, label=_("This goes towards an order"), required=False, empty_label=_("none"))


def offer(field, lines):
    """Let one of these lines of orders be chosen, each by whose it is."""
    field.queryset = field.queryset.filter(pk__in=[line.pk for line in lines]).select_related(
        "order__customer", "variety", "length_class"
    )
    field.label_from_instance = lambda line: f"{line.order.customer}: {line}"


def tick_dry(form, bundles):
    """“Dry” is ticked beforehand where the book counts every bundle as that, whatever an order wants."""
    if all(said_of(bundle, form.today).counts_as_dry for bundle in bundles):
        form.initial.setdefault("state_said", SaleLine.State.DRY)
    elif form.initial.get("state_said") == SaleLine.State.DRY:
        del form.initial["state_said"]


class SellForm(WithCustomer):
    customer = customer_field()
    new_customer = new_customer_field()
    much = MuchField(label=_("How much"), help_text=_("2.3 kg, 40 rods, half, or the rest"))
    left_weighs = MassField(
        label=_("What is left weighs"), required=False, help_text=_("Weighed too, it saves the book a guess.")
    )
    price = MoneyField(label=_("Price of it all"), required=False)
    state_said = state_field()
    on = day_field()
    order_line = order_line_field()
    promise = RecordChoiceField(Promise, label=_("This keeps a promise"), required=False, empty_label=_("none"))
    promised_too = forms.BooleanField(label=_("Sell it even if it is promised"), required=False)
    note = note_field()

    def __init__(self, *args, bundle, sale=None, order_line=None, **kwargs):
        self.bundle = bundle
        super().__init__(*args, **kwargs)
        tick_dry(self, [bundle])
        promises = standing_promises(bundle)
        self.fields["promise"].queryset = promises
        if not promises:
            del self.fields["promise"], self.fields["promised_too"]
        if sale is not None:
            del self.fields["customer"], self.fields["new_customer"], self.fields["on"]
        self.offer_orders(sale, order_line)

    def offer_orders(self, sale, order_line):
        if order_line is not None:
            del self.fields["order_line"], self.fields["customer"], self.fields["new_customer"]
            return
        lines = lines_for_bundle(self.bundle, ancestry_of([self.bundle])[self.bundle.pk])
        if sale is not None:
            lines = [line for line in lines if line.order.customer_id == sale.customer_id]
        offer(self.fields["order_line"], lines)
        if not lines:
            del self.fields["order_line"]

    def clean(self):
        said = super().clean()
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


class SellBundlesForm(WithCustomer):
    """Whole bundles, chosen in the shed."""

    bundles = RecordsChoiceField(Bundle, label=_("All that is left of"))
    customer = customer_field()
    new_customer = new_customer_field()
    price = MoneyField(label=_("Price of each"), required=False)
    state_said = state_field()
    on = day_field()
    order_line = order_line_field()
    promised_too = forms.BooleanField(label=_("Sell them even if they are promised"), required=False)
    note = note_field()

    def __init__(self, *args, chosen, **kwargs):
        super().__init__(*args, **kwargs)
        labels, field = labels_of(chosen), self.fields["bundles"]
        field.queryset = field.queryset.filter(pk__in=labels).order_by("pk")
        field.label_from_instance = lambda bundle: labels[bundle.pk]
        self.initial["bundles"] = [str(bundle.uid) for bundle in chosen]
        tick_dry(self, chosen)
        lines = [line.record for line in standing_lines(self.holding)]
        offer(self.fields["order_line"], lines)
        if not lines:
            del self.fields["order_line"]

    def clean(self):
        said = super().clean()
        bundles = list(said.get("bundles") or ())
        if said.get("state_said") == SaleLine.State.DRY:
            self.ask_if_dry(bundles, said.get("on") or self.today)
        for bundle in bundles:
            if bundle.soaked_before:
                words = {"bundle": bundle}
                self.question(
                    "bundles",
                    said_now("The rods of %(bundle)s were soaked before: for own work only, by custom.") % words,
                )
        return said

    def ask_if_dry(self, bundles, on):
        for bundle in bundles:
            known = said_of(bundle, on)
            if not known.counts_as_dry:
                words = {"bundle": bundle, "answer": known.answer_word, "how": known.how_known}
                sentence = said_now("The book says of %(bundle)s: %(answer)s (%(how)s). Sell it as dry?") % words
                self.question("state_said", sentence)


class CorrectSaleForm(BaseForm):
    customer = customer_field()
    on = day_field(initial=None)
    note = note_field()
    why = why_field()


class CorrectSaleLineForm(BaseForm):
    price = MoneyField(label=_("Price of it all"), required=False)
    state_said = state_field()
    order_line = order_line_field()
    why = why_field()

    def __init__(self, *args, line, **kwargs):
        super().__init__(*args, **kwargs)
        bundle, customer = line.taking.bundle, line.sale.customer_id
        lines = [
            each
            for each in lines_for_bundle(bundle, ancestry_of([bundle])[bundle.pk])
            if each.order.customer_id == customer
        ]
        lines += [line.order_line] if line.order_line else []
        offer(self.fields["order_line"], lines)
        if not lines:
            del self.fields["order_line"]
