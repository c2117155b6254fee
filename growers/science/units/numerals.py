"""Numbers as people write them: 12½, 3 1/2, 1/3, 3,2 and 1.234,5, in any script's digits."""

import re
import unicodedata
from fractions import Fraction

from growers.science.units.registry import UnitError

LONGEST_TEXT = 60

NUMBER = r"\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d{1,3}(?:\ \d{3})+(?![\d/])(?:[.,]\d+)?|[.,]?\d(?:[\d.,]*\d)?"

# Quote marks and dashes that phones and word processors put in; before NFKC, which would split some of them.
_SAME = str.maketrans(
    {
        **dict.fromkeys("’‘‛′ʹʼ´`＇", "'"),
        **dict.fromkeys("”“„‟″ʺ＂", '"'),
        **dict.fromkeys("−–—‒‐‑﹣－", "-"),
        **dict.fromkeys("º˚", "°"),
        "⁄": "/",
        "٪": "%",
        "٫": ".",
        "٬": None,
    }
)


def plain(text: str | None, kind: str) -> str:
    """`text` in lower case with plain digits, quotes, dashes and fractions (12½ → "12 1/2"), spaces single.

    Raises `UnitError` "nothing" when it is empty, "not_understood" when it is very long or holds a raised
    or circled digit, which plain digits would turn into another number (5² into 52).
    """
    text = (text or "").strip()
    if not text:
        raise UnitError("nothing", kind=kind, text="")
    if len(text) > LONGEST_TEXT:
        raise UnitError("not_understood", kind=kind, text=text)
    try:
        kept = "".join(map(_plain_character, text.translate(_SAME)))
    except ValueError:
        raise UnitError("not_understood", kind=kind, text=text) from None
    folded = unicodedata.normalize("NFKC", kept).casefold().replace("''", '"')
    return re.sub(r"\s+", " ", folded).strip()


def _plain_character(character: str) -> str:
    category = unicodedata.category(character)
    if category == "Nd":
        return str(unicodedata.decimal(character))
    if category == "Cf":
        return ""
    if category == "No":
        fraction = Fraction(unicodedata.numeric(character)).limit_denominator(100)
        if fraction.denominator == 1:
            raise ValueError(character)
        return f" {fraction.numerator}/{fraction.denominator}"
    return character


def number(written: str, *, kind: str, text: str, decimal: str = ".", unit: str = "", whole: bool = False) -> Fraction:
    """The value of `written`, which matches `NUMBER`, exactly.

    `decimal` is the mark of the reader's language, "." or ",". Both are understood as a decimal mark, but one
    before exactly three digits is taken so only if it is `decimal`, or if it follows a lone 0 (0,125): else
    `UnitError` "ambiguous", naming both readings with `unit`. With `whole` such a mark parts thousands.
    """
    *before, last = written.replace(" /", "/").replace("/ ", "/").split(" ")
    if "/" in last:
        top, bottom = last.split("/")
        if int(bottom) == 0 or len(before) > 1:
            raise UnitError("not_understood", kind=kind, text=text)
        return Fraction(before[0] if before else 0) + Fraction(int(top), int(bottom))
    marks = re.sub(r"[^.,]", "", written)
    digits = written.replace(" ", "")
    if len(set(marks)) == 2:
        return _both_marks(digits, kind=kind, text=text)
    if len(marks) > 1 or (whole and re.fullmatch(r"\d{1,3}[.,]\d{3}", digits)):
        return Fraction(_without_thousands(digits, marks[0], kind=kind, text=text))
    grouped = re.fullmatch(r"([1-9]\d{0,2})([.,])(\d{3})", digits)
    if grouped and marks != decimal:
        first, _, rest = grouped.groups()
        readings = (
            f"{first}{decimal}{rest.rstrip('0') or '0'} {unit}".strip(),
            f"{first}{rest} {unit}".strip(),
        )
        raise UnitError("ambiguous", kind=kind, text=text, readings=readings)
    return Fraction(digits.replace(",", "."))


def _both_marks(digits: str, *, kind: str, text: str) -> Fraction:
    mark = "." if digits.rindex(".") > digits.rindex(",") else ","
    if digits.count(mark) > 1:
        raise UnitError("not_understood", kind=kind, text=text)
    whole, rest = digits.split(mark)
    whole = _without_thousands(whole, "," if mark == "." else ".", kind=kind, text=text)
    return Fraction(f"{whole}.{rest}")


def _without_thousands(digits: str, mark: str, *, kind: str, text: str) -> str:
    """Thousands are set off in threes: 1.23.4 is a slip, not a number."""
    if not re.fullmatch(rf"\d{{1,3}}(?:{re.escape(mark)}\d{{3}})+", digits):
        raise UnitError("not_understood", kind=kind, text=text)
    return digits.replace(mark, "")
