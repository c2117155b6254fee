from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.apps import apps
from django.core.exceptions import ObjectDoesNotExist
from django.urls import NoReverseMatch
from django.utils.translation import gettext as _

from growers.furniture.dates import write_day
from growers.furniture.moments import write_moment
from growers.furniture.writing import NOT_WRITTEN, typed, unit_of, write

from .models import Entry, Holding, Membership


def kinds(above=Entry):
    """Every kind of entry there is, by the name that stands in addresses."""
    found = {}
    for model in above.__subclasses__():
        if not model._meta.abstract:
            found[model._meta.model_name] = model
        found |= kinds(model)
    return found


def record(holding, kind, uid, *, struck_out=False):
    """One entry of this holding, or None."""
    model = kinds().get(kind)
    return model and model.objects.of(holding, struck_out=struck_out).filter(uid=uid).first()


def stands_on(entry):
    """The entries that this one points to, with the relation's name."""
    for field in entry._meta.fields:
        if field.is_relation and issubclass(field.related_model, Entry):
            other = getattr(entry, field.name)
            if other is not None:
                yield field.name, other


def pointing_to(entry, *, struck_out_at=None):
    """The entries of each kind that point to this one (living, or struck out at one moment), with the relation."""
    for relation in entry._meta.get_fields(include_hidden=True):
        if not (relation.auto_created and (relation.one_to_many or relation.one_to_one)):
            continue
        if not issubclass(relation.related_model, Entry):
            continue
        others = relation.related_model.objects.of(entry.holding, struck_out=True)
        yield (
            relation.field.name,
            others.filter(**{relation.field.name: entry, "struck_out_at": struck_out_at}).order_by("pk"),
        )


def standing_on(entry, *, struck_out_at=None):
    """Each entry that points to this one (living, or struck out at one moment), with the relation's name."""
    kinds_of_it = pointing_to(entry, struck_out_at=struck_out_at)
    return [(relation, other) for relation, others in kinds_of_it for other in others]


MOST_NAMED = 20


@dataclass(frozen=True)
class Standing:
    """What stands on an entry: the first of each kind, and how many `more`: the rows of a logger are thousands."""

    named: list
    more: int


def standing_in_short(entry, *, in_the_way=False):
    """With `in_the_way`, without those kinds that are struck out along with it."""
    named, more = [], 0
    for relation, others in pointing_to(entry):
        if in_the_way and relation in others.model.goes_with:
            continue
        if not others.model.by_itself and relation in others.model.part_of:
            continue
        first = list(others[: MOST_NAMED + 1])
        named += [other.stands_as for other in first[:MOST_NAMED]]
        more += others.count() - MOST_NAMED if len(first) > MOST_NAMED else 0
    return Standing(list(dict.fromkeys(named)), more)


def holding_for(user, slug):
    """The person's membership of the holding at this address, or None."""
    return Membership.objects.filter(user=user, holding__slug=slug).select_related("holding").first()


def books_of(user):
    return Holding.objects.filter(memberships__user=user).order_by("name")


def changes_of(entry):
    """How an entry came to stand as it does: [(when, who, what was changed, why)], newest first."""
    if not hasattr(entry, "history"):
        return []
    rows = list(entry.history.select_related("history_user").order_by("-history_date", "-history_id"))
    return [
        Change(row.history_date, row.history_user, row.history_change_reason or "", differences(older, row))
        for row, older in zip(rows, [*rows[1:], None], strict=True)
    ]


@dataclass(frozen=True)
class Change:
    at: datetime
    who: object
    why: str
    fields: list


HIDDEN = {
    "id",
    "uid",
    "token",
    "holding",
    "made_by",
    "created_at",
    "struck_out_by",
    "evidence_no",
    "left_ppb",
    "in_water_ppb",
    "name_key",
    "low_c",
    "high_c",
}


def differences(older, newer):
    """What one version of an entry changed against the one before: [(name, old, new)].

    Of a quantity, the columns mass_kg, mass_unit and mass_text, what was typed is shown alone.
    """
    if older is None:
        return []
    found = []
    for field in newer.tracked_fields:
        if field.name in HIDDEN or is_told_by_its_text(field, newer.tracked_fields):
            continue
        old, new = shown(older, field), shown(newer, field)
        if old != new:
            found.append((field.verbose_name, old, new))
    return found


def is_told_by_its_text(field, fields):
    """Whether it is a column of a quantity of which the typed text is kept too."""
    texts = {each.name for each in fields if each.name.endswith("_text")}
    return field.name not in texts and any(field.name.startswith(text.removesuffix("text")) for text in texts)


def shown(version, field):
    """A value of one version as a person reads it."""
    stem = field.name.removesuffix("text")
    if stem != field.name:
        return text_shown(version, field.name, stem)
    if field.choices:
        return getattr(version, f"get_{field.name}_display")() or NOT_WRITTEN
    try:
        value = getattr(version, field.name)
    except ObjectDoesNotExist:
        value = None
    if value in (None, ""):
        return NOT_WRITTEN
    return value_shown(value, field.name, version.holding)


def text_shown(version, name, stem):
    """What was typed, a bare number with its unit; where nothing was, how it was said (“the rest”)."""
    unit = next((getattr(version, f"{stem}{end}") for end in UNITS_OF_TEXT if hasattr(version, f"{stem}{end}")), "")
    said = getattr(version, f"get_{stem}how_display", str)
    return typed(getattr(version, name), unit) or said() or NOT_WRITTEN


UNITS_OF_TEXT = ("unit", "mass_unit")
KINDS = {"_ppb": "part", "_kg": "mass", "_m": "length", "_c": "temperature"}


def value_shown(value, name, holding):
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, datetime):
        return write_moment(value, ZoneInfo(holding.zone))
    if isinstance(value, date):
        return write_day(value)
    kind = next((kind for end, kind in KINDS.items() if name.endswith(end)), None)
    if kind == "part":
        return ("−" if value < 0 else "") + write(kind, abs(value) / 1_000_000_000)
    return write(kind, value, unit_of(holding, kind)) if kind else value


def correct_page(request, entry):
    """The address of the page that corrects this kind of entry: of its own stage, or of one after it."""
    stages = [app.label for app in apps.get_app_configs() if app.name.startswith("growers.")]
    for stage in stages[stages.index(entry._meta.app_label) :]:
        try:
            return request.here(f"{stage}:correct_{entry.kind}", entry.uid)
        except NoReverseMatch:
            continue
    return ""


def struck_out_lately(holding, most=100):
    """What was struck out last, newest first: from here it can be put back."""
    found = []
    for model in kinds().values():
        struck = model.objects.of(holding, struck_out=True).exclude(struck_out_at=None)
        found += struck.select_related("struck_out_by").order_by("-struck_out_at")[:most]
    return sorted(found, key=lambda entry: entry.struck_out_at, reverse=True)[:most]


def hands_of(holding):
    return Membership.objects.filter(holding=holding).select_related("user").order_by("user__username")


def hand_of(holding, pk):
    return hands_of(holding).filter(pk=pk).first()
