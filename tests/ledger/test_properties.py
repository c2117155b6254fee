"""Whatever a grower does, in whatever order, nothing is lost and nothing appears."""

import os
from collections import Counter
from inspect import isfunction, signature

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from growers.baskets import actions as baskets
from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.customers import actions as customers
from growers.drying import actions as drying
from growers.harvest import actions as harvest
from growers.people import actions as people
from growers.soaking import actions as soaking
from growers.stock import actions as stock
from tests.ledger.book import ground, sound_book
from tests.ledger.moves.winter import MOVES, Winter

# The usual run is short and always the same; HYPOTHESIS_PROFILE=ci goes further and elsewhere each time.
LONG = os.environ.get("HYPOTHESIS_PROFILE") == "ci"
HOW_FAR = settings(
    max_examples=200 if LONG else 40,
    stateful_step_count=60 if LONG else 45,
    derandomize=not LONG,
    # Making a failure shorter takes minutes: that is for the long run.
    phases=[Phase.generate, *([Phase.shrink] if LONG else [])],
    database=None,
    deadline=None,
    print_blob=LONG,
    suppress_health_check=list(HealthCheck),
)
STAGES = [people, beds, harvest, bundles, drying, stock, soaking, baskets, customers]

# A step of other actions says half of a thing by itself: the machine drives it through them.
STEP = "a step of other actions, which alone leaves half a thing said"
LOOKS = "looks, and writes nothing"
ABOUT_PEOPLE = "about who may write and how, not about willow"
HOOK = "how a stage hears of what befalls another's entries"
NOT_DRIVEN = {
    people.open_book: ABOUT_PEOPLE,
    people.join: ABOUT_PEOPLE,
    people.let_in: ABOUT_PEOPLE,
    people.change_role: ABOUT_PEOPLE,
    people.change_settings: ABOUT_PEOPLE,
    people.new_evidence: STEP,
    people.once: "keeps a form once, whatever it does (test_two_writers)",
    people.write: STEP,
    people.check_whole: LOOKS,
    people.correct: STEP,
    beds.the_variety: STEP,
    bundles.check_tied: LOOKS,
    bundles.lock: LOOKS,
    bundles.give_evidence: STEP,
    bundles.take: STEP,
    bundles.set_right: STEP,
    bundles.make: STEP,
    bundles.dried_again: STEP,
    bundles.came_back: STEP,
    soaking.check_lifted_by: LOOKS,
    soaking.hold: LOOKS,
    soaking.part_to_use: LOOKS,
    soaking.draw: STEP,
    soaking.use: STEP,
}


def actions_of(stage):
    """All that a stage lets others do; of a stage in one module, what is told the book and who writes in it."""
    if hasattr(stage, "__all__"):
        return {found for name in stage.__all__ if isfunction(found := getattr(stage, name))}
    own = [found for found in vars(stage).values() if isfunction(found) and found.__module__ == stage.__name__]
    return {found for found in own if {"holding", "by"} <= set(signature(found).parameters)}


def test_every_action_of_every_stage_is_driven():
    there = set().union(*map(actions_of, STAGES))
    driven = {move.action for move in MOVES}
    assert sorted(name_of(action) for action in there - driven - set(NOT_DRIVEN)) == []
    assert sorted(name_of(action) for action in set(NOT_DRIVEN) - there | set(NOT_DRIVEN) & driven) == []


def name_of(action):
    return f"{action.__module__}.{action.__name__}"


@pytest.mark.django_db
def test_nothing_is_lost_and_nothing_appears(holding, wren, other, ida):
    full, bare, kept = sound_book(holding, wren), ground(other, ida), Counter()
    run_state_machine_as_test(lambda: Winter(full, bare, kept), settings=HOW_FAR)
    # What is always refused proves nothing; the usual run is too short to try everything.
    never = {move.action for move in MOVES} - set(kept)
    assert not (LONG and never), sorted(map(name_of, never))
