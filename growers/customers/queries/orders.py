"""What was ordered, what of it has been filled and promised, and what remains."""

from collections import defaultdict
from dataclasses import dataclass
from math import ceil

from django.db.models import F

from growers.stock.models import Promise
from growers.stock.queries import believed_rods
from growers.stock.queries.shed import shed_bundles, shed_rows

from ..models import Order, OrderLine, OrderPromise, SaleLine
from .sales import share_of_whole

NEAR = 0.05
"""So little less than what was ordered by weight or by rods fills it (our own choice)."""
MASS, RODS = OrderLine.Wanted.MASS, OrderLine.Wanted.RODS
STANDING, FILLED, CANCELLED = "standing", "filled", "cancelled"


@dataclass(frozen=True)
class LineNow:
    """A line of an order as it stands. `got` and `remains` are in kg, rods or bundles; `remains` is None where what
    went towards it was never weighed or counted; `about` where it was only reckoned.
    """

    record: OrderLine
    sold: tuple[SaleLine, ...]
    promises: tuple[Promise, ...]
    got: float
    unknown: int
    about: bool

    @property
    def remains(self):
        if self.unknown:
            return None
        left = self.record.much_value - self.got
        return 0.0 if left <= self.record.much_value * NEAR else left

    @property
    def filled(self):
        return self.remains == 0

    @property
    def remains_whole(self):
        """Rods or bundles still to fill, as whole ones: a part of one is one still."""
        return ceil(self.remains) if self.remains is not None else None

    @property
    def how(self):
        return self.record.much_how


def amount(how, line):
    """What a sale came to, in the way an order counts: (amount or None, whether it is about)."""
    taking = line.taking
    if how == MASS:
        return taking.mass_kg, taking.said_how != "mass"
    if how == RODS:
        if taking.rods:
            return taking.rods, False
        rods = believed_rods(taking.bundle)
        return (round(rods * share_of_whole(taking)), True) if rods else (None, True)
    # All that was left of a bundle counts as the bundle, however little had been taken out of it before.
    return (1, False) if taking.said_how == "rest" else (share_of_whole(taking), True)


def lines_now(holding, orders):
    """The lines of orders as they stand: {order's id: [LineNow, …]}; the same few queries however many there are."""
    orders = list(orders)
    records = list(
        OrderLine.objects.of(holding)
        .filter(order__in=orders)
        .select_related("order__customer", "variety", "length_class")
        .order_by("pk")
    )
    sold, promised = defaultdict(list), defaultdict(list)
    lines = SaleLine.objects.of(holding).filter(order_line__in=records).order_by("pk")
    for line in lines.select_related("sale", "taking__bundle__holding", "taking__bundle__length_class"):
        sold[line.order_line_id].append(line)
    links = OrderPromise.objects.of(holding).filter(order_line__in=records).order_by("pk")
    for link in links.select_related("promise__bundle__length_class"):
        if link.promise.kept_by_id is None and link.promise.released_on is None:
            promised[link.order_line_id].append(link.promise)
    found = {order.pk: [] for order in orders}
    for record in records:
        found[record.order_id].append(line_now(record, sold[record.pk], promised[record.pk]))
    return found


def line_now(record, sold, promises):
    amounts = [amount(record.much_how, line) for line in sold]
    known = [(number, about) for number, about in amounts if number is not None]
    return LineNow(
        record=record,
        sold=tuple(sold),
        promises=tuple(promises),
        got=sum(number for number, _about in known),
        unknown=len(amounts) - len(known),
        about=any(about for _number, about in known),
    )


def status_of(order, lines):
    if order.cancelled_on:
        return CANCELLED
    return FILLED if order.filled_on or (lines and all(line.filled for line in lines)) else STANDING


@dataclass(frozen=True)
class OrderNow:
    record: Order
    lines: list[LineNow]

    @property
    def status(self):
        return status_of(self.record, self.lines)

    @property
    def begun(self):
        return any(line.sold for line in self.lines)


def orders_now(holding, orders):
    orders = list(orders)
    lines = lines_now(holding, orders)
    return [OrderNow(order, lines[order.pk]) for order in orders]


def orders_of(holding, customer=None):
    """The soonest wanted first, those wanted at no set day after them, in the order in which they came."""
    orders = Order.objects.of(holding).select_related("customer")
    if customer is not None:
        orders = orders.filter(customer=customer)
    return orders.order_by(F("wanted_by").asc(nulls_last=True), "on", "pk")


def with_status(holding, orders, status):
    """Those of the orders that stand so; what is filled is known by the sales alone."""
    return [each.record for each in orders_now(holding, orders) if each.status == status]


def standing_lines(holding):
    """Lines of standing orders of which something remains."""
    orders = orders_of(holding).filter(cancelled_on=None, filled_on=None)
    return [line for each in orders_now(holding, orders) for line in each.lines if not line.filled]


def lines_for_bundle(bundle, ancestry):
    """The lines of standing orders that rods of a bundle could go towards."""
    return [line.record for line in standing_lines(bundle.holding) if answers_to(bundle, ancestry, line.record)]


def answers_to(bundle, ancestry, wanted):
    """Whether rods of a bundle are what an order's line, or somebody waiting, names."""
    return (
        (wanted.variety_id is None or (ancestry.variety is not None and ancestry.variety.pk == wanted.variety_id))
        and wanted.length_class_id in (None, bundle.length_class_id)
        and wanted.type in ("", bundle.type)
    )


MOST_OFFERED = 5


def bundles_for(holding, lines, today):
    """What of the shed answers to each line and is not all promised, the fittest first: {line's id: [Row, …]}."""
    if not lines:
        return {}
    rows = shed_rows(holding, shed_bundles(holding).filter(soaked_before=False), today)
    free = [row for row in rows if row.free]
    return {
        line.pk: [row for row in free if answers_to(row.bundle, row.ancestry, line)][:MOST_OFFERED] for line in lines
    }


def promised_for(order_line, bundle):
    """The standing promise of rods of a bundle for a line of an order, if there is one."""
    links = OrderPromise.objects.of(bundle.holding).filter(
        order_line=order_line, promise__bundle=bundle, promise__released_on=None, promise__kept_by=None
    )
    link = links.select_related("promise").order_by("pk").first()
    return link.promise if link else None


def line_promised(promise):
    """The line of an order for which a promise was made, if it was made for one."""
    if promise is None:
        return None
    links = OrderPromise.objects.of(promise.holding).filter(promise=promise)
    link = links.select_related("order_line__order__customer").first()
    return link.order_line if link else None


def standing_promises_for(order):
    links = OrderPromise.objects.of(order.holding).filter(order_line__order=order)
    return list(Promise.objects.of(order.holding).standing().filter(pk__in=links.values("promise")).order_by("pk"))
