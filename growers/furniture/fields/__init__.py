"""Fields that read what a tired person types. Each cleans to SI or a day, and says back what it understood."""

from growers.furniture.fields.choice import PickField, RecordChoiceField, RecordsChoiceField
from growers.furniture.fields.much import MuchField, WantedField
from growers.furniture.fields.number import CountField, MoneyField, YearField
from growers.furniture.fields.own import OwnField
from growers.furniture.fields.quantity import (
    HoursField,
    HumidityField,
    LengthField,
    MassField,
    PartField,
    QuantityField,
    TemperatureField,
    ThicknessField,
)
from growers.furniture.fields.text import line_field, note_field, why_field
from growers.furniture.fields.when import DayField, MomentField

__all__ = [
    "CountField",
    "DayField",
    "HoursField",
    "HumidityField",
    "LengthField",
    "MassField",
    "MomentField",
    "MoneyField",
    "MuchField",
    "OwnField",
    "PartField",
    "PickField",
    "QuantityField",
    "RecordChoiceField",
    "RecordsChoiceField",
    "TemperatureField",
    "ThicknessField",
    "WantedField",
    "YearField",
    "line_field",
    "note_field",
    "why_field",
]
