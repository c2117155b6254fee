"""The answer in the words of the page. Takes an Assessment or a kept DrynessAnswer alike."""

from dataclasses import dataclass
from datetime import date

from django.utils.dates import MONTHS
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from ..models import DrynessAnswer, Word

Answer = DrynessAnswer.Answer
HOW = {
    "measured": gettext_lazy("by its own oven test"),
    "sister": gettext_lazy("by its sister"),
    "stack": gettext_lazy("by an oven test of its stack"),
    "cut": gettext_lazy("by an oven test of its cut"),
    "meter": gettext_lazy("by a meter, roughly"),
    "started": gettext_lazy("by what it was made from"),
    "before": gettext_lazy("made from rods that had dried out"),
    "word": gettext_lazy("by your word"),
    "calendar": gettext_lazy("by the calendar only"),
}
ROD_KNOWN = {"measured": "measured", "word": "word", "calendar": "calendar"}
VETOES = {str(says) for says in Word.Says if says != Word.Says.DRY}


@dataclass(frozen=True)
class InWords:
    """An answer as a page says it; every part but `word` and `how` may be empty."""

    state: str
    word: str
    how: str
    since: str
    moisture: str
    to_come: str
    chance: str
    guess: str
    settle: str
    beside: str
    store: str
    asks: tuple
    rod_known: str
    damp: float


def in_words(answer) -> InWords:
    return InWords(
        state=str(answer.answer),
        word=str(Answer(answer.answer).label),
        how=how_in_words(answer),
        since=since(answer),
        moisture=moisture_in_words(answer),
        to_come=to_come_in_words(answer),
        chance=chance_of_dry(answer),
        guess=guess_in_words(answer),
        settle=settle_in_words(answer),
        beside=word_beside(answer),
        store=store_in_words(answer.store_moisture),
        asks=tuple(asked(answer)),
        rod_known=ROD_KNOWN.get(answer.how_known, "sister"),
        damp=damp_part(answer),
    )


def percent(fraction):
    return _("%(n)d\u00a0%%") % {"n": round(fraction * 100)}


def plain(day):
    return date_format(day, "j M Y")


def chance_in_words(chance: float) -> str:
    """“about 9 in 10”; nearer certainty in twentieths and hundredths, never certain."""
    if chance >= 0.99:
        return _("more than 99 in 100")
    if chance >= 0.95:
        return _("more than 19 in 20")
    if chance < 0.05:
        return _("less than 1 in 20")
    return _("about %(n)d in 10") % {"n": min(9, max(1, round(chance * 10)))}


def how_in_words(answer):
    """How we know, in a few words."""
    if answer.how_known == "word" and answer.word in VETOES:
        return _("%(says)s, by your word") % {"says": Word.Says(answer.word).label}
    if answer.how_known == "sister":
        return _("by its sister %(tag)s") % {"tag": answer.details.get("sister", "")}
    how = str(HOW.get(answer.how_known, ""))
    if answer.how_known == "measured" and "weighed_on" in answer.details:
        return _("by its own oven test and weighings")
    return how


def since(answer):
    """When: dried out on, dry about."""
    if answer.answer == Answer.DRY:
        if answer.how_known == "before":
            return _("made from rods dried out before, about %(day)s") % {"day": plain(answer.dried_out_on)}
        text = _("dried out on about %(day)s") % {"day": plain(answer.dried_out_on)}
        return (
            _("%(dried)s; air-damp now: air it before selling by weight") % {"dried": text}
            if answer.details.get("air_damp")
            else text
        )
    if answer.answer == Answer.NOT_YET and answer.dry_on:
        days = {"about": answer.dry_on, "low": answer.dry_low_on, "high": answer.dry_high_on}
        return _("about %(about)s, between %(low)s and %(high)s if the air stays as it has been") % {
            name: plain(day) for name, day in days.items()
        }
    if answer.answer == Answer.DAMP:
        return _("since %(day)s") % {"day": plain(date.fromisoformat(answer.details["damp_on"]))}
    return ""


def moisture_in_words(answer):
    if answer.moisture is None:
        return ""
    said = moisture_range(answer.moisture, answer.moisture_low, answer.moisture_high)
    return _("moisture %(said)s") % {"said": said}


def moisture_range(moisture, low, high):
    words = {"about": percent(moisture), "low": percent(low), "high": percent(high)}
    if words["low"] == words["high"]:
        return _("about %(about)s") % words
    return _("about %(about)s, likely %(low)s to %(high)s") % words


def to_come_in_words(answer):
    if answer.shrinkage_to_come is None or answer.answer == Answer.DAMP:
        return ""
    return _("about %(n).1f %% of shrinking still to come indoors") % {"n": answer.shrinkage_to_come * 100}


def chance_of_dry(answer):
    if answer.chance is None:
        return ""
    chance = {"chance": chance_in_words(answer.chance)}
    if answer.answer == Answer.DRY:
        return _("%(chance)s that a basket of it holds tight, when it was found dry") % chance
    return _("%(chance)s that it is dry enough for a basket to hold tight") % chance


def guess_in_words(answer):
    """The best guess where nothing measured says more; always with its standing."""
    if answer.answer == Answer.NOT_YET and answer.how_known == "calendar":
        return _("None are dry within six weeks of the cut. %(guess)s") % {"guess": guess_by_calendar(answer.details)}
    if answer.answer != Answer.CANT_SAY:
        return ""
    if answer.moisture is not None:
        return _("The best guess is %(moisture)s, not sure enough to call it dry or not.") % {
            "moisture": moisture_in_words(answer)
        }
    goes_by = answer.details["guess"]
    if goes_by == "dried_again":
        return _("It was soaked and dried right out again before it was tied; nothing measured since.")
    if goes_by in ("bought", "found", "making", "returned"):
        return _("How dry it came is not in the book; nothing measured.")
    return guess_by_calendar(answer.details)


def guess_by_calendar(details):
    return _("%(calendar)s; %(air)s. Nothing measured of these rods.") % {
        "calendar": by_calendar(details),
        "air": by_air(details),
    }


def by_calendar(details):
    first = likely_from(details)
    likely = _("Likely since %(month)s") if first <= date.fromisoformat(details["on"]) else _("Likely from %(month)s")
    said = {"likely": likely % {"month": month_of(first)}}
    if details["guess"] == "peeled":
        return _("%(likely)s: peeled or boiled rods commonly take about three months") % said
    return _("%(likely)s: five to six months after the cut in a shed is common") % said


def likely_from(details):
    """The later of what the calendar and the air say: a guess must not be hasty."""
    first = date.fromisoformat(details["likely_from"])
    air = details.get("likely_by_air")
    return max(first, date.fromisoformat(air)) if air and air != "never" else first


def by_air(details):
    """What the air of the store adds to the calendar, if anything."""
    air = details.get("likely_by_air")
    if air is None:
        return _("by the calendar alone, no air was read where it stands")
    if air == "never":
        return _("but in the air read there it would not get dry enough, if it stayed so")
    day = date.fromisoformat(air)
    return _("by the air read there, if it stays so, %(month)s") % {"month": month_of(day)}


def month_of(day):
    return _("%(month)s %(year)d") % {"month": MONTHS[day.month], "year": day.year}


def settle_in_words(answer):
    """The cheapest thing that would settle it."""
    if answer.measure_next == "air":
        return _("Read the air where it stands, on two days or more: with its test that would settle it.")
    if answer.measure_next == "weigh":
        day = {"day": plain(answer.weigh_next_on)}
        if answer.moisture is None:
            return _("Weigh it about %(day)s, so that an oven test later tells what each weighing meant.") % day
        return _("Weigh it again about %(day)s.") % day
    if answer.measure_next == "oven":
        return _("An oven test of a few of its rods, and the bundle weighed the same day.")
    return ""


def word_beside(answer):
    """The grower's own word, shown beside what was measured and never as measured."""
    return _("You call it dry.") if answer.word == Word.Says.DRY else ""


def store_in_words(moisture):
    return _("rods here settle at about %(moisture)s") % {"moisture": percent(moisture)} if moisture is not None else ""


def asked(answer):
    sentences = {
        "sister_damp": _("A sister in its stack was found damp: look into the middle of this one too."),
        "too_light": _("It weighs less than its rods can, quite dry. Were rods taken out and not written down?"),
        "rose": _("It weighs more than the time before. Was it weighed wet, or was there a damp spell?"),
    }
    for code in answer.details.get("asks", ()):
        if code != "rose" or answer.answer != Answer.DRY:
            yield sentences[code]


def damp_part(answer):
    """The part of its drawn rod that is hatched as still damp: by the moisture from 15 % to 100 %, none once dry."""
    if answer.answer == Answer.DRY or answer.moisture is None:
        return 0.0
    return min(1.0, max(0.0, (answer.moisture - 0.15) / 0.85))
