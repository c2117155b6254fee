import django_filters as df
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.furniture.lists import ListFilter, RecordFilter
from growers.harvest.models import Cut, LengthClass
from growers.harvest.queries import cuts_of_winter
from growers.people.rules import winter_of

from .models import Bundle, Find, Place, Purchase, Stack


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
        winters = winters_of(self.holding)
        self.filters["winter"].extra["choices"] = [(winter, winter) for winter in winters]

    def of_variety(self, bundles, name, variety):
        return bundles.filter(pk__in=Bundle.objects.of(self.holding).of_variety(variety).values("pk"))

    def of_winter(self, bundles, name, winter):
        told = Q(origins__purchase__told_winter=winter) | Q(origins__find__told_winter=winter)
        if winter[:4].isdigit():
            told |= Q(origins__cut__in=cuts_of_winter(self.holding, winter))
        found = Bundle.objects.of(self.holding).filter(told, origins__struck_out_at=None)
        return bundles.filter(pk__in=found.values("pk"))

    def in_place(self, bundles, name, place):
        return bundles.filter(place_id=place.pk)

    def with_left(self, bundles, name, left):
        return bundles.filter(left_ppb__gt=0) if left == "some" else bundles.filter(left_ppb=0)


def winters_of(holding):
    """Every winter that bundles can be of, as cut or as told; the newest first."""
    days = Cut.objects.of(holding).values_list("first_on", flat=True)
    winters = {winter_of(on, holding.winter_begins_month) for on in days}
    for told in (Purchase, Find):
        winters |= set(told.objects.of(holding).exclude(told_winter="").values_list("told_winter", flat=True))
    return sorted(winters, reverse=True)
