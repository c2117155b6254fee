"""Fields for measured things: whatever unit is typed, a `units.Reading` in SI comes out."""

from dataclasses import replace

from django.core.exceptions import ValidationError
from django.utils.formats import get_format

from growers.furniture import sentences
from growers.furniture.fields.own import OwnField
from growers.furniture.widgets import Typed
from growers.furniture.writing import PART_WORDS, SI, unit_of, write
from growers.science import units


class QuantityField(OwnField):
    """A bare number is in `unit`, else the holding's; outside `likely` (low, high in SI) it is asked about once."""

    reader = None
    keys = ()

    def __init__(self, *, unit=None, likely=None, **kwargs):
        kwargs.setdefault("widget", Typed(kind=self.kind, keys=self.keys))
        super().__init__(**kwargs)
        self.unit = unit
        self.likely = likely
        if "required" not in (kwargs.get("error_messages") or {}):
            self.error_messages["required"] = sentences.wanted(self.kind)

    @property
    def bare_unit(self):
        return self.unit or unit_of(self.holding, self.kind)

    def to_python(self, value):
        if value is None or isinstance(value, units.Reading):
            return value
        if not str(value).strip():
            return None
        try:
            # A word of the reader's language is read as science's own, but kept as it was typed.
            return replace(self.read(str(value).strip()), text=str(value).strip())
        except units.UnitError as error:
            raise ValidationError(sentences.sentence(error), code=error.code) from error

    def read(self, text):
        return type(self).reader(text, self.bare_unit, decimal=get_format("DECIMAL_SEPARATOR"))

    def prepare_value(self, value):
        if isinstance(value, units.Reading):
            return value.text or self.written(value.value)
        return self.written(value) if isinstance(value, int | float) else value

    def written(self, value, unit=None):
        return write(self.kind, value, unit or self.bare_unit)

    def echo(self, value):
        if value is None:
            return ""
        ways = (self.shown_unit(value), unit_of(self.holding, self.kind), SI[self.kind])
        typed, *others = (self.written(value.value, unit) for unit in ways)
        other = next((other for other in others if other != typed), None)
        return f"{typed} = {other}" if other else typed

    def shown_unit(self, value):
        """The unit typed, or the holding's where it was told by a word."""
        return value.unit if value.unit in units.UNITS else unit_of(self.holding, self.kind)

    def has_changed(self, initial, data):
        return self.prepare_value(initial) != data

    def doubt(self, value):
        if value is None or not self.likely:
            return None
        low, high = self.likely
        if low <= value.value <= high:
            return None
        return sentences.unlikely(self, value, low, high)


class MassField(QuantityField):
    kind = "mass"
    reader = staticmethod(units.read_mass)
    keys = ("kg", "g", "lb", "oz")


class LengthField(QuantityField):
    kind = "length"
    reader = staticmethod(units.read_length)
    keys = ("ft", "in", "m", "cm")


class ThicknessField(QuantityField):
    """Measured at the butt."""

    kind = "thickness"
    reader = staticmethod(units.read_thickness)
    keys = ("mm",)


class TemperatureField(QuantityField):
    """With `words`, water can be told by the hand: ice, numbs the fingers, cold, cool, mild."""

    kind = "temperature"
    reader = staticmethod(units.read_temperature)
    keys = ("°C", "°F")

    def __init__(self, *, words=True, **kwargs):
        super().__init__(**kwargs)
        self.words = words
        self.chips = tuple(sentences.WATER_WORDS.values()) if words else ()

    def to_python(self, value):
        try:
            return super().to_python(value)
        except ValidationError as refusal:
            # A word, and none that is known.
            if self.words and not any(sign.isdigit() for sign in str(value)):
                raise ValidationError(sentences.water_words(value, self.chips), code=refusal.code) from refusal
            raise

    def read(self, text):
        known = sentences.known_word(text, sentences.WATER_WORDS) if self.words else text
        return units.read_temperature(known, self.bare_unit, words=self.words, decimal=get_format("DECIMAL_SEPARATOR"))

    def echo(self, value):
        if value is None or value.low is None:
            return super().echo(value)
        return sentences.water_band(self, value)


class HumidityField(QuantityField):
    kind = "humidity"
    reader = staticmethod(units.read_humidity)
    keys = ("%",)


class PartField(QuantityField):
    """A part of a whole, more than nothing and at most all."""

    kind = "part"
    reader = staticmethod(units.read_part)
    keys = ("%",)
    chips = tuple(PART_WORDS[word] for word in ("hardly any", "a tenth", "a quarter", "a third", "half", "all"))

    def read(self, text):
        return super().read(sentences.known_word(text, PART_WORDS))

    def echo(self, value):
        """“a third = 33 %”, so that a word and its figure stand side by side."""
        if value is None:
            return ""
        percent = write("humidity", value.value)
        written = self.written(value.value)
        return written if percent in written else f"{written} = {percent}"


class HoursField(QuantityField):
    kind = "hours"
    reader = staticmethod(units.read_hours)
    keys = ("h", "min", "days")
