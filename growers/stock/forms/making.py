"""Bundles in, bundles out."""

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.bundles.models import Bundle
from growers.bundles.queries import tagged
from growers.furniture.fields import (
    CountField,
    HoursField,
    MassField,
    MuchField,
    PickField,
    RecordChoiceField,
    note_field,
)
from growers.furniture.much import REST, Much
from growers.furniture.refusals import Refusal
from growers.furniture.widgets import Typed
from growers.harvest.models import LengthClass

from ..actions import Out
from .parts import (
    OfBundle,
    day_field,
    much_field,
    place_field,
    promised_too_field,
)

LINES = 4


class SplitForm(OfBundle):
    much = much_field()
    mass = MassField(label=gettext_lazy("The new bundle weighs"), required=False)
    rods = CountField(label=gettext_lazy("Rods in it"), required=False)
    on = day_field()
    place = place_field()
    promised_too = promised_too_field()
    note = note_field()


class WithOthers(OfBundle):
    """More bundles beside the one the page is about, by their tags."""

    tags = forms.CharField(
        label=gettext_lazy("Tags of the others"),
        required=False,
        help_text=gettext_lazy("Several with a comma between."),
    )

    def clean_tags(self):
        found = [self.bundle]
        for code in filter(None, (part.strip() for part in self.cleaned_data["tags"].replace(";", ",").split(","))):
            found.append(self.bundle_tagged(code))
        return list(dict.fromkeys(found))

    def bundle_tagged(self, code):
        try:
            bundle = tagged(self.holding, code)
        except Refusal as refusal:
            raise forms.ValidationError(refusal.sentence) from refusal
        if not bundle.left_ppb:
            raise forms.ValidationError(_("Nothing is left of %(bundle)s, by the book.") % {"bundle": bundle})
        return bundle

    def said(self):
        said = super().said()
        return said | {"bundles": said.pop("tags")}


class MergeForm(WithOthers):
    mass = MassField(label=gettext_lazy("The new bundle weighs"), required=False)
    rods = CountField(label=gettext_lazy("Rods in it"), required=False)
    length_class = RecordChoiceField(
        LengthClass, label=gettext_lazy("Length"), required=False, empty_label=gettext_lazy("as it was")
    )
    on = day_field()
    place = place_field()
    promised_too = promised_too_field()
    note = note_field()


class WithOuts(WithOthers):
    """Lines of what came out: each a length, and how much of all that went in it is."""

    field_order = ["tags"]

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.lends = {"holding": self.holding, "today": self.today, "now": self.now}
        for n in range(1, LINES + 1):
            self.add_line(n)
        rest = [name for name in self.fields if not name.endswith(tuple(f"_{n}" for n in range(1, LINES + 1)))]
        head = [name for name in rest if name in ("client_id", "tags", "type", "hours")]
        lines = [name for name in self.fields if name not in rest]
        self.order_fields([*head, *lines, *(name for name in rest if name not in head)])

    def add_line(self, n):
        words = {"n": n}
        added = {
            f"length_{n}": RecordChoiceField(
                LengthClass, label=_("Bundle %(n)d: length") % words, required=False, empty_label=_("no such bundle")
            ),
            f"much_{n}": MuchField(
                label=_("Bundle %(n)d: how much") % words,
                required=False,
                help_text=_("a part, a weight, or the rest"),
                # Four rows of keys would hide the button.
                widget=Typed(kind="much"),
            ),
        }
        added[f"much_{n}"].chips = ()
        for name, field in added.items():
            field.bind(**self.lends)
            self.fields[name] = field

    def lines(self):
        """(n, length, how much) of each line in which something was said."""
        for n in range(1, LINES + 1):
            length, much = self.cleaned_data.get(f"length_{n}"), self.cleaned_data.get(f"much_{n}")
            if length or much:
                yield n, length, much

    def clean(self):
        said = super().clean()
        for n, length, _much in self.lines():
            if length is None and f"length_{n}" not in self.errors:
                self.add_error(f"length_{n}", _("Say of what length this bundle is."))
        if not self.errors and not list(self.lines()):
            self.add_error("length_1", _("Say what came out: one bundle or more."))
        return said

    def said(self):
        said = {name: value for name, value in super().said().items() if not name.startswith(("length_", "much_"))}
        outs = [Out(length_class=length, much=much or Much(REST)) for _n, length, much in self.lines()]
        return said | {"outs": outs}


class RegradeForm(WithOuts):
    rejects = MuchField(label=gettext_lazy("Rejects"), required=False, help_text=gettext_lazy("a part or a weight"))
    on = day_field()
    place = place_field()
    promised_too = promised_too_field()
    note = note_field()


class MakeIntoForm(WithOuts):
    type = PickField(
        label=gettext_lazy("Made into"),
        choices=[(each.value, each.label) for each in (Bundle.Type.WHITE, Bundle.Type.BUFF, Bundle.Type.STEAMED)],
    )
    hours = HoursField(label=gettext_lazy("Hours boiled or steamed"), required=False)
    bark = MuchField(
        label=gettext_lazy("Bark that came off"),
        required=False,
        help_text=gettext_lazy("a part or a weight; none off steamed rods"),
    )
    rejects = MuchField(label=gettext_lazy("Rejects"), required=False, help_text=gettext_lazy("a part or a weight"))
    on = day_field()
    place = place_field()
    promised_too = promised_too_field()
    note = note_field()
