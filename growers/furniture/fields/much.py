from django.core.exceptions import ValidationError
from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from growers.furniture import much, sentences
from growers.furniture.fields.own import OwnField
from growers.furniture.widgets import Typed
from growers.furniture.writing import unit_of, write
from growers.science import units

# Codes whose own sentence says more than that it could not be read.
TELLING = {"ambiguous", "not_positive", "too_large", "too_many", "not_whole"}


class MuchField(OwnField):
    """How much: “2.3 kg”, “40 rods”, “half” or “the rest” in one line. Cleans to `Much`."""

    kind = "much"
    chips = (gettext_lazy("the rest"), gettext_lazy("half"), gettext_lazy("a third"), gettext_lazy("a quarter"))
    default_error_messages = {"required": gettext_lazy("Say how much: 2.3 kg, 40 rods, half, or the rest.")}

    def __init__(self, **kwargs):
        kwargs.setdefault("widget", Typed(kind=self.kind, keys=("kg", "g", "lb", "oz", "rods")))
        super().__init__(**kwargs)

    def to_python(self, value):
        if value is None or isinstance(value, much.Much):
            return value
        if not str(value).strip():
            return None
        try:
            return much.read_much(value, unit_of(self.holding, "mass"))
        except units.UnitError as error:
            if error.code in TELLING:
                raise ValidationError(sentences.sentence(error), code=error.code) from error
            raise ValidationError(
                _("“%(text)s” can't be read. Say how much: 2.3 kg, 40 rods, half, or the rest.") % {"text": value},
                code=error.code,
            ) from error

    def prepare_value(self, value):
        return value.text if isinstance(value, much.Much) else value

    def echo(self, value):
        if value is None:
            return ""
        if value.how == much.REST:
            return _("all the rest")
        if value.how == much.RODS:
            return _("%(rods)s rods") % {"rods": number_format(int(value.value), force_grouping=True)}
        kind = "mass" if value.how == much.MASS else "part"
        return write(kind, value.value, unit_of(self.holding, kind))
