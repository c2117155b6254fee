from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import (
    PartField,
    PickField,
    note_field,
    why_field,
)
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TapSelect

from ..models import BenchResult, Lift, Mellow
from .parts import (
    Corrects,
    InstantField,
    WordsField,
    moment_field,
)

STATES = [("", _("not said")), *((value, label) for value, label in Lift.State.choices if value)]
WRAPS = [(value, label) for value, label in Mellow.Wrap.choices if value]
NOT_WRAPPED = [("", _("not wrapped yet")), *WRAPS]


def which_field():
    return WordsField(
        label=_("Which ones"), required=False, max_length=60, chips=(_("the thin ones"), _("the thick ones"))
    )


class LiftForm(BaseForm):
    part = PartField(label=_("How much of what is in the water"), initial=_("all"), required=False)
    which = which_field()
    state = PickField(label=_("How they are"), choices=STATES, required=False)
    moment = moment_field()
    wrap_in = PickField(label=_("Wrapped at once in"), choices=NOT_WRAPPED, required=False)
    note = note_field()

    def said(self):
        said = super().said()
        return said | {"wrap_in": said["wrap_in"] or None}


class CorrectLiftForm(Corrects):
    part = PartField(label=_("What part of all that went in"))
    which = which_field()
    state = PickField(label=_("How they were"), choices=STATES, required=False)
    moment = moment_field()
    note = note_field()
    why = why_field()


class WrapForm(BaseForm):
    wrap = PickField(label=_("Wrapped in"), choices=[("", _("not said")), *WRAPS], required=False)
    began_at = InstantField()
    note = note_field()


class UnwrapForm(BaseForm):
    ended_at = InstantField(label=_("When unwrapped"))


class CorrectMellowForm(BaseForm):
    wrap = PickField(label=_("Wrapped in"), choices=[("", _("not said")), *WRAPS], required=False)
    began_at = InstantField(label=_("Wrapped when"))
    ended_at = moment_field(_("Unwrapped when"), required=False, initial="")
    note = note_field()
    why = why_field()

    def said(self):
        said = super().said()
        ended = said["ended_at"]
        return said | {"ended_at": getattr(ended, "middle", ended)}


class BenchForm(BaseForm):
    """One tap keeps it."""

    at = InstantField()
    note = note_field()
    result = PickField(label=_("How it worked"), choices=BenchResult.Result.choices, widget=TapSelect)


class CorrectBenchForm(BaseForm):
    at = InstantField()
    result = PickField(label=_("How it worked"), choices=BenchResult.Result.choices)
    note = note_field()
    why = why_field()
