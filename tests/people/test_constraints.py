"""What a constraint of the database is there to hold is tried past every action, and does not pass."""

import copy
import uuid
from datetime import timedelta
from decimal import Decimal

import pytest
from django.apps import apps
from django.db import IntegrityError, connection, models, transaction

from growers.people.models import Entry, Holding, Membership, Receipt
from tests.ledger.book import CUT_ON, LATER, NOON, TIED_ON

WHOLE = 1_000_000_000
HOUR, DAY = timedelta(hours=1), timedelta(days=1)
TOO_MANY, NONE_OF_IT = {"share_ppb": WHOLE + 1}, {"share_ppb": 0}
WEIGHT = {"mass_kg": None, "mass_unit": "", "mass_text": ""}
OF_THREE = ("cut", "stack", "bundle")

# Each constraint by its name: what to change in a row that is sound, one attempt after another.
ATTEMPTS = {
    "holding_month_is_a_month": [{"winter_begins_month": 0}, {"winter_begins_month": 13}],
    "holding_limit_is_likely": [{"shrink_limit": 0}, {"shrink_limit": 0.087}],
    "holding_humidity_is_a_fraction": [{"indoor_humidity": 0}, {"indoor_humidity": 1}],
    "bed_area_is_positive": [{"area_m2": 0}, {"area_m2": -1}],
    "planting_year_is_a_year": [{"planted_year": 1849}, {"planted_year": 2201}],
    "planting_day_in_its_year": [{"planted_on": CUT_ON}],
    "planting_grubbed_after_planted": [{"grubbed_on": CUT_ON.replace(year=2018)}],
    "gap_up_of_some_stools": [{"stools": 0}],
    "length_class_from_to": [{"min_m": -0.1}, {"max_m": 0.1}],
    "cut_age_is_likely": [{"age_years": 0}, {"age_years": 11}],
    "cutting_day_mass_whole": [
        {"mass_kg": 5, "mass_unit": "kg"},
        {"mass_kg": 5, "mass_text": "5"},
        {"mass_unit": "kg"},
        {"mass_text": "5"},
        {"mass_kg": 0, "mass_unit": "kg", "mass_text": "0"},
    ],
    "green_out_says_how_much": [{"pieces": 0}, {"pieces": None}],
    "green_out_mass_whole": [
        {"mass_kg": 5, "mass_unit": "kg"},
        {"mass_kg": 5, "mass_text": "5"},
        {"mass_unit": "kg"},
        {"mass_text": "5"},
        {"mass_kg": 0, "mass_unit": "kg", "mass_text": "0"},
    ],
    "grading_closed_after_begun": [{"closed_on": CUT_ON - DAY}],
    "grading_rejects_one_way": [
        {"rejects_part_ppb": 1, "rejects_mass_kg": 1, "rejects_mass_unit": "kg", "rejects_text": "1"}
    ],
    "grading_rejects_in_bounds": [
        {"rejects_part_ppb": WHOLE + 1, "rejects_text": "all and more"},
        {"rejects_mass_kg": 0, "rejects_mass_unit": "kg", "rejects_text": "0"},
    ],
    "making_losses_in_bounds": [{"rejects_ppb": WHOLE + 1}, {"what": "white", "bark_ppb": WHOLE + 1}],
    "making_bark_only_off_peeled": [{"bark_ppb": 1}, {"what": "steamed", "bark_ppb": 1}],
    "making_hours_are_positive": [{"hours": 0}],
    "scale_span_runs_forward": [{"to_on": CUT_ON}],
    "scale_factor_is_likely": [{"factor": 0.19}, {"factor": 5.1}],
    "bundle_left_in_bounds": [{"left_ppb": WHOLE + 1}],
    "bundle_made_names_its_making": [
        {"made": "making"},
        {"made": "bought"},
        {"made": "dried_again", "soaked_before": True},
        {"grading": None},
    ],
    "bundle_part_of_making_in_bounds": [
        {"part_of_making_ppb": None},
        {"part_of_making_ppb": 0},
        {"part_of_making_ppb": WHOLE + 1},
    ],
    "bundle_tied_mass_whole": [
        {"tied_mass_kg": None},
        {"tied_mass_unit": ""},
        {"tied_mass_text": ""},
        {"tied_mass_kg": 0},
        {"tied_mass_kg": None, "tied_mass_unit": ""},
        {"tied_mass_kg": None, "tied_mass_text": ""},
    ],
    "bundle_rods_are_some": [{"tied_rods": 0}],
    "bundle_age_is_likely": [{"age_years": 0}, {"age_years": 11}],
    "bundle_dried_again_was_soaked": [{"soaked_before": False}],
    "bundle_butt_is_likely": [{"butt_mm": 0}, {"butt_mm": 100}],
    "origin_is_one_thing": [{"cut": None}],
    "origin_part_in_bounds": [{"part_ppb": 0}, {"part_ppb": WHOLE + 1}],
    "taking_share_in_bounds": [NONE_OF_IT, TOO_MANY],
    "taking_gone_says_how": [{"gone": ""}, {"purpose": "work"}],
    "taking_for_a_making_names_it": [{"making": None}, {"part_of_making_ppb": None}, {"purpose": "work"}],
    "adjustment_in_bounds": [{"share_ppb": 0}, {"share_ppb": WHOLE + 1}, {"share_ppb": -WHOLE - 1}],
    "air_reading_is_likely": [{"temperature_c": -41}, {"temperature_c": 61}, {"humidity": 0}, {"humidity": 1.01}],
    "weighing_mass_whole": [{"mass_unit": ""}, {"mass_text": ""}, {"mass_kg": 0}],
    "oven_test_of_one_thing": [dict.fromkeys(OF_THREE)],
    "oven_test_loses_weight": [{"dry_g": 0, "wet_g": 0}, {"wet_g": 79}],
    "oven_test_is_likely": [{"dry_g": 1.0, "wet_g": 6.1}],
    "meter_reading_of_one_thing": [dict.fromkeys(OF_THREE)],
    "meter_reading_is_likely": [{"moisture": 0}, {"moisture": 2.1}],
    "word_of_one_thing": [dict.fromkeys(OF_THREE)],
    "count_says_how_much": [{"rods": 5}, WEIGHT],
    "count_mass_whole": [{"mass_unit": ""}, {"mass_text": ""}, {"mass_kg": 0}, {"mass_kg": None, "rods": 5}],
    "count_left_in_bounds": [{"left_ppb": WHOLE + 1}],
    "promise_share_in_bounds": [NONE_OF_IT, TOO_MANY],
    "promise_ends_one_way": [{"released_on": LATER}],
    "tank_has_room": [{"greatest_length_m": 0}, {"room_bundles": 0}],
    "water_is_water": [{"temperature_c": 61, "high_c": 61}, {"low_c": 10}, {"high_c": 8}],
    "batch_in_range_runs_forward": [{"in_until_at": NOON - HOUR}],
    "batch_parts_in_bounds": [{"left_ppb": WHOLE + 1}, {"in_water_ppb": 500_000_001}],
    "lift_of_some": [{"part_ppb": 0}, {"part_ppb": WHOLE + 1}, {"until_at": NOON - HOUR}],
    "mellow_runs_forward": [{"ended_at": NOON - HOUR}],
    "dried_again_of_some": [{"part_ppb": 0}, {"part_ppb": WHOLE + 1}],
    "spoiled_of_some": [{"part_ppb": 0}, {"part_ppb": WHOLE + 1}],
    "steamed_for_minutes": [{"minutes": 0}, {"minutes": 1441}],
    "redamp_runs_forward": [{"until_at": NOON - HOUR}],
    "redamp_names_its_tank": [{"tank": None}, {"how": "dipped"}],
    "pattern_part_of_some_rods": [{"rods": 0}],
    "order_wanted_after_taken": [{"wanted_by": LATER - DAY}],
    "order_ends_one_way": [{"filled_on": LATER, "cancelled_on": LATER}],
    "order_ends_after_taken": [{"filled_on": LATER - DAY}, {"cancelled_on": LATER - DAY}],
    "order_line_wants_some": [{"much_value": 0}, {"much_how": "armfuls"}, {"much_unit": ""}, {"much_text": ""}],
    "waiting_told_after_asked": [{"told_on": LATER - DAY}],
    "complaint_of_one_thing": [{"line": None}],
    "complaint_water_whole": [
        {"water_c": 9, "water_low_c": 9, "water_high_c": 9},
        {"water_text": "cold"},
        {"water_c": 9, "water_low_c": 10, "water_high_c": 11, "water_text": "9"},
        {"water_c": 9, "water_text": "9"},
    ],
    "complaint_soaked_whole": [{"soaked_hours": 9}, {"soaked_text": "9 h"}, {"soaked_hours": 0, "soaked_text": "0"}],
    "complaint_answered_whole": [
        {"answered_on": LATER},
        {"answer": "three soaks, all mild"},
        {"answered_on": LATER - DAY, "answer": "three soaks, all mild"},
    ],
    "returned_of_some": [{"part_ppb": 0}, {"part_ppb": WHOLE + 1}],
    "rods_used_of_one_thing": [{"batch": None}, {"part_of_batch_ppb": None}, {"part_of_batch_ppb": WHOLE + 1}],
    "sale_line_price_has_currency": [
        {"price": 5},
        {"currency": "GBP"},
        {"price": Decimal("-0.01"), "currency": "GBP"},
    ],
    "sheet_of_one_thing": [{"variety": None}],
}
# Where the first row of a kind will not do.
ROWS = {
    "bundle_dried_again_was_soaked": lambda book: book.again,
    "taking_gone_says_how": lambda book: book.gone,
    "bundle_part_of_making_in_bounds": lambda book: book.child,
    "taking_for_a_making_names_it": lambda book: book.mixed.takings.first(),
    "grading_closed_after_begun": lambda book: book.reds[0].grading,
}


def constraints(kind):
    return [
        pytest.param(model, constraint, id=constraint.name)
        for model in apps.get_models()
        if model.__module__.startswith("growers.") and not model.__name__.startswith("Historical")
        for constraint in model._meta.constraints
        if isinstance(constraint, kind)
    ]


def attempts(name):
    return [{"struck_out_reason": "twice"}] if name.endswith("_struck_out_whole") else ATTEMPTS[name]


def sound_row(book, model, name):
    return ROWS[name](book) if name in ROWS else model.objects.order_by("pk").first()


@pytest.mark.parametrize(("model", "constraint"), constraints(models.CheckConstraint))
def test_no_row_passes_a_check_it_does_not_meet(book, model, constraint):
    row = sound_row(book, model, constraint.name)
    for changes in attempts(constraint.name):
        with pytest.raises(IntegrityError, match=constraint.name), transaction.atomic():
            attempt(model, row, changes)


def attempt(model, row, changes):
    model.objects.filter(pk=row.pk).update(**changes)
    pytest.fail(f"{changes} passed")


def test_no_attempt_is_at_a_check_that_is_gone():
    names = {param.values[1].name for param in constraints(models.CheckConstraint)}
    assert set(ATTEMPTS) <= names


@pytest.mark.parametrize(("model", "constraint"), constraints(models.UniqueConstraint))
def test_nothing_is_twice_that_is_once(book, model, constraint):
    row = the_row_that_is_once(book, model, constraint)
    with pytest.raises(IntegrityError, match=named_by_the_database(model, constraint)), transaction.atomic():
        model.objects.bulk_create([twin(row)])
    if constraint.condition is not None:
        # What is struck out stands in nobody's way.
        model.objects.bulk_create(
            [twin(row, struck_out_at=NOON, struck_out_by=book.book.by, struck_out_reason="twice")]
        )


def the_row_that_is_once(book, model, constraint):
    if model is Receipt:
        return Receipt.objects.create(
            holding=book.book.holding, client_id=uuid.uuid4(), action="a", made_by=book.book.by
        )
    return model.objects.filter(**{f"{name}__isnull": False for name in constraint.fields}).order_by("pk").first()


def twin(row, **changes):
    other = copy.copy(row)
    other.pk, other._state = None, copy.copy(row._state)
    other._state.adding = True
    for field in row._meta.concrete_fields:
        if isinstance(field, models.UUIDField) and field.unique:
            setattr(other, field.name, uuid.uuid4())
    for name, value in changes.items():
        setattr(other, name, value)
    return other


def named_by_the_database(model, constraint):
    if connection.vendor == "postgresql":
        return constraint.name
    columns = [model._meta.get_field(name).column for name in constraint.fields]
    return ", ".join(rf"{model._meta.db_table}\.{column}" for column in columns) + "$"


def test_every_weight_is_kept_with_its_unit_and_text_by_the_database():
    """A new kind of entry with a weight as typed has a check that holds the three together."""
    held = {"_".join(name.split("_")[:-1]) for name in ATTEMPTS if name.endswith("_mass_whole")}
    found = {
        model.__name__
        for model in apps.get_models()
        if issubclass(model, Entry) and {"mass_kg", "mass_text"} <= {field.name for field in model._meta.fields}
    }
    assert found == {"Count", "CuttingDay", "GreenOut", "Weighing"}
    assert held == {"count_mass", "cutting_day_mass", "green_out_mass", "weighing_mass", "bundle_tied_mass"}


def test_the_walks_above_see_models_that_are_no_entries_too():
    seen = {
        param.values[0] for kind in (models.CheckConstraint, models.UniqueConstraint) for param in constraints(kind)
    }
    assert {Holding, Membership, Receipt} <= seen
    assert TIED_ON > CUT_ON
