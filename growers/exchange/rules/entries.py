"""What holds of every entry alike, put together from the models: a new kind of entry is judged from its first day."""

from django.apps import apps
from django.db.models import ForeignKey
from django.utils.translation import gettext_lazy as _

from growers.people.models import Entry

from .rule import Rule

EACH = "\nUNION ALL\n"


def entry_models():
    return [model for model in apps.get_models() if issubclass(model, Entry)]


def relations():
    """Every relation from one kind of entry to another: (model, field)."""
    return [
        (model, field)
        for model in entry_models()
        for field in model._meta.concrete_fields
        if isinstance(field, ForeignKey) and issubclass(field.related_model, Entry)
    ]


def of_each_relation(wrong):
    """The entries of which, with the other as `o`, something is wrong in one of their relations."""
    return EACH.join(
        f"SELECT '{model._meta.model_name}' AS kind, e.id, e.holding_id "
        f'FROM {model._meta.db_table} e JOIN {field.related_model._meta.db_table} o ON o.id = e."{field.column}" '
        f"WHERE {wrong}"
        for model, field in relations()
    )  # fmt: skip


def of_each_with(columns, wrong):
    """The entries of the kinds that have these columns of which something is wrong."""
    return EACH.join(
        f"SELECT '{model._meta.model_name}' AS kind, e.id, e.holding_id FROM {model._meta.db_table} e WHERE {wrong}"
        for model in entry_models()
        if columns <= {field.column for field in model._meta.concrete_fields}
    )


def weighed(prefix):
    kg, unit, text = (f"e.{prefix}mass_{name}" for name in ("kg", "unit", "text"))
    return of_each_with(
        {f"{prefix}mass_kg", f"{prefix}mass_unit", f"{prefix}mass_text"},
        f"({kg} IS NULL AND ({unit} <> '' OR {text} <> '')) OR ({kg} IS NOT NULL AND ({unit} = '' OR {text} = ''))",
    )


def rules():
    return [
        Rule(
            "stands_on_the_living",
            _("Nothing stands on an entry that was struck out."),
            of_each_relation("e.struck_out_at IS NULL AND o.struck_out_at IS NOT NULL"),
        ),
        Rule(
            "in_one_book",
            _("Everything that belongs together is in one book."),
            of_each_relation("e.holding_id <> o.holding_id"),
        ),
        Rule(
            "struck_out_whole",
            _("What is struck out says when, by whom and why; what is not says none of it."),
            of_each_with(
                {"struck_out_at"},
                "(e.struck_out_at IS NULL AND (e.struck_out_by_id IS NOT NULL OR e.struck_out_reason <> '')) "
                "OR (e.struck_out_at IS NOT NULL AND (e.struck_out_by_id IS NULL OR e.struck_out_reason = ''))",
            ),
        ),
        Rule(
            "name_can_be_found",
            _("Everything that has a name can be found by it."),
            of_each_with({"name_key"}, "e.name_key = '' OR e.name_key <> TRIM(e.name_key)"),
        ),
        Rule(
            "weight_as_read",
            _("A weight is kept with its unit and with what was read off the scale."),
            weighed("") + EACH + weighed("tied_"),
        ),
        Rule(
            "tag_checks",
            _("The check digits of every tag are right."),
            """
            SELECT 'bundle' AS kind, b.id, b.holding_id
            FROM bundles_bundle b
            WHERE CASE WHEN LENGTH(b.tag) = 7 AND LTRIM(b.tag, '0123456789') = ''
                       THEN CAST(b.tag AS INTEGER) % 97 ELSE 0 END <> 1
            """,
        ),
    ]
