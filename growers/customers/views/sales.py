from uuid import UUID

from django.contrib import messages
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.bundles.queries import tagged
from growers.furniture.lists import paged
from growers.furniture.refusals import Refusal
from growers.furniture.writing import write
from growers.people.pages import keep
from growers.stock.queries import what_is_left

from .. import actions
from ..filters import SaleFilter
from ..forms import CorrectSaleForm, CorrectSaleLineForm, SellBundlesForm, SellForm
from ..models import OrderLine, Sale, SaleLine
from ..queries import after_sale, lines_now, lines_of, said_of, sales_of, total_of
from .customers import narrow


def to_sale(request):
    return lambda line: request.here("customers:sale", line.sale.uid)


def sell(request, uid):
    """Sell out of one bundle."""
    return selling(request, uid)


def sell_more(request, sale_uid, uid):
    """Sell out of another bundle, in a sale that was begun."""
    sale = get_object_or_404(Sale.objects.of(request.holding), uid=sale_uid)
    return selling(request, uid, sale=sale)


def more(request, uid):
    """Goes on to the bundle whose tag was typed on a sale's page."""
    sale = get_object_or_404(Sale.objects.of(request.holding), uid=uid)
    try:
        bundle = tagged(request.holding, request.GET.get("code", ""))
    except Refusal as refusal:
        messages.warning(request, refusal.sentence)
        return redirect(request.here("customers:sale", sale.uid))
    return redirect(request.here("customers:sell_more", sale.uid, bundle.uid))


def fill(request, line_uid, uid):
    """Sell out of a bundle towards a line of an order."""
    return selling(request, uid, order_line=line_at(request, line_uid))


def line_at(request, uid):
    lines = OrderLine.objects.of(request.holding).select_related("order__customer", "variety", "length_class")
    return get_object_or_404(lines, uid=uid)


def selling(request, uid, sale=None, order_line=None):
    bundle = get_object_or_404(Bundle.objects.of(request.holding).select_related("length_class", "holding"), uid=uid)
    fixed = {"sale": sale, "customer": sale.customer, "on": sale.on} if sale else {}
    return keep(
        request,
        form=SellForm,
        template="customers/sell.html",
        act=actions.sell,
        fixed={"bundle": bundle, **fixed} | ({"order_line": order_line} if order_line else {}),
        then=to_sale(request),
        form_kwargs={"bundle": bundle, "sale": sale, "order_line": order_line},
        initial=wanted_of(request, order_line, bundle),
        context={
            "bundle": bundle,
            "left": what_is_left(bundle, request.today),
            "said": said_of(bundle, request.today),
            "sale": sale,
            "order_line": order_line,
        },
    )


def wanted_of(request, order_line, bundle):
    """What an order says of the sale that fills it: how much remains, and in what state it is wanted."""
    if order_line is None:
        return {}
    [now] = [
        line
        for line in lines_now(request.holding, [order_line.order])[order_line.order_id]
        if line.record == order_line
    ]
    initial = {"much": still_wanted(now, what_is_left(bundle, request.today), request.holding)}
    return initial | ({"state_said": order_line.state} if order_line.state else {})


def still_wanted(now, left, holding):
    """What remains to fill, or the rest of the bundle where that is less; nothing where it is not known."""
    if now.how == "bundles":
        return _("the rest")
    there = left.kg if now.how == "mass" else left.rods
    if not now.remains or there is None:
        return ""
    if there <= now.remains:
        return _("the rest")
    if now.how == "mass":
        return write("mass", now.remains, holding.mass_unit)
    return _("%(n)d rods") % {"n": round(now.remains)}


def sell_bundles(request):
    """Sell whole bundles that were ticked in the shed."""
    chosen = Bundle.objects.of(request.holding).with_some_left().filter(uid__in=uids(request.GET.getlist("bundle")))
    chosen = list(chosen.select_related("length_class", "holding").order_by("pk"))
    if not chosen:
        messages.warning(request, _("Tick the bundles that are sold, then press the button again."))
        return redirect(request.here("stock:shed"))
    return keep(
        request,
        form=SellBundlesForm,
        template="_parts/form_page.html",
        act=actions.sell_bundles,
        then=lambda lines: request.here("customers:sale", lines[0].sale.uid),
        form_kwargs={"chosen": chosen},
        context={"title": _("Sell whole bundles"), "save": _("Sold")},
    )


def uids(texts):
    """Those of the texts in an address that are uids at all."""
    return [text for text in texts if is_uid(text)]


def is_uid(text):
    try:
        UUID(text)
    except ValueError:
        return False
    return True


def sales(request):
    narrowed = narrow(request, SaleFilter, sales_of(request.holding))
    page = paged(request, narrowed.qs)
    lines = lines_of(request.holding, page.object_list)
    context = {"filter": narrowed, "page": page, "sales": [(sale, lines[sale.pk]) for sale in page.object_list]}
    return render(request, "customers/all_sales.html", context)


def sale(request, uid):
    found = get_object_or_404(Sale.objects.of(request.holding).select_related("customer"), uid=uid)
    lines = lines_of(request.holding, [found])[found.pk]
    after = after_sale(request.holding, [line.record for line in lines])
    context = {"sale": found, "lines": [(line, *after[line.record.pk]) for line in lines], "totals": total_of(lines)}
    return render(request, "customers/sale.html", context)


def correct_sale(request, uid):
    found = get_object_or_404(Sale.objects.of(request.holding).select_related("customer"), uid=uid)
    return keep(
        request,
        form=CorrectSaleForm,
        template="customers/correct.html",
        act=actions.correct_sale,
        undo=False,
        fixed={"sale": found},
        then=request.here("customers:sale", found.uid),
        initial={"customer": found.customer and found.customer.uid, "on": found.on, "note": found.note},
        context={"record": found},
    )


def correct_sale_line(request, uid):
    lines = SaleLine.objects.of(request.holding).select_related("sale__customer", "taking__bundle", "order_line")
    line = get_object_or_404(lines, uid=uid)
    return keep(
        request,
        form=CorrectSaleLineForm,
        template="customers/correct.html",
        act=actions.correct_sale_line,
        undo=False,
        fixed={"saleline": line},
        then=to_sale(request),
        form_kwargs={"line": line},
        initial={
            "price": line.price,
            "state_said": line.state_said,
            "order_line": line.order_line and line.order_line.uid,
        },
        context={"record": line, "taking": line.taking},
    )
