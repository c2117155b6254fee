"""Whatever a grower does, in whatever order, nothing is lost and nothing appears."""

import os
from datetime import UTC, datetime, time, timedelta

import pytest
from django.db import transaction
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from growers.baskets import actions as baskets
from growers.baskets.models import Basket, RodsUsed
from growers.bundles import actions as bundles
from growers.bundles.models import Bundle, Find, Making, Move, ScaleCorrection, Stack, Taking
from growers.customers import actions as customers
from growers.customers.models import Sale, SaleLine
from growers.furniture.moments import Moment
from growers.furniture.much import Much
from growers.furniture.refusals import Refusal
from growers.harvest import actions as harvest
from growers.harvest.models import CuttingDay
from growers.people import actions as people
from growers.people.models import Holding, User
from growers.science.units import Reading
from growers.soaking import actions as soaking
from growers.soaking.models import Batch, DriedAgain, Lift, Spoiled
from growers.stock import actions as stock
from growers.stock.models import Count, Promise
from tests.ledger.book import CUT_ON, ground
from tests.ledger.invariants import check, snapshot, struck_out_rows_count_nowhere

# The usual run is short and always the same; HYPOTHESIS_PROFILE=ci goes further and elsewhere each time.
LONG = os.environ.get("HYPOTHESIS_PROFILE") == "ci"
HOW_FAR = settings(
    max_examples=150 if LONG else 12,
    stateful_step_count=50 if LONG else 30,
    derandomize=not LONG,
    # Making a failure shorter takes minutes: that is for the long run.
    phases=[Phase.generate, *([Phase.shrink] if LONG else [])],
    database=None,
    deadline=None,
    print_blob=LONG,
    suppress_health_check=list(HealthCheck),
)

which = st.integers(0, 50)
days = st.integers(-3, 200).map(lambda n: CUT_ON + timedelta(days=n))
kilos = st.floats(0.01, 9).map(lambda kg: round(kg, 3))
masses = kilos.map(lambda kg: Reading(kg, "kg", f"{kg} kg"))
perhaps_mass = st.none() | masses
fractions = st.sampled_from([0.001, 0.1, 0.25, 1 / 3, 0.5, 2 / 3, 0.75, 0.999, 1.0])
parts = fractions.map(lambda part: Much("part", part, "", f"{part}"))
readings = st.none() | fractions.map(lambda part: Reading(part, "part", f"{part}"))
muches = st.one_of(
    kilos.map(lambda kg: Much("mass", kg, "kg", f"{kg} kg")),
    st.integers(1, 300).map(lambda n: Much("rods", float(n), "rods", f"{n} rods")),
    parts,
    st.just(Much("rest", text="the rest")),
)
rods = st.none() | st.integers(1, 300)
perhaps_none_left = st.none() | st.integers(0, 300)
several = st.lists(which, min_size=1, max_size=3)
yes_or_no = st.booleans()
gone = st.sampled_from(Taking.Gone.values)
some_out = st.lists(parts | masses.map(lambda mass: Much("mass", mass.value, "kg", mass.text)), max_size=2)
peeled = st.sampled_from(["white", "buff", "steamed"])


def at(day):
    return datetime.combine(day, time(12), UTC)


def moment(day, hours=0):
    return Moment(at(day), at(day) + timedelta(hours=hours), str(day))


class Winter(RuleBasedStateMachine):
    """One winter's book. Every rule is an action of the ledger, tried on whatever the book has."""

    def __init__(self):
        super().__init__()
        self.taken_back = transaction.atomic()
        self.taken_back.__enter__()
        self.holding = Holding.objects.get(slug="hallow-carr")
        self.by = User.objects.get(username="wren")

    def teardown(self):
        try:
            struck_out_rows_count_nowhere(self.holding)
        finally:
            transaction.set_rollback(True)
            self.taken_back.__exit__(None, None, None)

    @initialize(mass=perhaps_mass, rods=rods)
    def begin(self, mass, rods):
        self.base = ground(self.holding, self.by)
        self.clock, self.changed, self.written = at(CUT_ON), True, None
        for cut in (0, 1):
            self.tie(cut=cut, how_many=2, on=CUT_ON, mass=mass, rods=rods, length=0)

    def any(self, model, n):
        """One of the living entries of a kind, or None."""
        found = list(model.objects.of(self.holding).order_by("pk"))
        return found[n % len(found)] if found else None

    def chosen(self, numbers):
        """So many different living bundles."""
        living = list(Bundle.objects.of(self.holding).order_by("pk"))
        return list(dict.fromkeys(living[n % len(living)] for n in numbers)) if living else []

    def length(self, n):
        return self.base.lengths[n % 2]

    def act(self, action, **said):
        """A refusal is an answer too, but one that has changed nothing."""
        if None in [said.get(name, "") for name in ("bundle", "batch", "record", "taking", "old", "find")]:
            return None
        self.written = self.written or snapshot()
        try:
            done = action(**said)
        except Refusal:
            assert snapshot() == self.written
            return None
        self.changed, self.written = True, None
        return done

    def now(self):
        """No two things are struck out at the same instant."""
        self.clock += timedelta(seconds=1)
        return self.clock

    def do(self, action, **said):
        return self.act(action, holding=self.holding, by=self.by, **said)

    @invariant()
    def holds(self):
        if getattr(self, "changed", False):
            check(self.holding)
            self.changed = False

    # In the bed and at the bench

    @rule(planting=which, on=days, mass=perhaps_mass)
    def cut(self, planting, on, mass):
        self.do(harvest.cut, planting=self.base.plantings[planting % 2], on=on, mass=mass)

    @rule(day=which, on=days)
    def correct_cutting_day(self, day, on):
        if found := self.any(CuttingDay, day):
            self.do(harvest.correct_cutting_day, cuttingday=found, on=on)

    @rule(cut=which, how_many=st.integers(1, 2), on=days, mass=perhaps_mass, rods=rods, length=which)
    def tie(self, cut, how_many, on, mass, rods, length):
        cut = self.any(type(self.base.cuts[0]), cut)
        if cut:
            said = {"how_many": how_many, "on": on, "mass": mass, "rods": rods, "place": self.base.place}
            self.do(bundles.tie, cut=cut, length_class=self.length(length), **said)

    @rule(on=days, mass=perhaps_mass)
    def buy_in(self, on, mass):
        said = {"variety": self.base.varieties[0], "length_class": self.base.lengths[0]}
        self.do(bundles.buy_in, supplier="Ida Rushby", on=on, mass=mass, **said)

    @rule(on=days, rods=rods)
    def find(self, on, rods):
        said = {"likely_variety": self.base.varieties[1], "length_class": self.base.lengths[0]}
        self.do(bundles.find, on=on, rods=rods, **said)

    @rule(find=which, variety=which)
    def settle(self, find, variety):
        self.do(bundles.settle_find, find=self.any(Find, find), variety=self.base.varieties[variety % 2])

    @rule(bundle=which, cut=which)
    def was_of_cut(self, bundle, cut):
        cut = self.any(type(self.base.cuts[0]), cut)
        if cut:
            self.do(bundles.was_of_cut, bundle=self.any(Bundle, bundle), cut=cut, at=self.now(), why="mistaken")

    @rule(bundle=which, on=days, mass=perhaps_mass, rods=rods)
    def correct_bundle(self, bundle, on, mass, rods):
        self.do(bundles.correct_bundle, bundle=self.any(Bundle, bundle), tied_on=on, mass=mass, tied_rods=rods)

    # In the shed

    @rule(numbers=several, on=days)
    def move(self, numbers, on):
        if chosen := self.chosen(numbers):
            self.do(bundles.move, bundles=chosen, place=self.base.place, on=on)

    @rule(numbers=several, on=days, name=st.sampled_from(["north", "south", "loft"]))
    def stack_up(self, numbers, on, name):
        chosen = self.chosen(numbers)
        self.do(bundles.stack_up, name=name, bundles=chosen, on=on, telltales=chosen[:1])

    @rule(bundle=which, on=days, much=muches, left=perhaps_mass, too=yes_or_no, promise=st.none() | which)
    def take_out(self, bundle, on, much, left, too, promise):
        said = {"on": on, "much": much, "left_weighs": left, "promised_too": too, "purpose": "work"}
        said["promise"] = None if promise is None else self.any(Promise, promise)
        self.do(stock.take_out, bundle=self.any(Bundle, bundle), **said)

    @rule(bundle=which, on=days, much=muches, gone=gone)
    def gone(self, bundle, on, much, gone):
        self.do(stock.take_out, bundle=self.any(Bundle, bundle), on=on, much=much, purpose="gone", gone=gone)

    @rule(taking=which, on=days, much=muches, left=perhaps_mass, too=yes_or_no)
    def correct_taking(self, taking, on, much, left, too):
        taking = self.any(Taking, taking)
        said = {"on": on, "much": much, "left_weighs": left, "promised_too": too}
        self.do(stock.correct_taking, taking=taking, gone=taking.gone if taking else "", **said)

    @rule(bundle=which, on=days, why=st.sampled_from(Count.Why.values), mass=perhaps_mass, rods=perhaps_none_left)
    def count(self, bundle, on, why, mass, rods):
        self.do(stock.count, bundle=self.any(Bundle, bundle), on=on, why=why, mass=mass, rods=rods)

    @rule(old=which, on=days, why=st.sampled_from(Count.Why.values), mass=masses)
    def correct_count(self, old, on, why, mass):
        said = {"struck_out_at": self.now(), "reason": "miscounted"}
        self.do(stock.correct_count, old=self.any(Count, old), on=on, why=why, mass=mass, **said)

    @rule(bundle=which, on=days, much=muches)
    def promise(self, bundle, on, much):
        self.do(stock.promise, bundle=self.any(Bundle, bundle), whom="Orla Fenn", on=on, much=much)

    @rule(promise=which, on=days)
    def release(self, promise, on):
        if found := self.any(Promise, promise):
            self.do(stock.release, promise=found, on=on)

    @rule(promise=which, on=days, much=muches)
    def correct_promise(self, promise, on, much):
        if found := self.any(Promise, promise):
            self.do(stock.correct_promise, promise=found, whom="Orla Fenn", on=on, much=much)

    @rule(span=st.tuples(days, days), factor=st.sampled_from([0.5, 0.96, 1.04, 2.2]))
    def correct_scale(self, span, factor):
        first, last = sorted(span)
        self.do(stock.correct_scale, from_on=first, to_on=last, factor=factor, why="read wrong")

    # Bundles in, bundles out

    @rule(bundle=which, on=days, much=muches, too=yes_or_no)
    def split(self, bundle, on, much, too):
        self.do(stock.split, bundle=self.any(Bundle, bundle), on=on, much=much, promised_too=too)

    @rule(numbers=several, on=days, too=yes_or_no)
    def merge(self, numbers, on, too):
        self.do(stock.merge, bundles=self.chosen(numbers), on=on, promised_too=too)

    @rule(numbers=several, on=days, weights=some_out, rejects=st.none() | parts)
    def regrade(self, numbers, on, weights, rejects):
        outs = [stock.Out(length_class=self.length(n), much=much) for n, much in enumerate(weights)]
        outs.append(stock.Out(self.length(0)))
        self.do(stock.regrade, bundles=self.chosen(numbers), on=on, outs=outs, rejects=rejects)

    @rule(numbers=several, on=days, what=peeled, part=fractions, rejects=st.none() | parts)
    def make_into(self, numbers, on, what, part, rejects):
        outs = [stock.Out(self.length(0)), stock.Out(self.length(1), Much("part", part / 2, "", "some"))]
        bark = None if what == "steamed" else Much("part", 0.1, "", "a tenth")
        self.do(stock.make_into, bundles=self.chosen(numbers), on=on, type=what, outs=outs, rejects=rejects, bark=bark)

    # In the water and on the bench

    @rule(bundle=which, on=days, much=muches, hours=st.sampled_from([0, 30]))
    def put_in(self, bundle, on, much, hours):
        said = {"tank": self.base.tank, "moment": moment(on, hours), "much": much}
        self.do(soaking.put_in, bundle=self.any(Bundle, bundle), **said)

    @rule(batch=which, on=days, part=readings)
    def lift(self, batch, on, part):
        self.do(soaking.lift, batch=self.any(Batch, batch), moment=moment(on), part=part)

    @rule(batch=which, on=days, much=muches, soaked=yes_or_no, bundle=which)
    def weave(self, batch, on, much, soaked, bundle):
        basket = self.any(Basket, 0)
        if basket is None or basket.made_on != on:
            basket = self.do(baskets.make_basket, name="log basket", made_on=on)
        if soaked:
            self.do(baskets.use_rods, basket=basket, batch=self.any(Batch, batch), much=much)
        else:
            self.do(baskets.use_unsoaked, basket=basket, bundle=self.any(Bundle, bundle), much=much)

    @rule(used=which, much=muches)
    def correct_rods_used(self, used, much):
        if found := self.any(RodsUsed, used):
            self.do(baskets.correct_rodsused, rodsused=found, much=much)

    @rule(batch=which, on=days, part=readings)
    def dry_again(self, batch, on, part):
        self.do(soaking.dry_again, batch=self.any(Batch, batch), on=on, part=part)

    @rule(bundle=which, on=days, much=muches, sale=which)
    def sell(self, bundle, on, much, sale):
        self.do(customers.sell, bundle=self.any(Bundle, bundle), on=on, much=much)

    @rule(line=which, on=days, much=muches, soaked=yes_or_no)
    def bring_back(self, line, on, much, soaked):
        if found := self.any(SaleLine, line):
            self.do(customers.bring_back, line=found, on=on, much=much, soaked=soaked)

    @rule(sale=which, on=days)
    def correct_sale(self, sale, on):
        if found := self.any(Sale, sale):
            self.do(customers.correct_sale, sale=found, on=on)

    # Taken back, and put back

    STRUCK = (
        Bundle, Taking, Making, Count, Promise, Move, Stack, ScaleCorrection, Batch, Lift, DriedAgain, Spoiled,
        RodsUsed, SaleLine, Sale, CuttingDay,
    )  # fmt: skip

    @rule(model=st.sampled_from(STRUCK), n=which, all_of_it=yes_or_no)
    def strike_out(self, model, n, all_of_it):
        said = {"by": self.by, "reason": "a mistake", "at": self.now(), "with_what_stands_on_it": all_of_it}
        self.act(people.strike_out, record=self.any(model, n), **said)

    @rule(model=st.sampled_from(STRUCK), n=which)
    def put_back(self, model, n):
        struck = list(model.objects.of(self.holding, struck_out=True).exclude(struck_out_at=None).order_by("pk"))
        if struck:
            self.act(people.put_back, record=struck[n % len(struck)], by=self.by)


@pytest.mark.django_db
def test_nothing_is_lost_and_nothing_appears(holding):
    run_state_machine_as_test(Winter, settings=HOW_FAR)
