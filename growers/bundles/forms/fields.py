"""Fields that several of this stage's forms ask for."""

from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.furniture.fields import CountField, MassField, PickField, RecordChoiceField, ThicknessField
from growers.harvest.models import LengthClass

from ..models import Bundle, Place


def in_order(*names):
    return lambda found: found.order_by(*names)


def variety_field(**kwargs):
    kwargs = {"label": _("Variety"), "required": False, **kwargs}
    return RecordChoiceField(Variety, narrowed=in_order("name_key"), **kwargs)


def length_field(**kwargs):
    return RecordChoiceField(LengthClass, narrowed=in_order("min_m", "pk"), **{"label": _("Length"), **kwargs})


def place_field(**kwargs):
    kwargs = {"label": _("Place"), "required": False, **kwargs}
    return RecordChoiceField(Place, narrowed=in_order("name_key"), **kwargs)


def type_field():
    return PickField(label=_("Type"), choices=Bundle.Type, initial=Bundle.Type.BROWN)


def thickness_field():
    return PickField(label=_("Thickness"), choices=Bundle.Thickness.choices, required=False)


def butt_field():
    return ThicknessField(label=_("Thickness at the butt"), required=False, likely=(0.002, 0.05))


def form_field():
    return PickField(label=_("Tied as"), choices=Bundle.Form, initial=Bundle.Form.BUNDLE)


def mass_field(label=None):
    return MassField(label=label or _("Weight of each"), required=False, likely=(0.3, 40))


def rods_field(label=None):
    return CountField(label=label or _("Rods in each"), required=False, likely=(5, 2000))


def butt_in_mm(said):
    """The butt as it is kept, in millimetres."""
    butt = said.pop("butt_mm", None)
    return said | {"butt_mm": butt and butt.value * 1000}
