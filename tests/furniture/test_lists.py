import django_filters
import pytest
from django.http import QueryDict
from django.template.loader import render_to_string
from django.test import RequestFactory

from growers.beds.models import Variety
from growers.furniture.lists import ListFilter, RecordFilter, paged, table
from growers.people.actions import write


class Narrow(ListFilter):
    name = django_filters.CharFilter(lookup_expr="icontains", label="Name")
    same = RecordFilter(field_name="uid", records=Variety, label="Variety", method="only")

    def only(self, found, name, variety):
        return found.filter(pk=variety.pk)


@pytest.fixture
def varieties(holding, wren, other, ida):
    for name in ("Pellock", "Merrow Red", "Grey Tansel"):
        write(Variety(holding=holding, name=name, name_key=name.casefold()), by=wren)
    write(Variety(holding=other, name="Long Hesper", name_key="long hesper"), by=ida)
    return Variety.objects.of(holding).order_by("name")


def narrowed(query, holding, varieties):
    return Narrow(QueryDict(query), varieties, holding=holding)


def test_a_list_is_narrowed_by_its_address(holding, varieties):
    found = narrowed("name=re", holding, varieties)
    assert [v.name for v in found.qs] == ["Grey Tansel", "Merrow Red"]
    assert found.narrowed
    assert not narrowed("name=&page=2", holding, varieties).narrowed


def test_a_filter_offers_only_this_books_records_and_names_them_by_uid(holding, varieties):
    choices = list(narrowed("", holding, varieties).form.fields["same"].choices)
    assert str(choices[0][1]) == "any"
    assert sorted(str(label) for value, label in choices if value) == ["Grey Tansel", "Merrow Red", "Pellock"]
    pellock = varieties.get(name="Pellock")
    assert list(narrowed(f"same={pellock.uid}", holding, varieties).qs) == [pellock]


def test_a_filter_stays_closed_and_tells_what_the_list_is_narrowed_to(holding, varieties):
    pellock = Variety.objects.get(name="Pellock")
    page = render_to_string(
        "_parts/filter.html", {"filter": narrowed(f"name=re&same={pellock.uid}", holding, varieties)}
    )
    assert '<details class="filter">' in page
    assert "Narrowed to: Name <strong>re</strong>, Variety <strong>Pellock</strong>" in page
    assert page.count("Show all") == 2
    wrong = render_to_string("_parts/filter.html", {"filter": narrowed("same=nonsense", holding, varieties)})
    assert '<details class="filter" open>' in wrong
    assert "Narrowed to" not in wrong
    assert 'value="re"' in page
    assert "if you like" not in page
    assert "open" not in render_to_string("_parts/filter.html", {"filter": narrowed("", holding, varieties)})


def test_pages_keep_the_filter_and_bear_a_number_out_of_range(varieties):
    request = RequestFactory().get("/", {"name": "a&b", "page": "99"})
    page = paged(request, varieties, per_page=2)
    assert (page.number, page.paginator.num_pages) == (2, 2)
    drawn = render_to_string("_parts/pager.html", {"page": page})
    assert 'href="?name=a%26b&amp;page=1"' in drawn
    assert "2 of 2" in drawn
    assert not render_to_string("_parts/pager.html", {"page": paged(request, varieties)}).strip()


def test_an_empty_list_says_what_to_do_first():
    empty = render_to_string("_parts/empty.html", {"sentence": "No bed yet.", "do": "Plant a bed", "do_url": "/x/"})
    assert "No bed yet." in empty
    assert '<a class="button act" href="/x/">Plant a bed</a>' in empty
    hidden = render_to_string("_parts/empty.html", {"narrowed": True, "do": "Plant a bed", "do_url": "/x/"})
    assert "Show all" in hidden
    assert "Plant a bed" not in hidden


def test_a_table_carries_its_labels_so_that_it_can_be_cards():
    made = table(["Variety", "Soaks"], [["Pellock", 14], ["Merrow <Red>", 3]], "All")
    drawn = render_to_string("_parts/table.html", {"table": made})
    assert '<th scope="row">Merrow &lt;Red&gt;</th><td data-label="Soaks">3</td>' in drawn
    with pytest.raises(ValueError, match="longer"):
        table(["Variety", "Soaks"], [["Pellock"]])
