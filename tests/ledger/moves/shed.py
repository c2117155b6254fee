"""Rods taken out, counted and promised; bundles in, bundles out; scales set right."""

from hypothesis import strategies as st

from growers.bundles.models import Bundle, Place, Taking
from growers.furniture.much import Much
from growers.harvest.models import LengthClass
from growers.stock import actions as stock
from growers.stock.models import Count, Promise

from .said import (
    NOTHING_FITS,
    Made,
    Move,
    a,
    by_weight,
    days,
    fractions,
    hours,
    masses,
    muches,
    names,
    of_kind,
    or_its_own,
    parts,
    perhaps_a,
    perhaps_mass,
    perhaps_none_left,
    perhaps_part,
    rods,
    some,
    the_clock,
    yes_or_no,
)


def outs(drawn):
    """What comes out of a making: the last of it is the rest."""

    def build(book, weights):
        lengths = book.living(LengthClass)
        if not lengths:
            return NOTHING_FITS
        there = [stock.Out(lengths[n % len(lengths)], much) for n, much in enumerate(weights)]
        return [*there, stock.Out(lengths[0])]

    return Made(drawn, build)


halves = fractions.map(lambda part: [Much("part", part / 2, "", "some")])
taken = {"on": days, "much": muches, "left_weighs": perhaps_mass, "promised_too": yes_or_no}
counted = {"on": days, "why": of_kind(Count.Why)}
made = {"on": days, "promised_too": yes_or_no, "place": perhaps_a(Place)}
spans = {"from_on": days, "to_on": days, "factor": st.sampled_from([0.5, 0.96, 1.04, 2.2]), "why": "read wrong"}

MOVES = [
    Move(stock.take_out, bundle=a(Bundle), purpose="work", promise=perhaps_a(Promise), **taken),
    Move(stock.take_out, bundle=a(Bundle), purpose="gone", gone=of_kind(Taking.Gone), **taken),
    Move(
        stock.correct_taking, taking=a(Taking), gone=st.sampled_from(["", "burnt"]),
        **taken | {"on": or_its_own(days, "taking")},
    ),
    Move(stock.count, bundle=a(Bundle), mass=perhaps_mass, rods=perhaps_none_left, **counted),
    Move(stock.correct_count, old=a(Count), struck_out_at=the_clock, reason="miscounted", mass=masses, **counted),
    Move(stock.promise, bundle=a(Bundle), whom=names, on=days, much=muches),
    Move(stock.release, promise=a(Promise), on=days),
    Move(stock.correct_promise, promise=a(Promise), whom=names, on=days, much=muches),
    Move(stock.correct_scale, **spans),
    Move(stock.split, bundle=a(Bundle), much=muches, rods=rods, mass=perhaps_mass, **made),
    Move(stock.merge, bundles=some(Bundle), rods=rods, mass=perhaps_mass, **made),
    Move(
        stock.regrade, bundles=some(Bundle), outs=outs(st.lists(parts | by_weight, max_size=2)), rejects=perhaps_part,
        **made,
    ),
    Move(
        stock.make_into, bundles=some(Bundle), type=st.sampled_from(["white", "buff"]), outs=outs(halves),
        hours=hours, rejects=perhaps_part, bark=Much("part", 0.1, "", "a tenth"), **made,
    ),
    Move(stock.make_into, bundles=some(Bundle), type="steamed", outs=outs(halves), rejects=perhaps_part, **made),
]  # fmt: skip
