"""Reading a day as people write it, and writing it back."""

import datetime as dt
import re
import unicodedata

from django.utils import dates as names
from django.utils.formats import date_format
from django.utils.translation import get_language, pgettext
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal, Unread

OLDEST_YEAR = 1900
LONGEST_TEXT = 60
NUMBERS = re.compile(r"(\d{1,2})\s*[./\- ]\s*(\d{1,2})(?:\s*[./\- ]\s*(\d{4}|\d{2}))?\.?")
ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
COUNTED = re.compile(r"(\d+)(?:st|nd|rd|th|\.|º)?")
AGO = re.compile(r"(\d+|an?|one|two|three) (day|week)s? ago")
SPELT = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3}


def tidy(text):
    """One spelling for what phones and hands type in many."""
    text = unicodedata.normalize("NFKC", str(text)).casefold()
    return " ".join(text.replace(",", " ").split()).strip(" .;")


def read_day(text, *, today, future=False):
    """The day meant by what was typed; Refusal with a helpful sentence otherwise.

    A day without its year, or a weekday, is the latest such day not after today;
    where the future is allowed, the first not before it.
    """
    words = tidy(text)
    if not words:
        raise Refusal(_("Write a day, such as “today”, “28 Dec” or 28/12/2025."))
    readers = (_from_words, _from_numbers, _from_names)
    # No day is below nought, and none takes a page of figures to write.
    readable = len(words) <= LONGEST_TEXT and not words.startswith(("-", "−"))
    day = next((found for read in readers if readable and (found := read(words, today, future))), None)
    if day is None:
        raise Unread(
            _("“%(text)s” is not a day we can read. Write it like “yesterday”, “28 Dec” or 28/12/2025.")
            % {"text": short(text)}
        )
    if day.year < OLDEST_YEAR:
        raise Refusal(_("%(day)s is too long ago. Look at the year.") % {"day": write_day(day)})
    if day > today and not future:
        raise Refusal(_("%(day)s has not come yet.") % {"day": write_day(day)})
    return day


def short(text):
    """What was typed, as it is said back in a sentence; in its field it stands whole."""
    text = str(text).strip()
    return text if len(text) <= LONGEST_TEXT else f"{text[: LONGEST_TEXT - 1]}…"


def write_day(day):
    # Translators: the pattern of a day, in Django's date format letters.
    return date_format(day, pgettext("pattern of a day", "D j M Y"))


def _from_words(words, today, future):
    steps = {"now": 0, "today": 0, "yesterday": -1, "the day before yesterday": -2, "tomorrow": 1}
    steps |= {
        tidy(_("now")): 0,
        tidy(_("today")): 0,
        tidy(_("yesterday")): -1,
        tidy(_("the day before yesterday")): -2,
        tidy(_("tomorrow")): 1,
    }
    if words in steps:
        return today + dt.timedelta(days=steps[words])
    if ago := AGO.fullmatch(words):
        count = SPELT.get(ago[1]) or int(ago[1])
        return _back(today, count * (7 if ago[2] == "week" else 1))
    return _from_weekday(words, today, future)


def _back(today, days):
    try:
        return today - dt.timedelta(days=days)
    except OverflowError:
        return dt.date(1, 1, 1)


def _from_weekday(words, today, future):
    before = words.startswith("last ")
    after = words.startswith("next ")
    bare = re.sub(r"^(last|next|this|on) ", "", words)
    weekday = weekday_number(bare)
    if weekday is None:
        return None
    if after or (future and not before):
        ahead = (weekday - today.weekday()) % 7
        return today + dt.timedelta(days=ahead or (7 if after else 0))
    back = (today.weekday() - weekday) % 7
    return today - dt.timedelta(days=back or (7 if before else 0))


def weekday_number(word):
    for number, full in names.WEEKDAYS.items():
        if _is_short_for(word, full) or word == tidy(names.WEEKDAYS_ABBR[number]):
            return number
    english = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
    return next((n for n, full in enumerate(english) if _is_short_for(word, full)), None)


def month_number(word):
    for number, full in names.MONTHS.items():
        if _is_short_for(word, full) or word == tidy(names.MONTHS_3[number]):
            return number
    return None


def _is_short_for(word, full):
    return len(word) >= 3 and tidy(full).startswith(word)


def _from_numbers(words, today, future):
    if iso := ISO.fullmatch(words):
        return _real_day(int(iso[1]), int(iso[2]), int(iso[3]))
    if not (found := NUMBERS.fullmatch(words)):
        return None
    first, second = int(found[1]), int(found[2])
    month_first = get_language() == "en-us" or second > 12
    month, day = (first, second) if month_first and first <= 12 else (second, first)
    return _dated(day, month, found[3], today, future)


def _from_names(words, today, future):
    """“28 Dec”, “December 28th 2025”, “Tue 24 Nov 2026”, “the 28th”."""
    words = re.sub(r"(?<=\d)(?=[^\W\d_]{3})|(?<=[^\W\d_]{3})(?=\d)", " ", words)  # 28dec
    parts = [part for part in re.split(r"[ ./\-]+", words) if part not in {"", "the", "of", "on"}]
    weekday = weekday_number(parts[0]) if len(parts) > 1 else None
    if weekday is not None:
        parts = parts[1:]
    months = [n for part in parts if (n := month_number(part))]
    numbers = [part for part in parts if not month_number(part)]
    if not numbers or len(months) > 1 or not (counted := COUNTED.fullmatch(numbers[0])):
        return None
    year = numbers[1].strip("'") if len(numbers) == 2 and parts[-1] == numbers[1] else None
    if months and (len(numbers) == 1 or (year and re.fullmatch(r"\d{4}|\d{2}", year))):
        day = _dated(int(counted[1]), months[0], year, today, future)
    elif not months and len(numbers) == 1:
        day = _of_a_month_near(int(counted[1]), today, future)
    else:
        return None
    return _on_its_weekday(day, weekday)


def _on_its_weekday(day, weekday):
    if day and weekday is not None and day.weekday() != weekday:
        raise Refusal(
            _("%(day)s is a %(weekday)s. Look at the day or the weekday.")
            % {"day": date_format(day, "j M Y"), "weekday": names.WEEKDAYS[day.weekday()]}
        )
    return day


def _dated(day, month, year, today, future):
    if year:
        return _real_day(full_year(year, today), month, day)
    years = range(today.year, today.year + 9) if future else range(today.year, today.year - 9, -1)
    for candidate in years:
        try:
            found = dt.date(candidate, month, day)
        except ValueError:
            continue
        if (found >= today) if future else (found <= today):
            return found
    return _real_day(today.year, month, day)


def _of_a_month_near(day, today, future):
    if not 1 <= day <= 31:
        return None
    first = today.replace(day=1)
    for _months in range(3):
        try:
            found = first.replace(day=day)
            if (found >= today) if future else (found <= today):
                return found
        except ValueError:
            pass
        first = (first + dt.timedelta(days=32) if future else first - dt.timedelta(days=1)).replace(day=1)
    return None


def full_year(text, today):
    year = int(text)
    if len(str(text)) > 2:
        return year
    # Two digits are this century unless that is well ahead: '97 is 1997.
    return 2000 + year if 2000 + year <= today.year + 2 else 1900 + year


def _real_day(year, month, day):
    try:
        return dt.date(year, month, day)
    except ValueError:
        text = f"{day}/{month}/{year}"
        raise Refusal(_("There is no such day as %(day)s. Look at the day and the month.") % {"day": text}) from None
