"""What nobody should type, in every field of every form."""

from collections import defaultdict
from itertools import cycle

import pytest
from django import forms
from django.db import transaction
from django.utils.html import escape

from growers.furniture.fields.choice import OfTheBook
from growers.furniture.widgets import NumberPad, Typed
from tests.attack.house import addresses, counted, entries
from tests.attack.odd import ODD, filled, long_file, picture

TYPED = (Typed, NumberPad, forms.Textarea, forms.TextInput)
ROUNDS = 4  # in each, every fourth field of a form has an odd word; which, goes round
found = []


def forms_of(client, slug, book):
    """(page, address, form) of every page that keeps one; of those for several kinds of record, one."""
    for page, address in dict(addresses(slug, book)).items():
        answer = client.get(address)
        form = answer.context and answer.context.get("form")
        if form is not None and client.post(address).status_code == 422:
            yield page, address, form


@pytest.fixture
def every_form(hers, mine, everything, clock):
    clock("2026-08-20 12:00")
    hers.raise_request_exception = True
    if not found:  # once for all tests here, which change nothing
        found.extend(forms_of(hers, mine.slug, everything))
    return found


def sent(client, address, said):
    """Send a form, saying yes to whatever is asked; nothing of it stays written."""
    with transaction.atomic():
        before = counted()
        answer = client.post(address, said)
        form = answer.context and answer.context.get("form")
        if answer.status_code == 422 and not form.errors:
            answer = client.post(address, {**said, "sure": form.sure})
        if answer.status_code == 422:
            assert counted() == before, address
        transaction.set_rollback(True)
    return answer


def test_ordinary_words_are_taken_nearly_everywhere(hers, every_form):
    taken = [page.name for page, address, form in every_form if sent(hers, address, filled(form)).status_code == 302]
    # The rest want one thing or another, not both, or a day that fits; most must pass, else nothing below is tried.
    assert len(taken) > 0.7 * len(every_form)


def check_answer(page, answer, odd):
    assert answer.status_code in (302, 422), (page.name, odd)
    if answer.status_code == 302:
        return
    form = answer.context["form"]
    assert form.errors or form.asks, (page.name, odd)
    assert all(str(sentence) for sentences in form.errors.values() for sentence in sentences)
    shown = answer.content.decode()
    assert "<script>alert" not in shown, (page.name, odd)
    for name, value in odd.items():
        if isinstance(form[name].field.widget, TYPED) and "\0" not in value and form[name].id_for_label in shown:
            assert escape(value.strip()) in shown, (page.name, name, value[:40])


def test_odd_words_are_answered_with_a_sentence_and_not_lost(hers, every_form):
    words = cycle(ODD.values())
    for page, address, form in every_form:
        for turn in range(ROUNDS):
            odd = dict(zip(list(form.fields)[turn::ROUNDS], words, strict=False))
            if odd:
                check_answer(page, sent(hers, address, filled(form) | odd), odd)


def test_odd_words_in_all_fields_at_once(hers, every_form):
    for (page, address, form), odd in zip(every_form, cycle(["a long number", "NUL", "mark-up"]), strict=False):
        answer = sent(hers, address, dict.fromkeys(form.fields, ODD[odd]) | {"client_id": ""})
        assert answer.status_code == 422, page.name
        assert answer.context["form"].errors, page.name


def test_no_choice_takes_another_books_record_or_another_kind(hers, theirs, everything, every_form):
    foreign = entries(theirs)
    tried = 0
    for page, address, form in every_form:
        kinds = {name: kind_of(field) for name, field in form.fields.items() if isinstance(field, OfTheBook)}
        for book, wanted in ((foreign, kinds), (everything, {name: ANOTHER[kind] for name, kind in kinds.items()})):
            said = {name: str(book[kind][0].uid) for name, kind in wanted.items()}
            if said:
                answer = sent(hers, address, filled(form) | said)
                assert answer.status_code == 422, page.name
                assert said.keys() <= answer.context["form"].errors.keys(), page.name
                tried += len(said)
    assert tried > 60


ANOTHER = defaultdict(lambda: "bed", bed="tank")


def kind_of(field):
    return field.queryset.model._meta.model_name


@pytest.mark.parametrize("file", [picture, long_file])
def test_a_file_that_is_no_loggers_is_refused_with_a_sentence(hers, every_form, file):
    asking = [(page, address, form) for page, address, form in every_form if form.is_multipart()]
    assert asking
    for page, address, form in asking:
        answer = sent(hers, address, filled(form) | {"file": file()})
        assert answer.status_code == 422, page.name
        assert answer.context["form"].errors["file"], page.name
