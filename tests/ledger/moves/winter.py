"""A book in which anything may be done, in any order, with any words."""

from collections import Counter
from datetime import timedelta
from inspect import signature

from django.db import transaction
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from growers.bundles import actions as bundles
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.furniture.refusals import Refusal
from growers.soaking import actions as soaking
from growers.stock import actions as stock
from tests.ledger.book import CUT_ON, LATER, NOON
from tests.ledger.invariants import check, snapshot, struck_out_rows_count_nowhere

from . import bench, dry, ground, sell, shed, struck, water, work
from .said import NOTHING_FITS, Made, at, perhaps_mass, rods

MOVES = [move for subject in (ground, bench, shed, dry, water, work, sell, struck) for move in subject.MOVES]
JUDGED_EVERY = 4
"""Steps between two looks at the whole book; a refusal is looked at at once, and the end always."""


class Book(RuleBasedStateMachine):
    """One book of two: the one with every kind of entry in it, or the one with hardly any."""

    def __init__(self, full, bare, kept):
        super().__init__()
        self.full, self.bare, self.kept = full, bare, kept
        self.taken_back = transaction.atomic()
        self.taken_back.__enter__()
        self.base, self.clock, self.unjudged, self.rows = full, at(CUT_ON), 0, None

    def teardown(self):
        try:
            self.judge()
            struck_out_rows_count_nowhere(self.base.book.holding)
        finally:
            transaction.set_rollback(True)
            self.taken_back.__exit__(None, None, None)

    @initialize(bare=st.sampled_from([False, False, True]), mass=perhaps_mass, rods=rods)
    def begin(self, bare, mass, rods):
        if not bare:
            self.lift_and_promise()
            return
        self.base = self.bare
        said = {"how_many": 2, "on": CUT_ON, "length_class": self.base.lengths[0], "mass": mass, "rods": rods}
        for cut in self.base.cuts:
            self.base.book.do(bundles.tie, cut=cut, **said)

    def lift_and_promise(self):
        """So that rods are out of the water and unused, and a promise stands."""
        do, reds, noon, some = self.base.book.do, self.base.reds, Moment(NOON, NOON, "noon"), read_much("a tenth")
        # Read anew: the run before has changed these, and it was taken back.
        for each in reds:
            each.refresh_from_db()
        batch = do(soaking.put_in, bundle=reds[2], tank=self.base.tank, moment=noon, much=some)
        do(soaking.lift, batch=batch, moment=noon)
        do(stock.promise, bundle=reds[0], whom="Orla Fenn", on=LATER, much=some)

    def living(self, model, **wanted):
        return list(model.objects.of(self.base.book.holding, **wanted).order_by("pk"))

    def now(self):
        """No two things are struck out at the same instant."""
        self.clock += timedelta(seconds=1)
        return self.clock

    def do(self, action, said):
        """A refusal is an answer too, but one that has changed nothing."""
        self.about = {}
        for name, value in said.pop("made").items():
            self.about[name] = value.build(self, said[name])
            if self.about[name] is NOTHING_FITS:
                return
        who = {"holding": self.base.book.holding, "by": self.base.book.by}
        who = {name: value for name, value in who.items() if name in signature(action).parameters}
        self.rows = self.rows or snapshot()
        try:
            action(**who, **(said | self.about))
        except Refusal:
            assert snapshot() == self.rows
            self.judge()
        else:
            self.rows, self.unjudged = None, self.unjudged + 1
            self.kept[action] += 1

    def judge(self):
        if self.unjudged:
            check(self.base.book.holding)
            self.unjudged = 0

    @invariant()
    def holds(self):
        if self.unjudged >= JUDGED_EVERY:
            self.judge()


def step(name, move):
    """A move as a step of the machine: what is said is drawn, then what it is about is looked for in the book."""
    made = {name: value for name, value in move.said.items() if isinstance(value, Made)}
    drawn = {
        name: value if isinstance(value, st.SearchStrategy) else getattr(value, "drawn", st.just(value))
        for name, value in move.said.items()
    }

    def act(self, said):
        self.do(move.action, said | {"made": made})

    act.__name__ = name
    return rule(said=st.fixed_dictionaries(drawn))(act)


def named_steps():
    seen = Counter()
    for move in MOVES:
        stage, name = move.action.__module__.split(".")[1], move.action.__name__
        seen[stage, name] += 1
        name = f"{stage}_{name}_{seen[stage, name]}"
        yield name, step(name, move)


Winter = type("Winter", (Book,), dict(named_steps()))
