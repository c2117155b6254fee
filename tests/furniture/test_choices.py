import uuid

import pytest
from django.core.exceptions import ValidationError

from growers.beds.models import Variety
from growers.furniture.fields import RecordChoiceField, RecordsChoiceField
from growers.furniture.forms import BaseForm
from growers.people.actions import strike_out, write


@pytest.fixture
def grow(book):
    def grow(name, *, holding, by):
        return write(Variety(holding=holding, name=name, name_key=name.casefold()), by=by)

    return grow


@pytest.fixture
def form(book, holding):
    class Form(BaseForm):
        variety = RecordChoiceField(Variety, label="Variety", narrowed=lambda found: found.order_by("name"))
        others = RecordsChoiceField(Variety, label="Others", required=False)

    def make(data=None):
        return Form(data, **book | {"holding": holding})

    return make


def test_only_the_living_records_of_this_book_are_offered(form, grow, holding, wren, other, ida, book):
    grow("Pellock", holding=holding, by=wren)
    struck = grow("Grey Tansel", holding=holding, by=wren)
    grow("Long Hesper", holding=other, by=ida)
    strike_out(record=struck, by=wren, reason="same as another", at=book["now"])
    labels = [str(label) for _value, label in form().fields["variety"].choices]
    assert labels == ["Choose…", "Pellock"]


def test_a_record_is_named_by_its_uid(form, grow, holding, wren):
    pellock = grow("Pellock", holding=holding, by=wren)
    merrow = grow("Merrow Red", holding=holding, by=wren)
    sent = form({"client_id": uuid.uuid4(), "variety": str(pellock.uid), "others": [str(merrow.uid)]})
    assert sent.is_valid(), sent.errors
    assert sent.said()["variety"] == pellock
    assert list(sent.said()["others"]) == [merrow]
    assert str(pellock.pk) != str(pellock.uid)


@pytest.mark.parametrize("field", [RecordChoiceField, RecordsChoiceField])
@pytest.mark.parametrize("theirs", ["another book's", "a made-up one", "no uid"])
def test_any_other_record_is_refused_alike(field, theirs, grow, holding, other, ida, book):
    uid = {"another book's": lambda: grow("Long Hesper", holding=other, by=ida).uid, "a made-up one": uuid.uuid4}.get(
        theirs, lambda: "12"
    )()
    choice = field(Variety)
    choice.bind(**book | {"holding": holding})
    with pytest.raises(ValidationError, match="not in your book now"):
        choice.clean([str(uid)] if field is RecordsChoiceField else str(uid))


def test_records_may_be_a_function_of_the_holding(grow, holding, wren, book):
    grow("Pellock", holding=holding, by=wren)
    choice = RecordChoiceField(lambda holding: Variety.objects.of(holding).filter(name="Nothing"))
    choice.bind(**book | {"holding": holding})
    assert not choice.queryset.exists()
