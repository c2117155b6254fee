from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields.own import OwnField
from growers.furniture.widgets import TileSelect, TileSelectMultiple


class PickField(OwnField, forms.ChoiceField):
    """A short choice as tiles."""

    widget = TileSelect
    default_error_messages = {
        "required": _("Tap one."),
        "invalid_choice": _("“%(value)s” is not one of these. Tap one."),
    }

    def echo(self, value):
        return ""


class OfTheBook(OwnField):
    """Choices are the living records of the holding, by uid; `narrowed` narrows them further.

    `records` is a model, or a function of the holding that returns a QuerySet.
    """

    def __init__(self, records, *, narrowed=None, **kwargs):
        self.records = records
        self.narrowed = narrowed or (lambda found: found)
        super().__init__(queryset=None, to_field_name="uid", **kwargs)

    def bind(self, *, holding, today, now):
        super().bind(holding=holding, today=today, now=now)
        found = self.records.objects.of(holding) if hasattr(self.records, "objects") else self.records(holding)
        self.queryset = self.narrowed(found)

    def echo(self, value):
        return ""


class RecordChoiceField(OfTheBook, forms.ModelChoiceField):
    default_error_messages = {
        "required": _("Choose one."),
        "invalid_choice": _("That one is not in your book now. Choose another."),
    }

    def __init__(self, records, **kwargs):
        kwargs.setdefault("empty_label", _("Choose…"))
        super().__init__(records, **kwargs)

    def to_python(self, value):
        try:
            return super().to_python(value)
        except ValidationError:
            raise ValidationError(self.error_messages["invalid_choice"], code="invalid_choice") from None


class RecordsChoiceField(OfTheBook, forms.ModelMultipleChoiceField):
    widget = TileSelectMultiple
    default_error_messages = {
        "required": _("Tap one or more."),
        "invalid_choice": _("One of those is not in your book now. Choose again."),
    }

    def clean(self, value):
        try:
            return super().clean(value)
        except ValidationError as error:
            # What is no uid at all is refused like any other record that is not here.
            code = "required" if error.code == "required" else "invalid_choice"
            raise ValidationError(self.error_messages[code], code=code) from None
