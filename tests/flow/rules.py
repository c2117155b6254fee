"""House rules that the import contracts cannot see, as plain functions: syntax tree in, complaints out."""

import ast
import re

from tests.flow import house

PASSED_BY_OF = {"_default_manager", "_base_manager"}
CLOCKS = {"now", "today", "utcnow"}
CLOCKS_WITHOUT_ARGUMENTS = {"localdate", "localtime"}
MODULE_NAME = re.compile(r"growers(\.\w+)+")


def name_of(node):
    """The last part of a name, a.b.C giving C; None for anything else."""
    return getattr(node, "id", getattr(node, "attr", None))


def passes_by_of(tree, free=()):
    """Ways to records other than `Model.objects.of(holding)`. `free` are the models that are no records."""
    scoped = {
        id(call.func.value)
        for call in ast.walk(tree)
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Attribute) and call.func.attr == "of" and call.args
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            if node.attr == "objects" and name_of(node.value) not in free and id(node) not in scoped:
                yield f"line {node.lineno}: .objects without .of(holding)"
            elif node.attr in PASSED_BY_OF:
                yield f"line {node.lineno}: {node.attr}"
        elif isinstance(node, ast.Call):
            yield from calls_that_pass_by_of(node, free)


def calls_that_pass_by_of(call, free):
    called, first = name_of(call.func), call.args[0] if call.args else None
    if called in ("get_object_or_404", "get_list_or_404"):
        model = name_of(first)
        if model and model[0].isupper() and model not in free:
            yield f"line {call.lineno}: {called}({model}, …) instead of {model}.objects.of(holding)"
    elif called == "getattr" and any(isinstance(arg, ast.Constant) and arg.value == "objects" for arg in call.args):
        yield f"line {call.lineno}: getattr(…, 'objects')"


def reads_of_the_clock(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and (called := name_of(node.func)):
            bare = called in CLOCKS_WITHOUT_ARGUMENTS and not (node.args or node.keywords)
            method = called in CLOCKS and isinstance(node.func, ast.Attribute)
            if bare or method or called == "Now" or ast.unparse(node.func) == "time.time":
                yield f"line {node.lineno}: {called}() reads the clock; the page hands the day in"


def models_by_string(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr == "get_model":
            yield f"line {node.lineno}: get_model"


def borrowed_forms(module, tree):
    """Imports of another stage's forms; everybody may have the base form of furniture."""
    own = house.stage_of(module)
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and not node.level:
            names = [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        for name in names:
            stage = house.stage_of(name)
            if stage and name.split(".")[2:3] == ["forms"] and stage not in (own, "furniture"):
                yield f"line {node.lineno}: {name}"
                break


def later_stages_by_string(module, tree):
    """Strings that name a module of a later stage: an import that the contracts do not see."""
    allowed = house.upstream_of(house.stage_of(module))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and MODULE_NAME.fullmatch(node.value):
            stage = house.stage_of(node.value)
            if stage and stage not in allowed:
                yield f"line {node.lineno}: “{node.value}”"


def relations_against_the_flow(model):
    """Complaints about the relations that a model itself declares."""
    own = house.stage_of(model.__module__)
    for field in model._meta.get_fields(include_hidden=True):
        if field.auto_created or not field.is_relation or not field.related_model:
            continue
        other = house.stage_of(field.related_model.__module__)
        if other in (None, own):
            continue
        where = f"{model.__name__}.{field.name} to {other}"
        if other not in house.upstream_of(own):
            yield f"{where}: points to a later stage"
        if not field.remote_field.hidden or field.remote_field.related_query_name:
            yield f"{where}: gives a way back up; it needs related_name='+' and no related_query_name"


def migrations_against_the_flow(own, dependencies):
    """`dependencies` as Django keeps them: (app label, migration name)."""
    for label, name in dependencies:
        if label in house.HEIGHT and label not in house.upstream_of(own):
            yield f"{own} depends on {label}.{name}"
