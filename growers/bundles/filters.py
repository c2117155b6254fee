import django_filters as df
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.furniture.lists import ListFilter, RecordFilter
from growers.harvest.models import LengthClass

from .models import Bundle, Place, Stack
from .queries import of_winter, winters_in


class BundleFilter(ListFilter):
    """Narrows bundles that carry `place_id` (see `with_place`)."""

    variety = RecordFilter(
        label=_("Variety"),
        records=lambda holding: Variety.objects.of(holding).order_by("name_key"),
        method="of_variety",
    )
    length = RecordFilter(
        label=_("Length"),
        field_name="length_class",
        records=lambda holding: LengthClass.objects.of(holding).order_by("min_m", "pk"),
    )
    type = df.ChoiceFilter(empty_label=_("any"), label=_("Type"), choices=Bundle.Type.choices)
    winter = df.ChoiceFilter(empty_label=_("any"), label=_("Winter"), method="of_winter")
    place = RecordFilter(
        label=_("Place"), records=lambda holding: Place.objects.of(holding).order_by("name_key"), method="in_place"
    )
    stack = RecordFilter(label=_("Stack"), records=lambda holding: Stack.objects.of(holding).order_by("name_key"))
    made = df.ChoiceFilter(empty_label=_("any"), label=_("How it was made"), choices=Bundle.Made.choices)
    left = df.ChoiceFilter(
        empty_label=_("any"),
        label=_("What is left"),
        choices=[("some", _("something left")), ("used", _("used up"))],
        method="with_left",
    )

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.filters["winter"].extra["choices"] = [(winter, winter) for winter in winters_in(self.holding)]

    def of_variety(self, bundles, name, variety):
        return bundles.filter(pk__in=Bundle.objects.of(self.holding).of_variety(variety).values("pk"))

    def of_winter(self, bundles, name, winter):
        return bundles.filter(pk__in=of_winter(self.holding, winter).values("bundle"))

    def in_place(self, bundles, name, place):
        return bundles.filter(place_id=place.pk)

    def with_left(self, bundles, name, left):
        return bundles.filter(left_ppb__gt=0) if left == "some" else bundles.filter(left_ppb=0)
