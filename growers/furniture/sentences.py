"""What is wrong with a quantity, and what would be right, in words.

`science` speaks in codes; this turns them into sentences for the person who typed.
"""

from django.utils.functional import lazy
from django.utils.text import format_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as _l

from growers.furniture.dates import short, tidy
from growers.furniture.writing import write
from growers.science import units

NOUNS = {
    "mass": _l("a weight"),
    "length": _l("a length"),
    "thickness": _l("a thickness"),
    "temperature": _l("a temperature"),
    "humidity": _l("a dampness of the air"),
    "part": _l("a part"),
    "time": _l("a time"),
    "hours": _l("a length of time"),
    "count": _l("a number"),
}
EXAMPLES = {
    "mass": _l("3.2 kg or 7 lb 1 oz"),
    "length": _l("1.52 m, 152 cm or 5'"),
    "thickness": _l("8 mm"),
    "temperature": _l("8 °C or 46 °F"),
    "humidity": _l("65 %"),
    "part": _l("half, a third or 30 %"),
    "hours": _l("8 h, 90 min or 2 days"),
    "count": _l("12"),
}
WATER_WORDS = {
    "ice": _l("ice"),
    "numbs the fingers": _l("numbs the fingers"),
    "cold": _l("cold"),
    "cool": _l("cool"),
    "mild": _l("mild"),
}


def wanted(kind):
    return format_lazy("{}", lazy(_wanted, str)(kind))


def _wanted(kind):
    return _("Write %(noun)s, such as %(example)s.") % {"noun": NOUNS[kind], "example": EXAMPLES[kind]}


def sentence(error):
    """The sentence for a `UnitError`."""
    said = error.params
    kind = said["kind"]
    words = {"text": short(said.get("text", "")), "noun": NOUNS[kind], "example": EXAMPLES[kind]}
    return SAYERS.get(error.code, _not_understood)(words, said)


def _not_understood(words, said):
    return _("“%(text)s” is not %(noun)s we can read. Write it like %(example)s.") % words


def _no_unit(words, said):
    return _("“%(text)s” in which unit? Write it with the unit, such as %(example)s.") % words


def _wrong_unit(words, said):
    return _("“%(text)s” is %(came)s; %(noun)s is wanted, such as %(example)s.") % (
        words | {"came": NOUNS.get(said.get("came"), _("something else"))}
    )


def _not_positive(words, said):
    return _("“%(text)s” is not more than nothing. Write %(noun)s such as %(example)s.") % words


def _ambiguous(words, said):
    first, second = said["readings"]
    return _("“%(text)s” could be %(first)s or %(second)s. Write the one you mean.") % (
        words | {"first": first, "second": second}
    )


def _too_many(words, said):
    return _("“%(text)s”: %(part)s is more than one %(unit)s. Look at the figures.") % (
        words | {"part": said["part"], "unit": said["unit"]}
    )


def _too_far(words, said):
    kind, slip = said["kind"], said.get("slip")
    if slip:
        meant = write(kind, said["meant"], unit_meant(slip) or said["unit"])
        return _("“%(text)s” is too much to be right. Did you mean %(meant)s?") % (words | {"meant": meant})
    words |= {"limit": write(kind, said["limit"])}
    if said["value"] < said["limit"]:
        return _("“%(text)s” is too little to be right: %(limit)s is the least we take.") % words
    return _("“%(text)s” is too much to be right: %(limit)s is the most we take.") % words


def _not_whole(words, said):
    return _("“%(text)s” is not a whole number. Write it like %(example)s.") % words


SAYERS = {
    "nothing": lambda words, said: _wanted(said["kind"]),
    "no_unit": _no_unit,
    "wrong_unit": _wrong_unit,
    "not_positive": _not_positive,
    "ambiguous": _ambiguous,
    "too_many": _too_many,
    "too_large": _too_far,
    "too_small": _too_far,
    "not_whole": _not_whole,
}


def unit_meant(slip):
    """The unit that was meant: pounds typed as kg were pounds."""
    meant, _for, typed = slip.partition("_for_")
    return {"f": "F", "c": "C"}.get(meant, meant) if typed else None


def unlikely(field, value, low, high):
    """The question about a figure far from what is likely, naming the likely slip."""
    figure = field.written(value.value, field.shown_unit(value))
    if slip := units.likely_slip(value.value, low, high, field.kind, value.unit):
        meant = field.written(units.as_meant(value.value, slip), unit_meant(slip) or field.shown_unit(value))
        words = {"figure": figure, "meant": meant}
        return _("%(figure)s is far from what is usual here. Did you mean %(meant)s?") % words
    low, high = (field.written(end, field.shown_unit(value)) for end in (low, high))
    words = {"figure": figure, "low": low, "high": high}
    return _("%(figure)s is far from what is usual here, %(low)s to %(high)s. Is it right?") % words


def unlikely_count(value, low, high):
    words = dict(zip(("figure", "low", "high"), (write("count", n) for n in (value, low, high)), strict=True))
    return _("%(figure)s is far from what is usual here, %(low)s to %(high)s. Is it right?") % words


def known_word(text, words):
    """A word of the reader's language as `science` knows it; any other text unchanged."""
    typed = tidy(text)
    return next((known for known, word in words.items() if tidy(word) == typed), text)


def water_words(text, known):
    """The sentence about a word for water that is not among those known."""
    words = {"text": short(text), "words": ", ".join(f"“{word}”" for word in known)}
    return _("“%(text)s” is no temperature the book knows. Write a figure such as 8 °C, or one of %(words)s.") % words


def water_band(field, value):
    """“cold: about 8 °C, from 5 °C to 11 °C”, or of a range typed in figures “8 °C to 10 °C”."""
    ends = {"low": value.low, "high": value.high, "about": value.value}
    words = {name: field.written(end, field.shown_unit(value)) for name, end in ends.items()} | {"word": value.text}
    if value.unit != "word":
        return _("%(low)s to %(high)s") % words
    return _("%(word)s: about %(about)s, from %(low)s to %(high)s") % words
