import django_filters
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle, Place
from growers.drying.models import DrynessAnswer
from growers.furniture.lists import ListFilter, RecordFilter
from growers.harvest.models import LengthClass

from .queries.shed import of_winter, winters_in


class ShedFilter(ListFilter):
    variety = RecordFilter(records=Variety, label=_("Variety"), empty_label=_("any"), method="filter_variety")
    length = RecordFilter(records=LengthClass, field_name="length_class", label=_("Length"), empty_label=_("any"))
    winter = django_filters.ChoiceFilter(label=_("Winter"), empty_label=_("any"), method="filter_winter")
    type = django_filters.ChoiceFilter(choices=Bundle.Type.choices, label=_("Type"), empty_label=_("any"))
    place = RecordFilter(records=Place, label=_("Place"), empty_label=_("any"), method="filter_place")
    answer = django_filters.ChoiceFilter(choices=DrynessAnswer.Answer.choices, label=_("How dry"), empty_label=_("any"))

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.filters["winter"].extra["choices"] = [(winter, winter) for winter in winters_in(self.holding)]

    def filter_variety(self, bundles, _name, variety):
        return bundles.filter(pk__in=Bundle.objects.of(self.holding).of_variety(variety).values("pk"))

    def filter_winter(self, bundles, _name, winter):
        return bundles.filter(pk__in=of_winter(self.holding, winter).values("bundle"))

    def filter_place(self, bundles, _name, place):
        return bundles.filter(place_id=place.pk)
