from django.shortcuts import get_object_or_404, render

from growers.furniture.lists import paged
from growers.people.pages import keep

from .. import actions
from ..filters import CustomerFilter
from ..forms import CorrectCustomerForm, CustomerForm
from ..models import Customer
from ..queries import complaints_of, customers_of, lines_of, orders_now, orders_of, sales_of, waiting_of


def customers(request):
    """Customers by name, and what was sold last."""
    narrowed = narrow(request, CustomerFilter, customers_of(request.holding))
    page = paged(request, narrowed.qs)
    sales = list(sales_of(request.holding)[:6])
    lines = lines_of(request.holding, sales)
    context = {"page": page, "filter": narrowed, "sales": [(sale, lines[sale.pk]) for sale in sales]}
    return render(request, "customers/customers.html", context)


def narrow(request, filter_class, found):
    return filter_class(request.GET, found, holding=request.holding, today=request.today, now=request.now)


def customer(request, uid):
    found = get_object_or_404(Customer.objects.of(request.holding), uid=uid)
    page = paged(request, sales_of(request.holding, found))
    lines = lines_of(request.holding, page.object_list)
    context = {
        "customer": found,
        "page": page,
        "sales": [(sale, lines[sale.pk]) for sale in page.object_list],
        "orders": orders_now(request.holding, orders_of(request.holding, found)),
        "waiting": waiting_of(request.holding, found),
        "complaints": complaints_of(request.holding, found),
    }
    return render(request, "customers/customer.html", context)


def add_customer(request):
    return keep(
        request,
        form=CustomerForm,
        template="customers/customer_form.html",
        act=actions.add_customer,
        then=lambda customer: request.here("customers:customer", customer.uid),
    )


def correct_customer(request, uid):
    found = get_object_or_404(Customer.objects.of(request.holding), uid=uid)
    return keep(
        request,
        form=CorrectCustomerForm,
        template="customers/customer_form.html",
        act=actions.correct_customer,
        undo=False,
        fixed={"customer": found},
        then=request.here("customers:customer", found.uid),
        initial={"name": found.name, "contact": found.contact, "note": found.note},
        context={"customer": found},
    )
