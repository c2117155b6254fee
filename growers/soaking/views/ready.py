from django.shortcuts import render

from .. import queries
from ..forms.ready import ReadyByForm


def ready_by(request):
    """When each is to go in for a day at the bench. A question, so it is asked with GET and keeps nothing."""
    asked = request.GET if "at" in request.GET else None
    form = ReadyByForm(asked, holding=request.holding, today=request.today, now=request.now)
    starts = []
    if form.is_bound and form.is_valid():
        starts = queries.ready_by(form.cleaned_data["at"].at, list(form.wishes()))
    return render(request, "soaking/ready_by.html", {"form": form, "starts": starts})
