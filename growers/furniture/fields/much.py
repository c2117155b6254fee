from django.core.exceptions import ValidationError
from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from growers.furniture import much, sentences
from growers.furniture.fields.own import OwnField
from growers.furniture.widgets import Typed
from growers.furniture.writing import unit_of, write
from growers.science import units

# Codes whose own sentence says more than that it could not be read.
TELLING = {"ambiguous", "not_positive", "too_large", "too_many", "not_whole"}


class MuchField(OwnField):
    """How much of one thing: “2.3 kg”, “40 rods”, “half” or “the rest” in one line. Cleans to `Much`."""

    kind = "much"
    chips = (gettext_lazy("the rest"), gettext_lazy("half"), gettext_lazy("a third"), gettext_lazy("a quarter"))
    default_error_messages = {
        "required": gettext_lazy("Say how much: 2.3 kg, 40 rods, half, or the rest."),
        "unread": gettext_lazy("“%(text)s” can't be read. Say how much: 2.3 kg, 40 rods, half, or the rest."),
    }

    def __init__(self, **kwargs):
        kwargs.setdefault("widget", Typed(kind=self.kind, keys=("kg", "g", "lb", "oz", "rods")))
        super().__init__(**kwargs)

    def to_python(self, value):
        if value is None or isinstance(value, much.Much):
            return value
        if not str(value).strip():
            return None
        try:
            return self.fitting(much.read_much(value, unit_of(self.holding, "mass")))
        except units.UnitError as error:
            if error.code in TELLING:
                raise ValidationError(sentences.sentence(error), code=error.code) from error
            raise ValidationError(self.error_messages["unread"] % {"text": value}, code=error.code) from error

    def fitting(self, said):
        """One bundle of one bundle is the rest of it; more are no part of one."""
        if said.how != much.BUNDLES:
            return said
        if said.value == 1:
            return much.Much(much.REST, text=said.text)
        sentence = _("This is about one bundle. Say how much of it: 2.3 kg, 40 rods, half, or the rest.")
        raise ValidationError(sentence, code="bundles")

    def prepare_value(self, value):
        return value.text if isinstance(value, much.Much) else value

    def echo(self, value):
        if value is None:
            return ""
        if value.how == much.REST:
            return _("all the rest")
        if value.how == much.RODS:
            return _("%(rods)s rods") % {"rods": number_format(int(value.value), force_grouping=True)}
        if value.how == much.BUNDLES:
            return ngettext("%(n)d bundle", "%(n)d bundles", int(value.value)) % {"n": value.value}
        kind = "mass" if value.how == much.MASS else "part"
        return write(kind, value.value, unit_of(self.holding, kind))


class WantedField(MuchField):
    """How much somebody wants, before it is known out of which bundle: “3 kg”, “40 rods” or “2 bundles”."""

    kind = "wanted"
    chips = ()
    default_error_messages = {
        "required": gettext_lazy("Say how much is wanted: 3 kg, 40 rods, or 2 bundles."),
        "unread": gettext_lazy("“%(text)s” can't be read. Say how much is wanted: 3 kg, 40 rods, or 2 bundles."),
    }

    def __init__(self, **kwargs):
        kwargs.setdefault("widget", Typed(kind=self.kind, keys=("kg", "g", "lb", "oz", "rods", "bundles")))
        super().__init__(**kwargs)

    def fitting(self, said):
        if said.how in (much.PART, much.REST):
            sentence = _("A part of what? Say how much is wanted: 3 kg, 40 rods, or 2 bundles.")
            raise ValidationError(sentence, code="part")
        return said
