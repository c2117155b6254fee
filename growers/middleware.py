from functools import partial
from zoneinfo import ZoneInfo

from django.contrib.auth.views import redirect_to_login
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from growers.people import queries
from growers.people.pages import check_may_write

clock = timezone.now  # the one place where pages learn what time it is


class HoldingMiddleware:
    """Tells the page the time, and finds the holding that stands in the address, with its local day."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        request.holding = request.hand = None
        request.now = clock()
        try:
            return self.get_response(request)
        finally:
            timezone.deactivate()

    def process_view(self, request, view, args, kwargs):
        slug = kwargs.pop("holding", None)
        if slug is None:
            return None
        if not request.user.is_authenticated:
            return redirect_to_login(request.get_full_path())
        hand = queries.holding_for(request.user, slug)
        if hand is None:
            raise Http404
        request.hand, request.holding = hand, hand.holding
        if request.method not in ("GET", "HEAD", "OPTIONS"):
            check_may_write(request)
        zone = ZoneInfo(hand.holding.zone)
        timezone.activate(zone)
        request.today = request.now.astimezone(zone).date()
        request.here = partial(here, slug)
        return None


def here(slug, name, *args):
    """The address of a page within this holding."""
    return reverse(name, kwargs=None, args=[slug, *args])
