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


def is_winter(text: str, begins_month: int) -> bool:
    """Whether a text names a winter as this holding names them, and not as somebody may have told it."""
    try:
        return winter_of(winter_span(text, begins_month)[0], begins_month) == text
    except ValueError:
        return False


def name_key(name: str) -> str:
    """How a name is compared: spacing, case and typographic form don't make another name."""
    # Folding can take a letter apart, so it is put together again.
    return " ".join(unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", name).casefold()).split())


def tidy(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name).split())


def named(name: str) -> dict[str, str]:
    """A name as it is kept: tidied, and as it is looked up."""
    return {"name": tidy(name), "name_key": name_key(name)}


def weighed(mass, prefix: str = "", factor: float = 1.0) -> dict:
    """A weight (a Reading) as it is kept: in kg, and as it was typed. `factor` is that of a scale set right."""
    kg, unit, text = (mass.value * factor, mass.unit, mass.text) if mass else (None, "", "")
    return {f"{prefix}mass_kg": kg, f"{prefix}mass_unit": unit, f"{prefix}mass_text": text}
