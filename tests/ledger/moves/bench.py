"""Bundles tied, bought and found; where they stand, and which dry together."""

from hypothesis import strategies as st

from growers.beds.models import Variety
from growers.bundles import actions as bundles
from growers.bundles.models import Bundle, Find, Grading, Making, Place, Purchase, Stack
from growers.bundles.models import Move as Moved
from growers.harvest.models import Cut, LengthClass

from .said import (
    Move,
    a,
    ages,
    days,
    names,
    notes,
    of_kind,
    or_its_own,
    perhaps_a,
    perhaps_a_day,
    perhaps_an_instant,
    perhaps_mass,
    perhaps_part,
    rods,
    some,
    the_clock,
    yes_or_no,
)

how_many = st.integers(0, 2)
tied = {"on": days, "length_class": a(LengthClass), "mass": perhaps_mass, "rods": rods, "place": perhaps_a(Place)}
cast_off = {"rejects": perhaps_part, "rejects_mass": perhaps_mass}

MOVES = [
    Move(bundles.tie, cut=a(Cut), how_many=how_many, age_years=ages, thickness=of_kind(Bundle.Thickness), **tied),
    Move(bundles.buy_in, supplier="Ida Rushby", variety=perhaps_a(Variety), how_many=how_many, **tied),
    Move(bundles.find, likely_variety=perhaps_a(Variety), **tied),
    Move(bundles.settle_find, find=a(Find), variety=perhaps_a(Variety)),
    Move(bundles.was_of_cut, bundle=a(Bundle), cut=a(Cut), at=the_clock, why="mistaken"),
    Move(bundles.finish_grading, cut=a(Cut), on=days, **cast_off),
    Move(
        bundles.correct_grading,
        grading=a(Grading),
        began_on=or_its_own(days, "grading", "began_on"),
        closed_on=perhaps_a_day,
        **cast_off,
    ),
    Move(bundles.correct_bundle, bundle=a(Bundle), tied_on=days, mass=perhaps_mass, tied_rods=rods),
    Move(bundles.correct_bundle, bundle=a(Bundle), clear_mass=yes_or_no, length_class=a(LengthClass), note=notes),
    Move(bundles.correct_purchase, purchase=a(Purchase), supplier=names, on=days, variety=perhaps_a(Variety)),
    Move(bundles.correct_find, find=a(Find), on=days, likely_variety=perhaps_a(Variety)),
    Move(bundles.correct_making, making=a(Making), hours=st.sampled_from([None, 0, 6.5]), note=notes),
    Move(bundles.add_place, name=names, cover=of_kind(Place.Cover)),
    Move(bundles.correct_place, place=a(Place), name=names, cover=of_kind(Place.Cover)),
    Move(bundles.move, bundles=some(Bundle), place=a(Place), on=days, at=perhaps_an_instant),
    Move(bundles.correct_move, move=a(Moved), on=days, place=a(Place)),
    Move(bundles.stack_up, name=names, bundles=some(Bundle), on=days, telltales=some(Bundle)),
    Move(bundles.correct_stack, stack=a(Stack), name=names, stacked_on=days),
    Move(bundles.leave_stack, bundle=a(Bundle)),
    Move(bundles.call_telltale, bundle=a(Bundle), telltale=yes_or_no),
]
