from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Taking
from growers.furniture.fields import (
    PickField,
    note_field,
    why_field,
)

from .parts import (
    OfBundle,
    day_field,
    left_weighs_field,
    much_field,
    promise_field,
    promised_too_field,
)

GONE = [(value, label) for value, label in Taking.Gone.choices if value]


class TakeOutForm(OfBundle):
    """Rods taken out to work unsoaked, or gone. Soaking, selling and making have pages of their own."""

    much = much_field()
    left_weighs = left_weighs_field()
    what_for = PickField(label=_("What for"), choices=[("work", Taking.Purpose.WORK.label), *GONE], initial="work")
    on = day_field()
    promise = promise_field()
    promised_too = promised_too_field()
    note = note_field()

    def said(self):
        said = super().said()
        what_for = said.pop("what_for")
        if what_for == "work":
            return said | {"purpose": Taking.Purpose.WORK}
        return said | {"purpose": Taking.Purpose.GONE, "gone": what_for}


class GoneForm(TakeOutForm):
    """Burnt, eaten, lost or given: all the rest, unless less is said."""

    much = much_field(initial=_("the rest"))
    what_for = PickField(label=_("What became of it"), choices=GONE)
    promise = None
    left_weighs = None


class CorrectTakingForm(OfBundle):
    """Correct how much was taken, when, and of rods that are gone what became of them."""

    much = much_field()
    left_weighs = left_weighs_field()
    gone = PickField(label=_("What became of it"), choices=GONE)
    on = day_field()
    promised_too = promised_too_field()
    note = note_field()
    why = why_field()

    def __init__(self, *args, taking, **kwargs):
        super().__init__(*args, bundle=taking.bundle, **kwargs)
        if taking.purpose != Taking.Purpose.GONE:
            del self.fields["gone"]
