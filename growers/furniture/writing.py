"""Writing measured values in the holding's own units, and in the reader's way of writing numbers."""

import unicodedata

from django.utils.formats import get_format, number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.science import units

SI = {"mass": "kg", "length": "m", "thickness": "mm", "temperature": "C", "humidity": "%", "part": "%", "hours": "h"}
NOT_WRITTEN = "–"
PART_WORDS = {
    "hardly any": gettext_lazy("hardly any"),
    "a tenth": gettext_lazy("a tenth"),
    "a quarter": gettext_lazy("a quarter"),
    "a third": gettext_lazy("a third"),
    "half": gettext_lazy("half"),
    "two thirds": gettext_lazy("two thirds"),
    "three quarters": gettext_lazy("three quarters"),
    "all": gettext_lazy("all"),
}


def unit_of(holding, kind):
    """The unit this holding types and reads a kind of quantity in."""
    return getattr(holding, f"{kind}_unit", None) or SI.get(kind)


def write(kind, value, unit=None):
    """A value in SI as a person of that unit reads it."""
    if value is None:
        return NOT_WRITTEN
    return WRITERS[kind](float(value), unit or SI.get(kind), get_format("DECIMAL_SEPARATOR"))


def typed(text: str, unit: str) -> str:
    """A quantity as it was typed; a bare number with the unit it was read in."""
    return text if not text or any(c.isalpha() for c in text) or not unit.isalpha() else f"{text} {unit}"


def write_about(kg, unit):
    """A mass that is known only about: two figures of it, in kilograms or in pounds alone."""
    unit = "kg" if unit in ("kg", "g") else "lb"
    about = float(f"{float(units.from_si(kg, unit)):.2g}")
    places = len(f"{about:g}".partition(".")[2])
    return _("about %(much)s") % {"much": f"{number_format(about, places)}\N{NO-BREAK SPACE}{unit}"}


def _part(value, unit, decimal):
    if name := units.nearest_part(value):
        return str(PART_WORDS[name])
    written = units.write_part(value, decimal=decimal)
    percent = written.removeprefix("about ")
    return _("about %(percent)s") % {"percent": percent} if percent != written else written


WRITERS = {
    "mass": lambda value, unit, decimal: units.write_mass(value, unit, decimal=decimal),
    "length": lambda value, unit, decimal: units.write_length(value, unit, decimal=decimal),
    "thickness": lambda value, unit, decimal: units.write_thickness(value, unit, decimal=decimal),
    "temperature": lambda value, unit, decimal: units.write_temperature(value, unit, decimal=decimal),
    "humidity": lambda value, unit, decimal: units.write_humidity(value, decimal=decimal),
    "hours": lambda value, unit, decimal: units.write_hours(value),
    "part": _part,
    "count": lambda value, unit, decimal: number_format(int(value), force_grouping=True),
}


def apart(name):
    """A name as it is put among other words: one that runs right to left does not carry off the figures after it."""
    if any(unicodedata.bidirectional(sign) in ("R", "AL") for sign in name):
        return f"\u2068{name}\u2069"
    return name
