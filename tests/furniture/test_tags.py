import datetime as dt
import re
from types import SimpleNamespace

import pytest
from django.template import Context, Template
from django.test import RequestFactory
from django.urls import NoReverseMatch

from growers.furniture.moments import Moment
from growers.science.units import Reading
from tests.furniture.conftest import carr

PAGES = {"today:today", "stock:shed", "people:take_back"}


def here(name, *args):
    if name not in PAGES:
        raise NoReverseMatch(name)
    return "/".join(["/hallow-carr", name.replace(":", "/"), *map(str, args), ""])


def request(holding, cookies=None, app="stock"):
    made = RequestFactory().get("/")
    made.holding, made.here = holding, here
    made.COOKIES = cookies or {}
    made.resolver_match = SimpleNamespace(app_name=app)
    return made


def drawn(source, holding=None, *, asked=None, **context):
    asked = asked or request(holding or carr())
    return Template("{% load withy %}" + source).render(Context({"request": asked, **context}))


@pytest.mark.parametrize(
    ("source", "value", "metric", "imperial"),
    [
        ("{% mass value %}", 5.528, "5.53 kg", "12 lb 3 oz"),
        ("{% length value %}", 1.524, "152 cm", "5&#x27;"),
        ("{% temperature value %}", 10.0, "10 °C", "50 °F"),
        ("{% humidity value %}", 0.65, "65 %", "65 %"),
        ("{% part value %}", 1 / 3, "a third", "a third"),
        ("{% thickness value %}", 0.009, "9 mm", "9 mm"),
        ("{% hours value %}", 30, "30 h", "30 h"),
        ("{% count value %}", 1200, "1,200", "1,200"),
        ("{% day value %}", dt.date(2026, 11, 24), "Tue 24 Nov 2026", "Tue 24 Nov 2026"),
    ],
)
def test_each_holding_reads_its_own_units(source, value, metric, imperial):
    assert drawn(source, carr(length_unit="cm"), value=value) == metric
    assert drawn(source, carr(mass_unit="lb", temperature_unit="F"), value=value) == imperial
    assert drawn(source, value=None) == "–"


def test_a_reading_is_written_by_its_value():
    assert drawn("{% mass value %}", value=Reading(5.528, "lb", "12 lb 3 oz")) == "5.53 kg"
    assert drawn("{% temperature value %}", value=0.0) == "0 °C"


@pytest.mark.parametrize(
    ("kg", "metric", "imperial"),
    [
        # 12.34 / 0.45359237 = 27.2 lb, and so on.
        (12.34, "about 12 kg", "about 27 lb"),
        (143.0, "about 140 kg", "about 320 lb"),
        (4.68, "about 4.7 kg", "about 10 lb"),
        (0.0857, "about 0.086 kg", "about 0.19 lb"),
        (-0.45, "about -0.45 kg", "about -0.99 lb"),
        (0.0, "about 0 kg", "about 0 lb"),
    ],
)
def test_what_was_never_weighed_by_itself_is_written_in_two_figures(kg, metric, imperial):
    for unit, written in (("kg", metric), ("lb", imperial)):
        assert drawn("{% about_mass kg %}", carr(mass_unit=unit), kg=kg).replace("\N{NO-BREAK SPACE}", " ") == written
    assert drawn("{% about_mass kg %}", kg=None) == "–"


def test_instants_are_local_to_the_holding():
    late = dt.datetime(2026, 7, 1, 23, 30, tzinfo=dt.UTC)  # half past midnight on the 2nd in London
    assert drawn("{% day value %}", value=late) == "Thu 2 Jul 2026"
    assert drawn("{% moment value %}", value=late) == "Thu 2 Jul 2026, 0:30"
    until = late + dt.timedelta(hours=2)
    assert drawn("{% moment value until %}", value=late, until=until) == "Thu 2 Jul 2026, between 0:30 and 2:30"
    assert drawn("{% moment value %}", value=Moment(late, until, "")) == "Thu 2 Jul 2026, between 0:30 and 2:30"


def test_a_holding_in_the_context_goes_before_the_requests():
    assert drawn("{% mass 0.90718474 %}", holding=carr(mass_unit="kg")) == "0.907 kg"
    page = Template("{% load withy %}{% mass 0.90718474 %}")
    assert page.render(Context({"request": request(carr()), "holding": carr(mass_unit="lb")})) == "2 lb"
    # A customer's sheet has no request with a holding on it.
    assert page.render(Context({"holding": carr(mass_unit="lb")})) == "2 lb"


def test_here_is_within_the_book():
    assert drawn("{% here 'stock:shed' 7 %}") == "/hallow-carr/stock/shed/7/"
    assert drawn("{% here 'stock:shed' as address %}[{{ address }}]") == "[/hallow-carr/stock/shed/]"
    with pytest.raises(NoReverseMatch):
        drawn("{% here 'no:page' %}")
    assert drawn("{% here_if 'no:page' %}") == ""


def test_the_way_round_names_the_place_one_stands_in():
    one = "{{ p.label }}={{ p.address }}{% if p.current %}*{% endif %} "
    source = "{% places as found %}{% for p in found %}" + one + "{% endfor %}"
    assert drawn(source) == "Today=/hallow-carr/today/today/ Shed=/hallow-carr/stock/shed/* "
    assert "Shed=/hallow-carr/stock/shed/*" in drawn(source, asked=request(carr(), app="drying"))
    assert Template("{% load withy %}" + source).render(Context({})) == ""


@pytest.mark.parametrize(("kept", "shown"), [("sun", "sun"), ("dark", "dark"), ('"><script>', ""), (None, "")])
def test_the_chosen_mode_is_one_we_know(kept, shown):
    asked = request(carr(), cookies={"mode": kept} if kept else {})
    assert drawn("{% mode %}", asked=asked) == shown


def test_the_answer_has_its_word_always():
    page = drawn("{% answer 'shed_dry' 'by its sister 482 17 06' %}")
    assert "<strong>Shed-dry</strong>" in page
    assert "by its sister 482 17 06" in page
    words = [drawn(f"{{% answer '{state}' %}}") for state in ("dry", "not_yet", "cant_say", "damp_found")]
    assert [re.search("<strong>(.*?)</strong>", w)[1] for w in words] == [
        "Dry", "Not yet", "Can&#x27;t say yet", "Damp found",
    ]  # fmt: skip


def test_a_rod_says_in_words_what_it_shows():
    assert "<title>brown, 5&#x27;</title>" in drawn("{% rod 1.524 %}")
    assert "<title>green, 5&#x27;, still damp at the butt</title>" in drawn("{% rod 1.524 'green' damp=0.4 %}")
    assert "<title>&lt;mine&gt;</title>" in drawn("{% rod 1.524 label=mine %}", mine="<mine>")
    assert drawn("{% rod value %}", value=None) == ""


def test_the_scale_over_a_list_is_in_the_holdings_unit():
    feet = re.findall("<span>(.*?)</span>", drawn("{% scale %}"))
    assert feet[0] == "1&#x27;"
    assert len(feet) == 9
    assert re.findall("<span>(.*?)</span>", drawn("{% scale %}", carr(length_unit="cm"))) == [
        "0.5 m", "1 m", "1.5 m", "2 m", "2.5 m",
    ]  # fmt: skip
