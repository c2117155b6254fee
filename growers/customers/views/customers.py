from django.shortcuts import get_object_or_404, render

from growers.furniture.lists import paged
from growers.people.pages import keep
from growers.people.rules import name_key

from .. import actions
from ..forms import CorrectCustomerForm, CustomerForm
from ..models import Customer
from ..queries import customers_of, lines_of, sales_of


def customers(request):
    """Customers by name, and what was sold last."""
    letters = request.GET.get("name", "").strip()
    found = customers_of(request.holding)
    if letters:
        found = found.filter(name_key__contains=name_key(letters))
    page = paged(request, found)
    sales = list(sales_of(request.holding)[:12])
    lines = lines_of(request.holding, sales)
    context = {"page": page, "letters": letters, "sales": [(sale, lines[sale.pk]) for sale in sales]}
    return render(request, "customers/customers.html", context)


def customer(request, uid):
    found = get_object_or_404(Customer.objects.of(request.holding), uid=uid)
    page = paged(request, sales_of(request.holding, found))
    lines = lines_of(request.holding, page.object_list)
    context = {"customer": found, "page": page, "sales": [(sale, lines[sale.pk]) for sale in page.object_list]}
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
        fixed={"customer": found},
        then=request.here("customers:customer", found.uid),
        initial={"name": found.name, "contact": found.contact, "note": found.note},
        context={"customer": found},
    )
