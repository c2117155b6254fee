"""The base of every form that keeps a record."""

import hashlib
from functools import cached_property
from uuid import uuid4

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from growers.furniture.renderer import Renderer

NO_MARK = _("This page came without its mark. Press the button once more.")


class OurBoundField(BoundField):
    """Adds to a field on a page: what was understood, and the question asked about it."""

    @cached_property
    def understood(self):
        """What the field made of the text, once the form has been sent and the field is right."""
        if not self.form.is_bound or self.errors or not hasattr(self.field, "echo"):
            return ""
        return self.field.echo(self.form.cleaned_data.get(self.name)) if hasattr(self.form, "cleaned_data") else ""

    @property
    def questions(self):
        return [sentence for field, sentence in getattr(self.form, "questions", ()) if field == self.name]

    @property
    def target(self):
        """The id an error in the summary leads to: of radios, the first."""
        return f"{self.auto_id}_0" if self.use_fieldset else self.id_for_label

    @property
    def aria_describedby(self):
        ids = [(super().aria_describedby or "")]
        if self.auto_id and not self.is_hidden:
            ids += [f"{self.auto_id}_question"] if self.questions else []
            ids += [f"{self.auto_id}_understood"] if getattr(self.field, "kind", None) else []
        return " ".join(filter(None, ids))


class Look:
    """How our forms are drawn."""

    default_renderer = Renderer
    bound_field_class = OurBoundField
    template_name = "_parts/fields.html"
    use_required_attribute = False


class BaseForm(Look, forms.Form):
    """Lends its fields the holding and its clock, carries the client id, and can ask about a value once."""

    one_of_several = ()
    """Fields of which one or another is needed: not told as “if you like”."""

    client_id = forms.UUIDField(
        widget=forms.HiddenInput,
        initial=uuid4,
        error_messages=dict.fromkeys(("required", "invalid"), NO_MARK),
    )

    def __init__(self, *args, holding, today, now, **kwargs):
        self.holding, self.today, self.now = holding, today, now
        self.questions = []
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            field.one_of_several = name in self.one_of_several
            if hasattr(field, "bind"):
                field.bind(holding=holding, today=today, now=now)
            elif field.error_messages.get("required") == forms.Field.default_error_messages["required"]:
                field.error_messages["required"] = _("This is needed. Fill it in.")

    def said(self):
        """What was said, by field, without the form's own machinery."""
        return {name: value for name, value in self.cleaned_data.items() if name != "client_id"}

    def question(self, field, sentence):
        """Ask about a value once; `field` None asks about the form as a whole."""
        self.questions.append((field, sentence))

    @property
    def general_questions(self):
        return [sentence for field, sentence in self.questions if field is None]

    def full_clean(self):
        self.questions = []
        super().full_clean()
        if "client_id" in self.errors:
            self.data = self.data.copy()
            self.data[self.add_prefix("client_id")] = str(uuid4())

    def _post_clean(self):
        super()._post_clean()
        for name, field in self.fields.items():
            doubt = field.doubt(self.cleaned_data.get(name)) if hasattr(field, "doubt") else None
            if doubt:
                self.question(name, doubt)

    def is_valid(self):
        return super().is_valid() and not self.asks

    @property
    def asks(self):
        """Whether there are questions that the sender has not yet said yes to as they now stand."""
        return bool(self.questions) and self.data.get("sure") != self.sure

    @property
    def sure(self):
        """Stands for the questions with the values they were about: another value is asked about anew."""
        asked = [(name, self[name].data if name else sentence) for name, sentence in self.questions]
        return hashlib.sha256(repr(asked).encode()).hexdigest()[:24]

    @property
    def saves_by_tap(self):
        """The field whose answers are the save buttons, if there is one."""
        return next((self[n] for n, f in self.fields.items() if getattr(f.widget, "saves", False)), None)
