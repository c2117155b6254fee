"""Nothing of one book shows in another, and a sheet shows nothing but what it is for."""

import re

import pytest
from django.db import models

from growers.people.queries import kinds
from tests.attack.house import addresses, entries

MARK = "Quernmore"  # stands in everything that was ever written in the other book


@pytest.fixture
def marked(theirs):
    """Every word typed into the other book has a mark in it."""
    theirs.name = f"{MARK} {theirs.name}"
    theirs.save()
    for model in kinds().values():
        for field in model._meta.concrete_fields:
            if isinstance(field, models.CharField | models.TextField) and is_free(field):
                model.objects.of(theirs, struck_out=True).exclude(**{field.name: ""}).update(**{field.name: MARK})
                break
    return theirs


def is_free(field):
    """Whether words of the grower's own stand in it."""
    return field.name in ("name", "label", "supplier", "whom", "note", "what", "where") and not field.choices


def test_no_page_shows_anything_of_another_book(hers, mine, marked, everything):
    uids = {str(record.uid) for found in entries(marked).values() for record in found}
    for page, address in addresses(mine.slug, everything):
        shown = hers.get(address).content.decode()
        assert MARK not in shown, page.name
        assert not uids & set(re.findall(r"[0-9a-f-]{36}", shown)), page.name
