"""Lines and notes: text that is kept as it was written."""

from django import forms
from django.utils.translation import gettext_lazy as _

NOTE, WHY = _("Note"), _("Why it is corrected")


def line_field(label, max_length, *, required=False, **kwargs):
    return forms.CharField(label=label, max_length=max_length, required=required, **kwargs)


def note_field(label=NOTE, *, rows=2, **kwargs):
    return forms.CharField(label=label, required=False, widget=forms.Textarea(attrs={"rows": rows}), **kwargs)


def why_field(label=WHY, **kwargs):
    """Kept with the change, in the record's history."""
    return line_field(label, 100, **kwargs)
