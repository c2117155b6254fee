import django_filters
from django.utils.translation import gettext_lazy as _

from growers.bundles.filters import BundleFilter
from growers.drying.models import DrynessAnswer


class ShedFilter(BundleFilter):
    """The shed holds only what is left, and adds how dry it is."""

    answer = django_filters.ChoiceFilter(choices=DrynessAnswer.Answer.choices, label=_("How dry"), empty_label=_("any"))
    stack = made = left = None
