"""What the pages that strangers see have in common."""

from django.shortcuts import render


def for_strangers(response):
    """Not to be kept by a search engine, nor by anything on the way: what is shared can be withdrawn."""
    response["X-Robots-Tag"] = "noindex, nofollow, noarchive"
    response["Cache-Control"] = "private, no-store"
    response["Referrer-Policy"] = "no-referrer"
    return response


def says_nothing(request):
    """One page for every address behind which there is nothing now, so that none tells more than another."""
    return for_strangers(render(request, "customers/says_nothing.html", status=404))
