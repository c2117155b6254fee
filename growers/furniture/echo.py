"""What a typed text would be understood as, for the line under a field while it is being typed."""

from django.core.exceptions import ValidationError

from growers.furniture import fields

KINDS = {
    "mass": fields.MassField,
    "length": fields.LengthField,
    "thickness": fields.ThicknessField,
    "temperature": fields.TemperatureField,
    "humidity": fields.HumidityField,
    "much": fields.MuchField,
    "wanted": fields.WantedField,
    "part": fields.PartField,
    "hours": fields.HoursField,
    "count": fields.CountField,
    "money": fields.MoneyField,
    "year": fields.YearField,
    "day": fields.DayField,
    "moment": fields.MomentField,
    "coming_day": lambda **kwargs: fields.DayField(future=True, **kwargs),
    "coming_moment": lambda **kwargs: fields.MomentField(future=True, **kwargs),
}


def understood(kind, text, holding, today, now):
    """The text as understood, the sentence saying what is wrong with it, or "" for nothing or an unknown kind."""
    if kind not in KINDS or len(text) > 200:
        return ""
    field = KINDS[kind](required=False)
    field.bind(holding=holding, today=today, now=now)
    try:
        return str(field.echo(field.clean(text)))
    except ValidationError as error:
        return " ".join(error.messages)
