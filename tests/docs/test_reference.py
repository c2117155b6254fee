"""The reference pages tell of what there is, all of it and nothing else."""

from pathlib import Path

import pytest
from django.core.management import BaseCommand, get_commands, load_command_class
from django.db import models

from tests.docs.site import own_fields, pages, records, rows

ROOT = Path(__file__).parents[2]
REFERENCE = ROOT / "docs/reference"
UNITS = {"_kg": "kg", "_g": "g", "_mm": "mm", "_m": "m", "_m2": "m²", "_c": "°C", "_ppb": "parts in 1,000,000,000"}


def read(name):
    return (REFERENCE / name).read_text(encoding="utf-8")


def told_records():
    """{kind: {field: the rest of its row}}, as records.md has them under its third headings."""
    _top, *sections = read("records.md").split("\n### ")
    return {section.split("\n")[0]: dict(rows(section)) for section in sections}


TOLD = told_records()


def test_every_page_is_told_of_with_its_address():
    told = [(address, rest.split("|")[0].strip(" `")) for address, rest in rows(read("pages.md"))]
    assert len(told) == len(set(told))
    assert {name: address for address, name in told} == dict(pages())


def test_a_page_is_told_in_words():
    assert [address for address, rest in rows(read("pages.md")) if len(rest.split("|")[1].strip()) < 5] == []


def test_every_kind_of_record_is_told_of():
    assert set(TOLD) == set(records())


@pytest.mark.parametrize(("kind", "model"), list(records().items()))
def test_every_field_is_told_of(kind, model):
    assert set(TOLD[kind]) == set(own_fields(model))
    assert [field for field, rest in TOLD[kind].items() if "TODO" in rest or not rest.split("|")[-2].strip(" *")] == []


@pytest.mark.parametrize(("kind", "model"), list(records().items()))
def test_units_and_values_are_those_of_the_field(kind, model):
    for name, field in own_fields(model).items():
        unit = TOLD[kind][name].split("|")[-1].strip()
        if field.choices:
            assert unit == "; ".join(str(label) for _value, label in field.flatchoices), name
        elif isinstance(field, models.FloatField | models.BigIntegerField):
            for ending in [ending for ending in UNITS if name.endswith(ending)]:
                assert unit == UNITS[ending], name


def options(command, name):
    parser = command.create_parser("manage.py", name)
    return {option for action in parser._actions for option in action.option_strings}


def test_every_command_of_the_site_is_told_of_with_its_options():
    page = read("commands.md")
    ours = {name: app for name, app in get_commands().items() if app.startswith("growers.")}
    assert set(dict(rows(page.split("### ")[0].split("## Of this site")[1]))) == set(ours)
    for name, app in ours.items():
        own = options(load_command_class(app, name), name) - options(BaseCommand(), name)
        section = page.split(f"### `{name}`")[1].split("\n#")[0] if own else ""
        assert set(dict(rows(section))) == own, name


def test_commands_of_django_that_are_named_are_there():
    named = dict(rows(read("commands.md").split("## Of Django")[1]))
    assert {name.split()[0] for name in named} <= set(get_commands())
