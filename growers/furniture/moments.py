"""Reading a moment as people write it: exact when they know it, a range when they do not."""

import datetime as dt
import re
from dataclasses import dataclass

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from growers.furniture.dates import LONGEST_TEXT, read_day, short, tidy, write_day
from growers.furniture.refusals import Refusal, Unread

CLOCK = re.compile(r"(?:\bat )?\b(\d{1,2})(?::(\d{2})(?::\d{2}(?:\.\d+)?)?|h(\d{2})?\b)\s?(am|pm)?\b")
TWELVE = re.compile(r"(?:\bat )?\b(\d{1,2})(?:[.](\d{2}))?\s?(am|pm)\b")
DOTTED = re.compile(r"(\d{1,2})\.(\d{2})|(\d{1,2})(\d{2})")
SPAN = re.compile(r"(?:between )?(\d{1,2}[:.]\d{2})\s?(?:-|–|to|and)\s?(\d{1,2}[:.]\d{2})")
AGO = re.compile(r"(\d+|an?|one|two|three|half an) (minute|min|hour|h)s? ago")
ABOUT = re.compile(r"^(about|around|roughly|circa|ca|~)\s*")
SPELT = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "half an": 0.5}
# Hours of the local day, from and until; a night runs on into the next day.
PARTS = {"morning": (6, 12), "afternoon": (12, 18), "evening": (18, 24), "night": (18, 30)}
GRACE = dt.timedelta(minutes=2)
WIDTH_OF_ABOUT = dt.timedelta(minutes=30)


@dataclass(frozen=True)
class Moment:
    """Some instant from `at` to `until`, both aware; the same when it is known exactly."""

    at: dt.datetime
    until: dt.datetime
    text: str

    @property
    def exact(self):
        return self.at == self.until

    def over_by(self, at):
        """Whether it was past at an instant for sure. A span holds no instant of its end: Monday is over by 0:00."""
        return self.until < at or (self.until == at and not self.exact)

    @property
    def middle(self):
        return self.at + (self.until - self.at) / 2


def read_moment(text, *, zone, now, future=False):
    """The Moment meant by what was typed in the holding's zone; a Refusal with a sentence otherwise."""
    typed = str(text).strip()
    words = tidy(text)
    if not words:
        raise Refusal(_("Write when, such as “now”, “7:10”, “yesterday 7:10” or “this morning”."))
    now = now.astimezone(zone)
    at, until = _ends(words, typed, zone, now, future)
    if at > now and not future:
        if at - now > GRACE:
            raise Refusal(_("%(moment)s has not come yet.") % {"moment": write_moment(Moment(at, at, typed), zone)})
        at = now
    if until > now and not future:
        until = now
    return Moment(at, max(at, until), typed)


def _ends(words, typed, zone, now, future):
    if words in {"now", tidy(_("now"))}:
        return now, now
    if len(words) > LONGEST_TEXT:
        raise unread(typed)
    if ago := AGO.fullmatch(words):
        minutes = (SPELT.get(ago[1]) or int(ago[1])) * (60 if ago[2].startswith("h") else 1)
        return (_ago(now, minutes),) * 2
    about, words = bool(ABOUT.match(words)), ABOUT.sub("", words)
    words = _in_english(words)
    for read in (_span, _clock, _part_of_day, _whole_day, _day_then_digits):
        if ends := read(words, zone, now, future):
            return _widened(ends, about)
    raise unread(typed)


def unread(typed):
    says = _("“%(text)s” is not a time we can read. Write it like “now”, “7:10”, “yesterday 7:10” or “this morning”.")
    return Unread(says % {"text": short(typed)})


def _ago(now, minutes):
    try:
        return (now.astimezone(dt.UTC) - dt.timedelta(minutes=minutes)).astimezone(now.tzinfo)
    except OverflowError:
        raise Refusal(_("That is too long ago. Look at the number.")) from None


def _widened(ends, about):
    at, until = ends
    return (at - WIDTH_OF_ABOUT, until + WIDTH_OF_ABOUT) if about and at == until else ends


def _in_english(words):
    """Part-of-day words of the reader's language, as the patterns here know them."""
    own = {
        tidy(_("morning")): "morning",
        tidy(_("afternoon")): "afternoon",
        tidy(_("evening")): "evening",
        tidy(_("night")): "night",
        tidy(_("this morning")): "this morning",
        tidy(_("last night")): "last night",
    }
    return own.get(words, words)


def _span(words, zone, now, future):
    if not (found := SPAN.search(words)):
        return None
    day = _day(words.replace(found[0], " "), now, future)
    hours = [tuple(int(n) for n in re.split(r"[:.]", end)) for end in found.groups()]
    first = _local(day, *hours[0], zone)
    if hours[1] == (24, 0):
        return first, _midnight(day, zone, 24)
    ends_next_day = hours[1] < hours[0]
    return first, _local(day + dt.timedelta(days=ends_next_day), *hours[1], zone)


def _clock(words, zone, now, future):
    words = re.sub(r"(?<=\d)t(?=\d\d:)", " ", words)
    words = re.sub(r"\b(noon|midday)\b", "12:00", words)
    found = CLOCK.search(words) or TWELVE.search(words)
    if found:
        groups = found.groups()
        hour, minute = int(groups[0]), int(next((g for g in groups[1:-1] if g), 0))
        rest = words.replace(found[0], " ")
        return _instant(rest, _by_half_day(hour, groups[-1]), minute, zone, now, future)
    if (found := DOTTED.fullmatch(words)) and (time := _digits(found)):
        return _instant("", *time, zone, now, future)
    if found := re.fullmatch(r"(?:at )?(\d{1,2})(?: o'clock)?", words):
        return _instant("", int(found[1]), 0, zone, now, future)
    return None


def _by_half_day(hour, half):
    if half and not 1 <= hour <= 12:
        return 99
    return hour % 12 + (12 if half == "pm" else 0) if half else hour


def _digits(found):
    hour, minute = (int(n) for n in found.groups() if n is not None)
    return (hour, minute) if hour < 24 and minute < 60 else None


def _instant(rest, hour, minute, zone, now, future):
    instant = _local(_day(rest, now, future), hour, minute, zone)
    return instant, instant


def _part_of_day(words, zone, now, future):
    found = re.search(r"\b(this |in the |last |to)?(morning|afternoon|evening|night)\b", words)
    if not found:
        return None
    day = _day(words.replace(found[0], " "), now, future)
    if found[1] == "last ":
        day -= dt.timedelta(days=1)
    first, last = PARTS[found[2]]
    if first == 6 and day == now.date() and now.hour < 6:
        first = 0
    return _midnight(day, zone, first), _midnight(day, zone, last)


def _whole_day(words, zone, now, future):
    try:
        day = read_day(words, today=now.date(), future=future)
    except Unread:
        return None
    return _midnight(day, zone), _midnight(day, zone, 24)


def _day_then_digits(words, zone, now, future):
    rest, _space, last = words.rpartition(" ")
    found = DOTTED.fullmatch(last)
    time = _digits(found) if found else None
    return _instant(rest, *time, zone, now, future) if time else None


def _day(words, now, future):
    words = re.sub(r"^(at|on|in the)\b|\b(at|on|in the)$", "", tidy(words)).strip()
    return read_day(words, today=now.date(), future=future) if words else now.date()


def _midnight(day, zone, hours=0):
    """A round hour of a local day; 24 and more fall on the next day."""
    naive = dt.datetime.combine(day, dt.time()) + dt.timedelta(hours=hours)
    return naive.replace(tzinfo=zone).astimezone(dt.UTC).astimezone(zone)


def _local(day, hour, minute, zone):
    if hour > 23 or minute > 59:
        raise Refusal(_("There is no such time of day. Write it like 7:10 or 19:10."))
    naive = dt.datetime.combine(day, dt.time(hour, minute))
    # fold=0: of the two half past ones when the clocks go back, the first.
    instant = naive.replace(tzinfo=zone)
    again = instant.astimezone(dt.UTC).astimezone(zone)
    if again.replace(tzinfo=None) != naive:
        raise Refusal(
            _("%(time)s did not happen on %(day)s: the clocks went forward. Write %(right)s if it was then.")
            % {"time": _hour(naive), "day": write_day(day), "right": _hour(again)}
        )
    return instant


def _hour(instant):
    return date_format(instant, "G:i")


def write_moment(moment, zone):
    """A datetime or a Moment as a person reads it, in the holding's zone."""
    if isinstance(moment, dt.datetime):
        moment = Moment(moment, moment, "")
    at, until = moment.at.astimezone(zone), moment.until.astimezone(zone)
    if moment.exact:
        return _("%(day)s, %(time)s") % {"day": write_day(at.date()), "time": _hour(at)}
    if at == _midnight(at.date(), zone) and until == _midnight(at.date(), zone, 24):
        return _("some time on %(day)s") % {"day": write_day(at.date())}
    if until <= _midnight(at.date(), zone, 24):
        end = "24:00" if until.date() != at.date() else _hour(until)
        words = {"day": write_day(at.date()), "first": _hour(at), "last": end}
        return _("%(day)s, between %(first)s and %(last)s") % words
    words = {"first": write_moment(at, zone), "last": write_moment(until, zone)}
    return _("between %(first)s and %(last)s") % words
