"""What was sold to whom."""

from dataclasses import dataclass

from django.db.models import Exists, Max, OuterRef, Q, Sum

from growers.bundles.queries import ancestry_of
from growers.bundles.rules import WHOLE
from growers.people.rules import name_key

from ..models import Complaint, Customer, Returned, Sale, SaleLine


def named(holding, name):
    """The customer of that name, however it is spaced or capitalised; None if there is none."""
    return Customer.objects.of(holding).filter(name_key=name_key(name)).first()


def open_sale(holding, customer, on):
    """The sale of that day to this customer, to which more can be added. Somebody unnamed begins a new one."""
    if customer is None:
        return None
    return Sale.objects.of(holding).filter(customer=customer, on=on).order_by("pk").first()


def sales_of(holding, customer=None):
    """Sales out of which not every line was taken back, the newest first; of one customer if given."""
    lines = SaleLine.objects.of(holding).filter(sale=OuterRef("pk"))
    sales = Sale.objects.of(holding).filter(Exists(lines)).select_related("customer")
    if customer is not None:
        sales = sales.filter(customer=customer)
    return sales.order_by("-on", "-pk")


def customers_of(holding):
    """Customers by name, each with the day something was last sold to them."""
    sold = Q(sales__struck_out_at=None, sales__lines__struck_out_at=None, sales__lines__isnull=False)
    customers = Customer.objects.of(holding).annotate(last_on=Max("sales__on", filter=sold))
    return customers.order_by("name_key")


@dataclass(frozen=True)
class Line:
    """A line of a sale with the bundle it came out of."""

    record: SaleLine
    bundle: object
    ancestry: object

    @property
    def answer_said(self):
        """The answer as it was on the day of sale, in words."""
        return self.record.answer_word

    @property
    def much(self):
        taking = self.record.taking
        return taking.said_text or taking.get_said_how_display()


def lines_of(holding, sales):
    """The living lines of sales, in the order in which they were written: {sale's id: [Line, …]}."""
    records = SaleLine.objects.of(holding).filter(sale__in=list(sales)).order_by("pk")
    records = list(
        records.select_related(
            "sale__customer", "taking__bundle__length_class", "taking__bundle__holding", "order_line__order__customer"
        )
    )
    ancestries = ancestry_of({record.taking.bundle for record in records})
    found = {sale.pk: [] for sale in sales}
    for record in records:
        bundle = record.taking.bundle
        found[record.sale_id].append(Line(record, bundle, ancestries[bundle.pk]))
    return found


def total_of(lines):
    """What the lines of a sale come to, by currency; nothing where no price was written."""
    totals = {}
    for line in lines:
        if line.record.price is not None:
            totals[line.record.currency] = totals.get(line.record.currency, 0) + line.record.price
    return totals


def share_of_whole(taking):
    """What part of its whole bundle was taken out."""
    return taking.share_ppb / WHOLE


def part_out(line):
    """The part of what was sold that has not come back (ppb)."""
    back = Returned.objects.of(line.holding).filter(line=line).aggregate(sum=Sum("part_ppb"))["sum"]
    return WHOLE - (back or 0)


def after_sale(holding, lines):
    """What came back of lines, and what was complained of: {line's id: ([Returned, …], [Complaint, …])}."""
    found = {line.pk: ([], []) for line in lines}
    for returned in Returned.objects.of(holding).filter(line__in=lines).select_related("bundle").order_by("on", "pk"):
        found[returned.line_id][0].append(returned)
    complaints = Complaint.objects.of(holding).filter(line__in=lines).select_related("line__sale__customer")
    for complaint in complaints.order_by("on", "pk"):
        found[complaint.line_id][1].append(complaint)
    return found
