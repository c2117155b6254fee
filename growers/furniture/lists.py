"""What lists share: filters kept in the address, paging, and the empty list that says what to do first."""

from datetime import date

import django_filters
from django import forms
from django.core.paginator import Paginator
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.furniture.forms import Look

PER_PAGE = 50


class FilterForm(Look, forms.Form):
    lends = {}

    def __init__(self, *args, **kwargs):
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            if getattr(field, "empty_label", None):
                field.empty_label = _("any")
            if hasattr(field, "bind"):
                field.bind(**self.lends)


class ListFilter(django_filters.FilterSet):
    """A FilterSet over `Model.objects.of(holding)`: `Shed(request.GET, queryset, holding=request.holding)`."""

    def __init__(self, data=None, queryset=None, *, holding, today=None, now=None, prefix=None):
        self.holding, self.today, self.now = holding, today, now
        super().__init__(data=data, queryset=queryset, prefix=prefix)

    def get_form_class(self):
        fields = {name: made.field for name, made in self.filters.items()}
        lends = {"holding": self.holding, "today": self.today, "now": self.now}
        return type(f"{type(self).__name__}Form", (FilterForm,), fields | {"lends": lends})

    @property
    def narrowed(self):
        """Whether anything is asked for, so that an empty list can say why it is empty."""
        return any(str(value).strip() for name in self.filters for value in self._sent(name))

    @property
    def told(self):
        """What the list is narrowed to, in words: [(label, value)]."""
        if not self.narrowed or not self.form.is_valid():
            return []
        there = ((self.form.fields[name], value) for name, value in self.form.cleaned_data.items())
        return [(field.label, in_words(field, value)) for field, value in there if value not in (None, "")]

    def _sent(self, name):
        name = f"{self.form_prefix}-{name}" if self.form_prefix else name
        return self.data.getlist(name) if hasattr(self.data, "getlist") else [self.data.get(name, "")]


def in_words(field, value):
    """A value chosen in a filter as its field shows it."""
    if hasattr(field, "label_from_instance"):
        return field.label_from_instance(value)
    if isinstance(value, date):
        return write_day(value)
    return str(dict(getattr(field, "choices", ())).get(value, value))


class RecordFilter(django_filters.ModelChoiceFilter):
    """Narrows by a record of this book, named by its uid in the address.

    `records` is a model, or a function of the holding that returns a QuerySet.
    """

    def __init__(self, *args, records, **kwargs):
        self.records = records
        super().__init__(*args, to_field_name="uid", **kwargs)

    def get_queryset(self, request):
        holding = self.parent.holding
        return self.records.objects.of(holding) if hasattr(self.records, "objects") else self.records(holding)


def paged(request, found, per_page=PER_PAGE):
    """The page of `found` that the address asks for; a number out of range gives the nearest page."""
    page = Paginator(found, per_page).get_page(request.GET.get("page"))
    query = request.GET.copy()
    query.pop("page", None)
    page.query = query.urlencode()
    return page


def table(columns, rows, caption=""):
    """What `_parts/table.html` draws as `table`: cards on a phone. The first cell of a row names it."""
    labelled = [list(zip(row, columns, strict=True)) for row in rows]
    return {"caption": caption, "columns": columns, "rows": labelled}
