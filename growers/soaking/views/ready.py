from django.shortcuts import render
from django.utils.translation import gettext as _

from growers.harvest.models import LengthClass

from .. import queries
from ..forms.ready import ReadyByForm


def ready_by(request):
    """When each is to go in for a day at the bench. A question, so it is asked with GET and keeps nothing."""
    if not LengthClass.objects.of(request.holding).exists():
        return render(request, "bundles/no_lengths.html", {"title": _("When to put in")})
    asked = request.GET if "at" in request.GET else None
    form = ReadyByForm(asked, holding=request.holding, today=request.today, now=request.now)
    starts = []
    if form.is_bound and form.is_valid():
        starts = queries.ready_by(form.cleaned_data["at"].at, list(form.wishes()))
    return render(request, "soaking/ready_by.html", {"form": form, "starts": starts})
