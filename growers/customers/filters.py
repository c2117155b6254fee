import django_filters as df
from django.db.models import Exists, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.furniture.fields import DayField
from growers.furniture.lists import ListFilter, RecordFilter
from growers.people.rules import name_key

from .models import Complaint, Customer, SaleLine, Waiting
from .queries import orders_of, with_status

STATUSES = [("standing", _("standing")), ("filled", _("filled")), ("cancelled", _("cancelled"))]


def customers_by_name(holding):
    return Customer.objects.of(holding).order_by("name_key")


def varieties_by_name(holding):
    return Variety.objects.of(holding).order_by("name_key")


class DayFilter(df.Filter):
    field_class = DayField


class CustomerFilter(ListFilter):
    name = df.CharFilter(label=_("Name"), method="by_name")
    wants = df.ChoiceFilter(
        label=_("What they want"),
        empty_label=_("any"),
        choices=[("order", _("has a standing order")), ("told", _("waits to be told"))],
        method="who_wants",
    )

    def by_name(self, customers, name, letters):
        return customers.filter(name_key__contains=name_key(letters))

    def who_wants(self, customers, name, wants):
        if wants == "told":
            waiting = Waiting.objects.of(self.holding).filter(told_on=None)
            return customers.filter(pk__in=waiting.values("customer"))
        standing = with_status(self.holding, orders_of(self.holding), "standing")
        return customers.filter(pk__in={order.customer_id for order in standing})


class SaleFilter(ListFilter):
    customer = RecordFilter(records=customers_by_name, label=_("Customer"))
    variety = RecordFilter(records=varieties_by_name, label=_("Variety"), method="of_variety")
    state = df.ChoiceFilter(choices=SaleLine.State.choices, label=_("Sold as"), empty_label=_("any"), method="sold_as")
    first = DayFilter(label=_("From"), field_name="on", lookup_expr="gte", required=False)
    last = DayFilter(label=_("Until"), field_name="on", lookup_expr="lte", required=False)

    def with_line(self, sales, **said):
        lines = SaleLine.objects.of(self.holding).filter(sale=OuterRef("pk"), **said)
        return sales.filter(Exists(lines))

    def of_variety(self, sales, name, variety):
        bundles = Bundle.objects.of(self.holding).of_variety(variety)
        return self.with_line(sales, taking__bundle__in=bundles.values("pk"))

    def sold_as(self, sales, name, state):
        return self.with_line(sales, state_said=state)


class OrderFilter(ListFilter):
    customer = RecordFilter(records=customers_by_name, label=_("Customer"))
    variety = RecordFilter(records=varieties_by_name, label=_("Variety"), method="of_variety")
    status = df.ChoiceFilter(choices=STATUSES, label=_("How it stands"), empty_label=_("any"), method="standing_so")

    def of_variety(self, orders, name, variety):
        return orders.filter(lines__variety=variety, lines__struck_out_at=None).distinct()

    def standing_so(self, orders, name, status):
        return orders.filter(pk__in={order.pk for order in with_status(self.holding, orders, status)})


class ComplaintFilter(ListFilter):
    customer = RecordFilter(records=customers_by_name, label=_("Customer"), method="of_customer")
    what = df.ChoiceFilter(choices=Complaint.What.choices, label=_("What was wrong"), empty_label=_("any"))
    answered = df.ChoiceFilter(
        choices=[("no", _("not answered")), ("yes", _("answered"))],
        label=_("Answered"),
        empty_label=_("any"),
        method="with_answer",
    )

    def of_customer(self, complaints, name, customer):
        return complaints.filter(Q(customer=customer) | Q(line__sale__customer=customer))

    def with_answer(self, complaints, name, answered):
        return complaints.filter(answered_on__isnull=answered == "no")


class WaitingFilter(ListFilter):
    customer = RecordFilter(records=customers_by_name, label=_("Customer"))
    variety = RecordFilter(records=varieties_by_name, label=_("Variety"))
    told = df.ChoiceFilter(
        choices=[("no", _("still to be told")), ("yes", _("told"))],
        label=_("Told"),
        empty_label=_("any"),
        method="with_word",
    )

    def with_word(self, waiting, name, told):
        return waiting.filter(told_on__isnull=told == "no")
