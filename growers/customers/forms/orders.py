from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle
from growers.furniture.fields import (
    DayField,
    MuchField,
    WantedField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm

from ..models import SaleLine
from .parts import (
    NamesCustomer,
    customer_field,
    day_field,
    length_field,
    new_customer_field,
    state_field,
    type_field,
    variety_field,
)

ANY_TYPE = [("", _("any")), *Bundle.Type.choices]
ANY_STATE = [("", _("not said")), *SaleLine.State.choices]


def wanted_field():
    return WantedField(label=_("How much"), help_text=_("3 kg, 40 rods, or 2 bundles"))


def any_state_field():
    field = state_field(required=False)
    field.label, field.choices = _("State wanted"), ANY_STATE
    return field


def who_field():
    return customer_field(label=_("Customer"), empty_label=_("Choose…"))


class LineForm(BaseForm):
    much = wanted_field()
    variety = variety_field()
    length_class = length_field()
    type = type_field()
    state = any_state_field()
    note = note_field()


class OrderForm(NamesCustomer):
    """An order with its first line; others are added on its page."""

    one_of_several = ("customer", "new_customer")

    customer = who_field()
    new_customer = new_customer_field(help_text=_("One of the two is wanted."))
    much = wanted_field()
    variety = variety_field()
    length_class = length_field()
    type = type_field()
    state = any_state_field()
    wanted_by = DayField(label=_("Wanted by"), required=False, future=True)
    on = day_field()
    note = note_field()


class CorrectOrderForm(BaseForm):
    customer = customer_field(label=_("Customer"), required=True)
    wanted_by = DayField(label=_("Wanted by"), required=False, future=True)
    on = day_field(initial=None)
    note = note_field()
    why = why_field()


class CorrectLineForm(LineForm):
    why = why_field()


class EndForm(BaseForm):
    on = day_field()


class ReopenForm(BaseForm):
    """Nothing is asked: the button says it."""


class PromiseLineForm(BaseForm):
    much = MuchField(label=_("How much"), help_text=_("2.3 kg, 40 rods, half, or the rest"))
    on = day_field()
    note = note_field()


class WaitForm(NamesCustomer):
    one_of_several = ("customer", "new_customer")

    customer = who_field()
    new_customer = new_customer_field(help_text=_("One of the two is wanted."))
    variety = variety_field()
    length_class = length_field()
    type = type_field(choices=ANY_TYPE, required=False, initial="")
    on = day_field()
    note = note_field()


class CorrectWaitingForm(BaseForm):
    customer = customer_field(label=_("Customer"), required=True)
    variety = variety_field()
    length_class = length_field()
    type = type_field(choices=ANY_TYPE, required=False, initial="")
    on = day_field(initial=None)
    told_on = DayField(label=_("Told on"), required=False, help_text=_("Empty: still to be told."))
    note = note_field()
    why = why_field()


class ToldForm(BaseForm):
    on = day_field()
