from django.contrib import messages
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.bundles.queries import by_tag
from growers.people.pages import keep
from growers.stock.queries import what_is_left

from .. import actions
from ..forms import CorrectSaleForm, CorrectSaleLineForm, SellForm
from ..models import Sale, SaleLine
from ..queries import lines_of, said_of, total_of


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
    code = request.GET.get("code", "")
    bundle = by_tag(request.holding, code)
    if bundle is None:
        messages.warning(request, _("No bundle has the tag “%(tag)s”. Look at its figures.") % {"tag": code})
        return redirect(request.here("customers:sale", sale.uid))
    return redirect(request.here("customers:sell_more", sale.uid, bundle.uid))


def selling(request, uid, sale=None):
    bundle = get_object_or_404(Bundle.objects.of(request.holding).select_related("length_class", "holding"), uid=uid)
    return keep(
        request,
        form=SellForm,
        template="customers/sell.html",
        act=actions.sell,
        fixed={"bundle": bundle} | ({"sale": sale, "customer": sale.customer, "on": sale.on} if sale else {}),
        then=to_sale(request),
        form_kwargs={"bundle": bundle, "sale": sale},
        context={
            "bundle": bundle,
            "left": what_is_left(bundle, request.today),
            "said": said_of(bundle, request.today),
            "sale": sale,
        },
    )


def sale(request, uid):
    found = get_object_or_404(Sale.objects.of(request.holding).select_related("customer"), uid=uid)
    lines = lines_of(request.holding, [found])[found.pk]
    return render(request, "customers/sale.html", {"sale": found, "lines": lines, "totals": total_of(lines)})


def correct_sale(request, uid):
    found = get_object_or_404(Sale.objects.of(request.holding).select_related("customer"), uid=uid)
    return keep(
        request,
        form=CorrectSaleForm,
        template="customers/correct.html",
        act=actions.correct_sale,
        fixed={"sale": found},
        then=request.here("customers:sale", found.uid),
        initial={"customer": found.customer and found.customer.uid, "on": found.on, "note": found.note},
        context={"record": found},
    )


def correct_sale_line(request, uid):
    line = get_object_or_404(SaleLine.objects.of(request.holding).select_related("sale__customer", "taking"), uid=uid)
    return keep(
        request,
        form=CorrectSaleLineForm,
        template="customers/correct.html",
        act=actions.correct_sale_line,
        fixed={"line": line},
        then=to_sale(request),
        initial={"price": line.price, "state_said": line.state_said},
        context={"record": line, "taking": line.taking},
    )
