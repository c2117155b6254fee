"""What nobody should type and somebody will; and what a form takes when nothing is wrong with it."""

from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile

from growers.furniture import fields

ODD = {
    "nothing": "",
    "a space": " ",
    "nought": "0",
    "below nought": "-1",
    "beyond a float": "1e999",
    "not a number": "nan",
    "no end": "inf",
    "another unit": "3 m",
    "a decimal comma": "3,2",
    "thousands": "1,234 kg",
    "tomorrow": "tomorrow",
    "no such day": "31 Feb",
    "noughts": "0000",
    "a long text": "x" * 10_000,
    "a long number": "9" * 10_000,
    "a big number": "99999999999999999999",
    "emoji": "🧺 3 kg",
    "Arabic digits": "٣",
    "a raised two": "3²",
    "NUL": "3\0 kg",
    "mark-up": "<script>alert(1)</script>",
    "a template": "{{ request }} %(name)s %s",
    "year one": "1 Jan 0001",
    "the last year": "31 Dec 9999",
}

ORDINARY = {
    fields.MassField: "1 kg",
    fields.LengthField: "5 ft",
    fields.ThicknessField: "8 mm",
    fields.TemperatureField: "9 C",
    fields.HumidityField: "70 %",
    fields.PartField: "a tenth",
    fields.HoursField: "3 h",
    fields.MuchField: "a tenth",
    fields.CountField: "20",
    fields.MoneyField: "12.50",
    fields.YearField: "2019",
    fields.DayField: "2 Jun 2026",
    fields.MomentField: "2 Jun 2026 9:10",
    forms.BooleanField: "on",
    forms.FileField: None,
    forms.CharField: "Tansel",
}


def filled(form):
    """What a person might send with this form: what stands in it, and something ordinary everywhere else."""
    sent = {}
    for bound in form:
        value = bound.value()
        if value in (None, "", [], False):
            value = ordinary(bound.field)
        if value is not None:
            sent[bound.html_name] = [str(each) for each in value] if isinstance(value, list) else str(value)
    return sent


def ordinary(field):
    if isinstance(field, forms.FileField):
        return None
    if isinstance(field, forms.ChoiceField | forms.ModelChoiceField):
        return next((str(value) for value, _label in field.choices if value not in ("", None)), None)
    return next((text for kind, text in ORDINARY.items() if isinstance(field, kind)), None)


def picture():
    return SimpleUploadedFile("shed.jpg", b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 40, "image/png")


def long_file():
    return SimpleUploadedFile("air.csv", b"datetime,temp_c,rh_pct\n" + b"2026-01-31 14:00,3,85\n" * 230_000, "text/csv")
