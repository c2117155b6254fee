"""Pure rules of the book: the winter's name, and names that are looked up."""

import unicodedata
from datetime import date


def winter_of(on: date, begins_month: int) -> str:
    """The winter in which a day falls, named as growers name it.

    Begins in July (northern): 28 December 2025 and 4 January 2026 are both 2025/26.
    Begins in January (southern): July 2026 is 2026.
    """
    year = on.year if on.month >= begins_month else on.year - 1
    return str(year) if begins_month == 1 else f"{year}/{(year + 1) % 100:02d}"


def winter_span(winter: str, begins_month: int) -> tuple[date, date]:
    """First day of a winter and first day of the next."""
    year = int(winter[:4])
    return date(year, begins_month, 1), date(year + 1, begins_month, 1)


def name_key(name: str) -> str:
    """How a name is compared: spacing, case and typographic form don't make another name."""
    return " ".join(unicodedata.normalize("NFKC", name).split()).casefold()


def tidy(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name).split())
