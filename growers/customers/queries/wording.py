"""The sheet's words: days in the water, and how it is known to be dry."""

from dataclasses import dataclass

from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

HALF = "½"
# For strangers: no other bundle is named.
HOW = {
    "measured": gettext_lazy("by an oven test of its own rods"),
    "sister": gettext_lazy("by a bundle that dried beside it"),
    "stack": gettext_lazy("by an oven test of rods that dried with it"),
    "cut": gettext_lazy("by an oven test of rods cut with it"),
    "meter": gettext_lazy("by a moisture meter, roughly"),
    "started": gettext_lazy("by the rods it was made from"),
    "before": gettext_lazy("it was made from rods that had dried out"),
    "word": gettext_lazy("by the grower's word"),
    "calendar": gettext_lazy("by the calendar only, nothing measured"),
}


def how_for_strangers(assessed):
    how = str(HOW.get(assessed.how_known, ""))
    if assessed.word == "dry" and assessed.how_known != "word":
        return _("%(how)s; the grower calls it dry") % {"how": how}
    return how


def halves(value):
    """To the nearest half, as people write it: 4, 4½."""
    doubled = max(round(value * 2), 1)
    whole, half = divmod(doubled, 2)
    return (number_format(whole) if whole else "") + (HALF if half else "")


def days(value):
    """“4½ days”, or hours where it is less than a day."""
    if value < 1:
        text = halves(value * 24)
        return ngettext("%(n)s hour", "%(n)s hours", 1 if text in ("1", HALF) else 2) % {"n": text}
    text = halves(value)
    return ngettext("%(n)s day", "%(n)s days", 1 if text == "1" else 2) % {"n": text}


def span(low, high, *, open_ended=False):
    """“5 to 6 days”, “half an hour to 12 hours”, “9 days or more”."""
    if open_ended:
        return _("%(days)s or more") % {"days": days(low)}
    if days(low) == days(high):
        return _("about %(days)s") % {"days": days(low)}
    if (low < 1) == (high < 1):
        first = halves(low * 24) if low < 1 else halves(low)
        return _("%(first)s to %(last)s") % {"first": first, "last": days(high)}
    return _("%(first)s to %(last)s") % {"first": days(low), "last": days(high)}


@dataclass(frozen=True)
class SoakSays:
    """One soak: its length, its water, and what it bounds, in words."""

    length_class: str
    celsius: float | None
    sentence: str


def soaks_in_words(bounds):
    """What each soak bounds, at the tank and at the bench, the coldest water first."""
    by_soak = {}
    for each in bounds:
        by_soak.setdefault(each.batch.pk, []).append(each)
    found = [one_soak(of_it) for of_it in by_soak.values()]
    return sorted(found, key=lambda each: (each.celsius is None, each.celsius or 0, each.length_class))


def one_soak(bounds):
    celsius = next((each.water.celsius for each in bounds if each.water), None)
    return SoakSays(bounds[0].label, celsius, "; ".join(bound(each) for each in bounds))


def bound(each):
    words = {
        "low": days(each.lower_days) if each.lower_days is not None else "",
        "high": days(each.upper_days) if each.upper_days is not None else "",
    }
    sentence = BOUNDS[each.endpoint][each.lower_days is not None, each.upper_days is not None]() % words
    return _("%(sentence)s (the looks disagree)") % {"sentence": sentence} if each.contradicted else sentence


BOUNDS = {
    "folds": {
        (True, True): lambda: _("not ready yet at %(low)s, folded by %(high)s"),
        (False, True): lambda: _("folded at the first look, at %(high)s or sooner"),
        (True, False): lambda: _("not ready yet at %(low)s"),
    },
    "bench": {
        (True, True): lambda: _("cracked at the bench after %(low)s, right after %(high)s"),
        (False, True): lambda: _("right at the bench, lifted after %(high)s or less"),
        (True, False): lambda: _("cracked at the bench, lifted after %(low)s"),
    },
}
