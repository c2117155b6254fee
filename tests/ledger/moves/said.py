"""What a grower may say, and how the entries it is said of are picked out of the book."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, time, timedelta

from hypothesis import strategies as st

from growers.furniture.moments import Moment
from growers.furniture.much import Much
from growers.science.units import Reading
from tests.ledger.book import CUT_ON

NOTHING_FITS = object()
"""What an action is about is not in the book: there is nothing to do."""


@dataclass
class Move:
    """An action, and what may be said to it: by each keyword a value, a strategy, or what is looked for in the book."""

    action: object
    said: dict = field(default_factory=dict)

    def __init__(self, action, **said):
        self.action, self.said = action, said


@dataclass
class Made:
    """What is made of a drawn value once the book is known: `build(book, drawn)`."""

    drawn: st.SearchStrategy
    build: object


which = st.integers(0, 50)
yes_or_no = st.booleans()


def a(*models):
    """One of the living entries of a kind, or of one of several kinds."""

    def found(book, drawn):
        number, model = drawn
        living = book.living(model)
        return living[number % len(living)] if living else NOTHING_FITS

    return Made(st.tuples(which, st.sampled_from(models)), found)


def perhaps_a(model):
    def found(book, number):
        living = book.living(model) if number is not None else []
        return living[number % len(living)] if living else None

    return Made(st.none() | which, found)


def some(model):
    """Several different living entries."""

    def found(book, numbers):
        living = book.living(model)
        return list(dict.fromkeys(living[number % len(living)] for number in numbers)) if living else NOTHING_FITS

    return Made(st.lists(which, min_size=1, max_size=3), found)


def struck(models):
    """One of the entries of these kinds that were struck out."""

    def found(book, number):
        there = [each for model in models for each in book.living(model, struck_out=True) if each.struck_out_at]
        return there[number % len(there)] if there else NOTHING_FITS

    return Made(which, found)


def or_its_own(days, record, field="on"):
    """A day or moment, or that of the entry that the action is about."""

    def found(book, drawn):
        own, day = drawn
        return getattr(book.about[record], field) if own else day

    return Made(st.tuples(yes_or_no, days), found)


the_clock = Made(st.none(), lambda book, _drawn: book.now())

# Half of the days are late ones, when everything in the book has happened already.
day_numbers = st.integers(-3, 260) | st.integers(154, 200)
days = day_numbers.map(lambda n: CUT_ON + timedelta(days=n))
perhaps_a_day = st.none() | days


def at(day, hour=12):
    return datetime.combine(day, time(hour), UTC)


instants = st.builds(at, days, st.sampled_from([6, 12, 12, 20]))
perhaps_an_instant = st.none() | instants
moments = st.builds(
    lambda first, hours: Moment(first, first + timedelta(hours=hours), "then"), instants, st.sampled_from([0, 0, 30])
)

kilos = st.floats(0.01, 9).map(lambda kg: round(kg, 3))
masses = kilos.map(lambda kg: Reading(kg, "kg", f"{kg} kg"))
perhaps_mass = st.none() | masses
fractions = st.sampled_from([0.001, 0.1, 0.25, 1 / 3, 0.5, 2 / 3, 0.75, 0.999, 1.0])
parts = fractions.map(lambda part: Much("part", part, "", f"{part:.3f}"))
perhaps_part = st.none() | parts
readings = st.none() | fractions.map(lambda part: Reading(part, "part", f"{part:.3f}"))
by_weight = kilos.map(lambda kg: Much("mass", kg, "kg", f"{kg} kg"))
by_rods = st.integers(1, 300).map(lambda n: Much("rods", float(n), "rods", f"{n} rods"))
muches = st.one_of(by_weight, by_rods, parts, st.just(Much("rest", text="the rest")))
wanted = st.one_of(
    by_weight, by_rods, st.integers(1, 4).map(lambda n: Much("bundles", float(n), "bundles", f"{n} bundles"))
)
rods = st.none() | st.integers(1, 300)
perhaps_none_left = st.none() | st.integers(0, 300)
hours = st.none() | st.sampled_from([0.25, 1.0, 30.0]).map(lambda n: Reading(n, "h", f"{n} h"))
names = st.sampled_from(["north", "south", "loft", "Beck Side", "Orla Fenn", "  orla  FENN "])
notes = st.sampled_from(["", "as told"])
ages = st.sampled_from([None, 1, 2])

humidities = st.sampled_from([0.4, 0.7, 0.99]).map(lambda part: Reading(part, "%", f"{part:.0%}"))
temperatures = st.sampled_from([-2.0, 9.0, 14.5]).map(lambda c: Reading(c, "C", f"{c} C"))
felt = temperatures | st.just(Reading(9.0, "word", "cold", low=6.0, high=12.0))
perhaps_felt = st.none() | felt


def of_kind(choices):
    """One of the choices of a field."""
    return st.sampled_from(choices.values)
