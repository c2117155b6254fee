"""Tags of every page. Quantities are written in the units of the holding the page is about."""

import datetime as dt
from zoneinfo import ZoneInfo

from django import template
from django.urls import NoReverseMatch, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext

from growers.furniture import rod as rods
from growers.furniture.dates import write_day
from growers.furniture.moments import Moment, write_moment
from growers.furniture.writing import NOT_WRITTEN, unit_of, write, write_about

register = template.Library()

MODES = {"sun", "dark", "light"}
# The way round the book: what the link says, the page it leads to, and the stages it stands for.
PLACES = (
    (gettext_lazy("Today"), "today:today", ("today",)),
    (gettext_lazy("Beds"), "beds:beds", ("beds", "harvest")),
    (gettext_lazy("Bundles"), "bundles:bundles", ("bundles",)),
    (gettext_lazy("Shed"), "stock:shed", ("stock", "drying")),
    (gettext_lazy("Tank"), "soaking:tank", ("soaking",)),
    (gettext_lazy("Baskets"), "baskets:baskets", ("baskets",)),
    (gettext_lazy("Customers"), "customers:customers", ("customers",)),
)
ROD_TYPES = {
    "brown": gettext_lazy("brown"),
    "green": gettext_lazy("green"),
    "white": gettext_lazy("white"),
    "buff": gettext_lazy("buff"),
    "steamed": gettext_lazy("steamed"),
}


@register.simple_tag(takes_context=True)
def here(context, name, *args):
    """The address of a page in this book."""
    return context["request"].here(name, *args)


@register.simple_tag(takes_context=True)
def here_if(context, name, *args):
    """As `here`, or nothing where the site has no such page or stands in no book."""
    request = context.get("request")
    try:
        return request.here(name, *args)
    except (NoReverseMatch, AttributeError):
        return ""


@register.simple_tag
def address_if(name, *args):
    try:
        return reverse(name, args=args)
    except NoReverseMatch:
        return ""


@register.simple_tag(takes_context=True)
def places(context):
    """The links of the navigation, with the one the page stands under."""
    match = getattr(context.get("request"), "resolver_match", None)
    stage = getattr(match, "app_name", "") if match else ""
    found = []
    for label, name, stages in PLACES:
        if address := here_if(context, name):
            found.append({"label": label, "address": address, "current": stage in stages})
    return found


@register.simple_tag(takes_context=True)
def mode(context):
    """The way of showing the reader chose: sun, dark, light, or "" for the device's own."""
    request = context.get("request")
    chosen = request.COOKIES.get("mode", "") if request else ""
    return chosen if chosen in MODES else ""


@register.simple_tag(takes_context=True)
def undo_of(context, message):
    """Where a “Kept” message can be taken back: its tags name the record, as kind:uid."""
    kind, _colon, uid = (message.extra_tags or "").partition(":")
    return here_if(context, "people:take_back", kind, uid) if uid else ""


def holding_of(context):
    return context.get("holding") or getattr(context.get("request"), "holding", None)


def _quantity(context, kind, value):
    if value is None or value == "":
        return NOT_WRITTEN
    return write(kind, getattr(value, "value", value), unit_of(holding_of(context), kind))


@register.simple_tag(takes_context=True)
def mass(context, kg):
    return _quantity(context, "mass", kg)


@register.simple_tag(takes_context=True)
def about_mass(context, kg):
    """A mass that was never weighed by itself."""
    return NOT_WRITTEN if kg is None else write_about(kg, unit_of(holding_of(context), "mass"))


@register.simple_tag(takes_context=True)
def length(context, metres):
    return _quantity(context, "length", metres)


@register.simple_tag(takes_context=True)
def thickness(context, metres):
    return _quantity(context, "thickness", metres)


@register.simple_tag(takes_context=True)
def temperature(context, celsius):
    return _quantity(context, "temperature", celsius)


@register.simple_tag(takes_context=True)
def humidity(context, fraction):
    return _quantity(context, "humidity", fraction)


@register.simple_tag(takes_context=True)
def part(context, fraction):
    return _quantity(context, "part", fraction)


@register.simple_tag(takes_context=True)
def hours(context, value):
    return _quantity(context, "hours", value)


@register.simple_tag(takes_context=True)
def count(context, value):
    return _quantity(context, "count", value)


@register.simple_tag(takes_context=True)
def day(context, value):
    """A date, or an instant as the holding's date."""
    if not value:
        return NOT_WRITTEN
    if isinstance(value, dt.datetime):
        value = value.astimezone(_zone(context)).date()
    return write_day(value)


@register.simple_tag(takes_context=True)
def moment(context, value, until=None):
    """An instant, a Moment, or the range from one instant to another."""
    if not value:
        return NOT_WRITTEN
    if until and isinstance(value, dt.datetime):
        value = Moment(value, until, "")
    return write_moment(value, _zone(context))


def _zone(context):
    return ZoneInfo(getattr(holding_of(context), "zone", None) or "UTC")


@register.simple_tag(takes_context=True)
def rod(context, length_m, type="brown", thickness="pencil", damp=0, known="", label=""):
    """A rod to scale. `known` is how we know how dry it is: measured, sister, calendar, word or nothing."""
    if not length_m:
        return ""
    drawn = rods.Rod(float(length_m), type, thickness, float(damp or 0), known)
    return rods.draw(drawn, label or _rod_in_words(context, drawn))


@register.inclusion_tag("_parts/scale.html", takes_context=True)
def scale(context):
    """The ruler over a list of rods, in the holding's unit: feet, or half metres."""
    if unit_of(holding_of(context), "length") == "ft":
        return {"unit": "ft", "marks": [f"{feet}'" for feet in range(1, 10)]}
    halves = (write("length", half / 2, "m") for half in range(1, 6))
    return {"unit": "m", "marks": list(halves)}


def _rod_in_words(context, drawn):
    words = {"type": ROD_TYPES.get(drawn.type, drawn.type), "length": _quantity(context, "length", drawn.length_m)}
    if drawn.damp:
        return pgettext("a drawn rod", "%(type)s, %(length)s, still damp at the butt") % words
    return pgettext("a drawn rod", "%(type)s, %(length)s") % words


@register.inclusion_tag("_parts/answer.html", takes_context=True)
def answer(context, state, how="", word=""):
    """The dryness answer: its word, its colour and how we know."""
    return {"state": state, "how": how, "word": word or ANSWER_WORDS.get(state, state)}


ANSWER_WORDS = {
    "dry": gettext_lazy("Dry"),
    "shed_dry": gettext_lazy("Shed-dry"),
    "not_yet": gettext_lazy("Not yet"),
    "cant_say": gettext_lazy("Can't say yet"),
    "damp_found": gettext_lazy("Damp found"),
}


@register.simple_tag
def say_yes():
    return _("Yes, that is right")
