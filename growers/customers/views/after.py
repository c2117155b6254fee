"""After a sale: complaints with their answers, and rods that come back."""

from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle
from growers.bundles.queries import ancestry_of
from growers.bundles.rules import WHOLE
from growers.furniture.lists import paged
from growers.furniture.writing import write
from growers.people.pages import keep
from growers.stock.queries import what_is_left

from .. import actions
from ..filters import ComplaintFilter
from ..forms import AnswerForm, BringBackForm, ComplaintForm, CorrectComplaintForm, CorrectReturnedForm
from ..models import Complaint, Returned, SaleLine
from ..queries import complaints_of, own_soaks
from .customers import narrow


def sale_line_at(request, uid):
    lines = SaleLine.objects.of(request.holding)
    lines = lines.select_related("sale__customer", "taking__bundle__length_class", "taking__bundle__holding")
    return get_object_or_404(lines, uid=uid)


def named_sale(line):
    """“Pellock, 5 ft, 482 17 06, sold to Orla Fenn, Sun 1 Feb 2026”."""
    bundle = line.taking.bundle
    words = (ancestry_of([bundle])[bundle.pk].name, bundle.length_class, bundle.tag_shown, line)
    return ", ".join(str(word) for word in words)


def complaints(request):
    narrowed = narrow(request, ComplaintFilter, complaints_of(request.holding))
    page = paged(request, narrowed.qs)
    return render(request, "customers/complaints.html", {"filter": narrowed, "page": page})


def complain(request, uid):
    """Of rods that were sold."""
    line = sale_line_at(request, uid)
    return complaining(request, {"line": line}, about=named_sale(line), form_kwargs={"line": line})


def complain_of_bundle(request, uid):
    """Of a bundle, where no sale of it is in the book."""
    bundle = get_object_or_404(Bundle.objects.of(request.holding).select_related("length_class"), uid=uid)
    return complaining(request, {"bundle": bundle}, about=bundle)


def complaining(request, about_what, *, about, form_kwargs=None):
    return keep(
        request,
        form=ComplaintForm,
        template="_parts/form_page.html",
        act=actions.complain,
        fixed=about_what,
        then=lambda complaint: request.here("customers:complaint", complaint.uid),
        form_kwargs=form_kwargs,
        context={"title": _("A complaint"), "about": about},
    )


def complaint_at(request, uid):
    rows = Complaint.objects.of(request.holding).select_related(
        "line__sale__customer",
        "line__taking__bundle__length_class",
        "line__taking__bundle__holding",
        "bundle__length_class",
        "bundle__holding",
        "customer",
        "holding",
    )
    return get_object_or_404(rows, uid=uid)


def complaint(request, uid):
    """What was told, what the book knows of it, and the answer."""
    found = complaint_at(request, uid)
    bundle = found.about
    soaks = own_soaks(found) if found.what == Complaint.What.BRITTLE else None
    return keep(
        request,
        form=AnswerForm,
        template="customers/complaint.html",
        act=actions.answer_complaint,
        fixed={"complaint": found},
        then=request.here("customers:complaint", found.uid),
        undo=False,
        kept=lambda row: _("the answer to %(whom)s") % {"whom": row.whom or _("somebody")},
        initial={"answer": soaks.answer if soaks else ""},
        context={
            "complaint": found,
            "line": found.line,
            "bundle": bundle,
            "ancestry": ancestry_of([bundle])[bundle.pk],
            "left": what_is_left(bundle, request.today),
            "soaks": soaks,
        },
    )


def correct_complaint(request, uid):
    found = complaint_at(request, uid)
    return keep(
        request,
        form=CorrectComplaintForm,
        template="customers/correct.html",
        act=actions.correct_complaint,
        undo=False,
        fixed={"complaint": found},
        then=request.here("customers:complaint", found.uid),
        form_kwargs={"line": found.line},
        initial={
            "customer": found.customer and found.customer.uid,
            "what": found.what,
            "water": found.water_text,
            "hours": found.soaked_text,
            "on": found.on,
            "note": found.note,
            "answered_on": found.answered_on,
            "answer": found.answer,
        },
        context={"record": found, "title": _("Correct a complaint")},
    )


def bring_back(request, uid):
    line = sale_line_at(request, uid)
    return keep(
        request,
        form=BringBackForm,
        template="_parts/form_page.html",
        act=actions.bring_back,
        fixed={"line": line},
        then=lambda returned: request.here("trace:bundle", returned.bundle.uid),
        context={
            "title": _("Rods brought back"),
            "about": named_sale(line),
            "intro": _(
                "They stand in the book again as a bundle of their own, with a tag of its own. "
                "Rods that were soaked meanwhile are for your own work only, once they are dry right out."
            ),
            "save": _("They are back"),
        },
    )


def correct_returned(request, uid):
    rows = Returned.objects.of(request.holding).select_related("line__sale", "line__taking__bundle", "bundle")
    found = get_object_or_404(rows, uid=uid)
    return keep(
        request,
        form=CorrectReturnedForm,
        template="customers/correct.html",
        act=actions.correct_returned,
        undo=False,
        fixed={"returned": found},
        then=request.here("customers:sale", found.line.sale.uid),
        form_kwargs={"was": write("part", found.part_ppb / WHOLE)},
        initial={"on": found.on, "note": found.note},
        context={"record": found, "title": _("Correct what was brought back")},
    )
