import re

import pytest
from django import forms
from django.http import QueryDict
from django.template.loader import render_to_string

from growers.furniture import fields as f
from growers.furniture.forms import BaseForm
from growers.furniture.widgets import TapSelect, TileSelect

CLIENT_ID = "1c2b7b8e-7f64-4f4c-9b3c-3d1f2f1f2f1f"


class Weigh(BaseForm):
    mass = f.MassField(label="Weight", likely=(0.5, 25))
    on = f.DayField(label="Day", initial="today")
    water = f.TemperatureField(label="Water", required=False)
    thickness = f.PickField(label="Thickness", choices=[("fine", "Fine"), ("stout", "Stout")], required=False)
    note = forms.CharField(label="Note", required=False)


class Check(BaseForm):
    at = f.MomentField(label="When", initial="now")
    result = f.PickField(label="Bend", widget=TapSelect, choices=[("cracks", "Cracks"), ("folds", "Folds")])


def sent(form=Weigh, *, book, **data):
    query = QueryDict(mutable=True)
    query.update({"client_id": CLIENT_ID, **data})
    return form(query, **book)


def drawn(form, **context):
    return render_to_string("_parts/form.html", {"form": form, **context})


def test_said_is_what_was_said_and_nothing_of_the_forms_own(book):
    form = sent(book=book, mass="6.1", on="yesterday")
    assert form.is_valid()
    said = form.said()
    assert set(said) == {"mass", "on", "water", "thickness", "note"}
    assert said["mass"].value == pytest.approx(6.1)
    assert said["on"].isoformat() == "2026-11-23"
    assert str(form.cleaned_data["client_id"]) == CLIENT_ID


def test_each_form_shown_has_a_client_id_of_its_own_and_keeps_it_when_sent_back(book):
    ids = {re.search(r'name="client_id" value="([^"]+)"', drawn(Weigh(**book)))[1] for _ in range(3)}
    assert len(ids) == 3
    assert CLIENT_ID in drawn(sent(book=book, mass="3 m"))


def test_two_forms_do_not_lend_each_other_their_book(book):
    from tests.furniture.conftest import carr

    first, second = Weigh(**book), Weigh(**book | {"holding": carr(mass_unit="lb")})
    assert (first.fields["mass"].bare_unit, second.fields["mass"].bare_unit) == ("kg", "lb")


def test_an_unlikely_figure_is_asked_about_once(book):
    form = sent(book=book, mass="61", on="today")
    assert not form.is_valid()
    assert form.errors == {}
    assert form["mass"].questions == ["61 kg is far from what is usual here. Did you mean 6.1 kg?"]
    page = drawn(form)
    assert "Did you mean 6.1 kg?" in page
    assert 'value="61"' in page
    yes = re.search(r'<button[^>]* name="sure" value="(\w+)"[^>]*>Yes, that is right</button>', page)[1]

    assert sent(book=book, mass="61", on="today", sure=yes).is_valid()
    # Something else may be put right meanwhile, but another figure is asked about anew.
    assert sent(book=book, mass="61", on="yesterday", sure=yes).is_valid()
    assert not sent(book=book, mass="73", on="today", sure=yes).is_valid()
    assert sent(book=book, mass="6.1", on="today").is_valid()


def test_a_yes_does_not_excuse_what_is_wrong(book):
    yes = sent(book=book, mass="61", on="today")
    yes.is_valid()
    form = sent(book=book, mass="61", on="bah", sure=yes.sure)
    assert not form.is_valid()
    assert "on" in form.errors


def test_a_form_may_ask_about_itself_as_a_whole(book):
    class Asking(Weigh):
        def clean(self):
            self.question(None, "It was lighter last week. Is this the same bundle?")

    form = sent(Asking, book=book, mass="6", on="today")
    assert not form.is_valid()
    assert drawn(form).count("It was lighter last week.") == 2  # in the summary and above the button
    assert sent(Asking, book=book, mass="6", on="today", sure=form.sure).is_valid()


def test_errors_stand_at_the_top_and_beside_the_field_and_keep_what_was_typed(book):
    page = drawn(sent(book=book, mass="3 m", on="yesterday", note="tied red"))
    assert page.count("“3 m” is a length; a weight is wanted") == 2
    assert 'href="#id_mass"' in page
    assert 'value="3 m"' in page
    assert 'value="tied red"' in page
    assert "One thing needs putting right:" in page
    field = re.search(r"<input[^>]* name=\"mass\"[^>]*>", page)[0]
    assert 'aria-invalid="true"' in field
    assert "id_mass_error" in field
    assert 'id="id_mass_error"' in page


def test_what_was_understood_is_said_when_the_form_comes_back(book):
    page = drawn(sent(book=book, mass="3 m", on="yesterday"))
    assert re.search(r'id="id_on_understood"[^>]*>Mon 23 Nov 2026<', page)
    assert re.search(r'id="id_mass_understood"[^>]*></p>', page)


def test_every_id_that_describes_a_field_is_on_the_page(book):
    for form in (Weigh(**book), sent(book=book, mass="61", on=""), sent(Check, book=book, at="bah")):
        page = drawn(form)
        ids = set(re.findall(r'\bid="([^"]+)"', page))
        for described in re.findall(r'aria-describedby="([^"]+)"', page):
            assert set(described.split()) <= ids
        for target in re.findall(r'(?:for|href)="#?(id_[^"]+)"', page):
            assert target in ids


def test_the_save_is_the_last_tap(book):
    page = drawn(Weigh(**book), save="Keep the weight")
    assert re.search(r">\s*Keep the weight</button>\s*</div>\s*</form>\s*$", page)


def test_where_the_answers_are_the_buttons_enter_presses_none_of_them(book):
    page = drawn(Check(**book))
    buttons = re.findall(r"<button[^>]*>", page)
    submits = [b for b in buttons if 'type="button"' not in b]
    assert submits[0] == '<button type="submit" disabled hidden>'
    assert [re.search(r'value="(\w+)"', b)[1] for b in submits[1:]] == ["cracks", "folds"]
    assert "Keep it" not in page


def test_a_tap_is_said_like_any_other_answer(book):
    form = sent(Check, book=book, at="now", result="folds")
    assert form.is_valid()
    assert form.said()["result"] == "folds"


def test_no_keyboard_opens_by_itself_and_nothing_is_styled_in_line(book):
    for page in (drawn(Weigh(**book)), drawn(sent(book=book, mass="61", on="")), drawn(Check(**book))):
        assert "autofocus" not in page
        assert not re.search(r"\sstyle=|\son\w+=|<script|<style", page)


def test_tiles_are_radios_with_a_legend(book):
    page = drawn(Weigh(**book))
    assert re.search(r'<legend>Thickness <span class="optional">if you like</span></legend>', page)
    assert page.count('type="radio"') == 2
    assert isinstance(Weigh.base_fields["thickness"].widget, TileSelect)


def test_a_page_without_its_mark_is_given_one_and_sent_back(book):
    for lost in ("", "&client_id=bah"):
        form = Weigh(QueryDict(f"mass=6&on=today{lost}"), **book)
        assert not form.is_valid()
        page = drawn(form)
        assert "Press the button once more." in page
        mark = re.search(r'name="client_id" value="([^"]+)"', page)[1]
        assert sent(book=book, mass="6", on="today", client_id=mark).is_valid()
