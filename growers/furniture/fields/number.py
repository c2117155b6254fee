import re
import unicodedata
from decimal import Decimal, InvalidOperation

from django.core.exceptions import ValidationError
from django.utils.formats import get_format, number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.furniture import sentences
from growers.furniture.dates import OLDEST_YEAR, full_year, short, tidy
from growers.furniture.fields.own import OwnField
from growers.furniture.widgets import NumberPad
from growers.science import units


class CountField(OwnField):
    """Rods, bundles, stools, pieces: a whole number of at least `least`; outside `likely` it is asked about once."""

    kind = "count"

    def __init__(self, *, least=1, most=None, likely=None, **kwargs):
        kwargs.setdefault("widget", NumberPad(attrs={"inputmode": "numeric"}, kind="count"))
        super().__init__(**kwargs)
        self.least, self.most, self.likely = least, most, likely
        if "required" not in (kwargs.get("error_messages") or {}):
            self.error_messages["required"] = sentences.wanted("count")

    def to_python(self, value):
        if value is None or isinstance(value, int):
            return value
        text = str(value).strip()
        if not text:
            return None
        if self.least <= 0 and tidy(text) in {"0", "none", tidy(_("none"))}:
            return 0
        try:
            return units.read_count(text)
        except units.UnitError as error:
            raise ValidationError(sentences.sentence(error), code=error.code) from error

    def validate(self, value):
        super().validate(value)
        if value is None:
            return
        if value < self.least:
            raise ValidationError(_("At least %(least)s is wanted.") % {"least": self.least}, code="too_small")
        if self.most is not None and value > self.most:
            words = {"value": self.echo(value), "most": self.echo(self.most)}
            raise ValidationError(_("%(value)s is too many: at most %(most)s.") % words, code="too_large")

    def echo(self, value):
        return "" if value is None else number_format(value, force_grouping=True)

    def doubt(self, value):
        if value is None or not self.likely or self.likely[0] <= value <= self.likely[1]:
            return None
        return sentences.unlikely_count(value, *self.likely)


class MoneyField(OwnField):
    """An amount in the holding's currency, kept exactly."""

    kind = "money"

    def __init__(self, *, free=True, **kwargs):
        kwargs.setdefault("widget", NumberPad(kind="money"))
        super().__init__(**kwargs)
        self.free = free

    def to_python(self, value):
        if value is None or isinstance(value, Decimal):
            return value
        if not str(value).strip():
            return None
        text = self.without_currency(tidy_digits(value))
        mark = get_format("DECIMAL_SEPARATOR")
        if found := re.fullmatch(r"(-?[\d.,]*?)[.,](\d{1,2})", text):
            text = re.sub(r"[.,]", "", found[1]) + "." + found[2]
        elif re.fullmatch(r"-?\d{1,3}([.,]\d{3})+", text):
            text = re.sub(r"[.,]", "", text)
        try:
            amount = Decimal(text)
        except InvalidOperation:
            words = {"text": short(value), "example": f"12{mark}50"}
            says = _("“%(text)s” is not an amount of money. Write it like %(example)s.")
            raise ValidationError(says % words, code="money") from None
        if amount < 0:
            raise ValidationError(_("An amount of money is not below nothing."), code="not_positive")
        if amount == 0 and not self.free:
            raise ValidationError(_("An amount of money is more than nothing here."), code="not_positive")
        if amount >= 10_000_000:
            says = _("%(amount)s is too much. Look at the figure.")
            raise ValidationError(says % {"amount": self.echo(amount)}, code="too_large")
        return amount.quantize(Decimal("0.01"))

    def without_currency(self, text):
        """The figures alone, if only the currency stands before or after them: £12.50, 12.50 GBP, 1 200."""
        code = (getattr(self.holding, "currency", "") or "").casefold()
        signs = {code, *(c for c in text if unicodedata.category(c) == "Sc")}
        sign = f"(?:{'|'.join(map(re.escape, signs))})?"
        found = re.fullmatch(rf"{sign}\s*(-?[\d.,]+(?:\s\d{{3}})*(?:[.,]\d+)?)\s*{sign}", text)
        return re.sub(r"\s", "", found[1]) if found and len(text) < 40 else ""

    def prepare_value(self, value):
        return number_format(value, 2) if isinstance(value, Decimal) else value

    def echo(self, value):
        if value is None:
            return ""
        return f"{number_format(value, 2, force_grouping=True)} {getattr(self.holding, 'currency', '') or ''}".strip()


class YearField(OwnField):
    """A year alone, such as the one a bed was planted in."""

    kind = "year"
    default_error_messages = {"required": gettext_lazy("Write the year, such as 2019.")}

    def __init__(self, *, future=False, **kwargs):
        kwargs.setdefault("widget", NumberPad(attrs={"inputmode": "numeric"}, kind="year"))
        super().__init__(**kwargs)
        self.future = future

    def to_python(self, value):
        if value is None or isinstance(value, int):
            return value
        text = tidy_digits(value).strip(" '’")
        if not text:
            return None
        if not re.fullmatch(r"\d{2}|\d{4}", text):
            raise ValidationError(
                _("“%(text)s” is not a year. Write it like %(year)s.") % {"text": short(value), "year": self.today.year}
            )
        year = full_year(text, self.today)
        if year < OLDEST_YEAR:
            raise ValidationError(_("%(year)s is too long ago. Look at the year.") % {"year": year})
        if year > self.today.year and not self.future:
            raise ValidationError(_("%(year)s has not come yet.") % {"year": year})
        return year


def tidy_digits(text):
    """Plain digits, whichever script they were typed in; a raised one is no digit (3² is not 32)."""
    text = "".join("?" if unicodedata.category(c) == "No" else c for c in str(text))
    return "".join(str(int(c)) if c.isdecimal() else c for c in tidy(str(text).replace(",", "\0")).replace("\0", ","))
