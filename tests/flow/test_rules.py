"""The house keeps its rules; and each rule is shown to catch a planted fault."""

import ast

import pytest
from django.apps import apps
from django.db import models
from django.db.migrations.loader import MigrationLoader
from django.test.utils import isolate_apps

from growers.people.models import Entry
from tests.flow import house, rules

PAGES_AND_WORK = ("views", "api", "forms", "filters", "queries", "actions", "pages", "trace")
WITHOUT_A_CLOCK = ("actions", "queries", "filters", "forms", "rules", "models", "science", "charts", "views")


def ours(model):
    return house.stage_of(model.__module__)


def complaints(rule, *files):
    return [f"{module} {said}" for module, tree in house.modules(*files) for said in rule(tree)]


def own_models():
    return [model for model in apps.get_models(include_auto_created=True) if ours(model)]


def test_records_are_reached_through_of_alone():
    free = {model.__name__ for model in own_models() if not issubclass(model, Entry)}
    assert complaints(lambda tree: rules.passes_by_of(tree, free), *PAGES_AND_WORK) == []


@pytest.mark.parametrize(
    "planted",
    [
        "bundle = Bundle.objects.get(uid=uid)",
        "bundles = models.Bundle.objects.all()",
        "manager = Bundle.objects",
        "bundles = Bundle.objects.of()",
        "bundles = Bundle._default_manager.all()",
        "bundles = Bundle._base_manager.all()",
        "bundle = get_object_or_404(Bundle, uid=uid)",
        "bundle = shortcuts.get_object_or_404(models.Bundle, uid=uid)",
        "bundles = getattr(Bundle, 'objects').all()",
    ],
)
def test_a_view_that_skips_of_is_caught(planted):
    view = f"def page(request, uid):\n    {planted}\n    return render(request, 'bundles/bundle.html')\n"
    assert len(list(rules.passes_by_of(ast.parse(view), free={"User"}))) == 1


@pytest.mark.parametrize(
    "sound",
    [
        "bundle = Bundle.objects.of(request.holding).get(uid=uid)",
        "bundle = get_object_or_404(Bundle.objects.of(request.holding), uid=uid)",
        "user = User.objects.get(username=name)",
        "user = get_object_or_404(User, username=name)",
    ],
)
def test_a_view_that_asks_through_of_passes(sound):
    assert list(rules.passes_by_of(ast.parse(sound), free={"User"})) == []


def test_nothing_but_the_page_reads_the_clock():
    assert complaints(rules.reads_of_the_clock, *WITHOUT_A_CLOCK) == []


@pytest.mark.parametrize(
    "planted",
    [
        "timezone.now()",
        "date.today()",
        "datetime.now(tz=UTC)",
        "timezone.localdate()",
        "localdate()",
        "Now()",
        "time.time()",
    ],
)
def test_a_look_at_the_clock_is_caught(planted):
    assert len(list(rules.reads_of_the_clock(ast.parse(f"on = {planted}")))) == 1


@pytest.mark.parametrize(
    "sound", ["request.now", "timezone.localdate(at, zone)", "timezone.localtime(at)", "self.today"]
)
def test_a_day_handed_in_passes(sound):
    assert list(rules.reads_of_the_clock(ast.parse(f"on = {sound}"))) == []


def test_models_are_imported_not_fetched_by_name():
    assert complaints(rules.models_by_string) == []
    assert list(rules.models_by_string(ast.parse("Bundle = apps.get_model('bundles', 'Bundle')")))


def test_forms_are_not_borrowed():
    assert [said for module, tree in house.modules() for said in rules.borrowed_forms(module, tree)] == []


@pytest.mark.parametrize(
    ("planted", "caught"),
    [
        ("from growers.beds.forms import BedForm", True),
        ("from growers.beds import forms", True),
        ("import growers.beds.forms", True),
        ("from growers.furniture.forms import BaseForm", False),
        ("from growers.harvest.forms import CutForm", False),
        ("from growers.beds.models import Bed", False),
    ],
)
def test_a_borrowed_form_is_caught(planted, caught):
    assert bool(list(rules.borrowed_forms("growers.harvest.views", ast.parse(planted)))) is caught


def test_no_string_names_a_later_stage():
    found = [
        f"{module} {said}"
        for module, tree in house.modules()
        if house.stage_of(module)
        for said in rules.later_stages_by_string(module, tree)
    ]
    assert found == []


def test_a_later_stage_by_string_is_caught():
    planted = ast.parse("queries = import_module('growers.bundles.queries')")
    assert list(rules.later_stages_by_string("growers.beds.views", planted))
    assert not list(rules.later_stages_by_string("growers.stock.views", planted))


def test_relations_point_upstream():
    assert [said for model in own_models() for said in rules.relations_against_the_flow(model)] == []


def test_relations_across_stages_protect():
    found = [
        f"{model.__name__}.{field.name}"
        for model in own_models()
        if not hasattr(model, "history_object")  # the history keeps a line even when its record is gone
        for field in model._meta.concrete_fields
        if field.is_relation
        and ours(field.related_model) not in (None, ours(model))
        and field.remote_field.on_delete is not models.PROTECT
    ]
    assert found == []


def planted_model(name, stage, **fields):
    meta = type("Meta", (), {"app_label": stage})
    return type(name, (models.Model,), {"__module__": f"growers.{stage}.models", "Meta": meta, **fields})


@isolate_apps("growers.beds", "growers.bundles")
def test_a_string_relation_to_a_later_stage_is_caught():
    bed = planted_model("Bed", "beds", bundle=models.ForeignKey("bundles.Bundle", models.PROTECT, related_name="+"))
    planted_model("Bundle", "bundles")
    assert list(rules.relations_against_the_flow(bed)) == ["Bed.bundle to bundles: points to a later stage"]


@isolate_apps("growers.beds", "growers.bundles")
@pytest.mark.parametrize(
    ("names", "caught"),
    [({"related_name": "+"}, 0), ({"related_name": "bundles"}, 1), ({}, 1)],
)
def test_a_way_back_up_is_caught(names, caught):
    planted_model("Bed", "beds")
    bundle = planted_model("Bundle", "bundles", bed=models.ForeignKey("beds.Bed", models.PROTECT, **names))
    assert len(list(rules.relations_against_the_flow(bundle))) == caught


def test_migrations_depend_upstream():
    found = [
        said
        for (label, _name), migration in MigrationLoader(None).disk_migrations.items()
        if label in house.HEIGHT
        for said in rules.migrations_against_the_flow(label, migration.dependencies)
    ]
    assert found == []


def test_a_migration_that_depends_on_a_later_stage_is_caught():
    planted = [("people", "0001_initial"), ("bundles", "0001_initial"), ("contenttypes", "0002")]
    assert list(rules.migrations_against_the_flow("beds", planted)) == ["beds depends on bundles.0001_initial"]
