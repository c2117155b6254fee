"""Baskets, and what went into them."""

from hypothesis import strategies as st

from growers.baskets import actions as baskets
from growers.baskets.models import Basket, Pattern, PatternPart, RodsUsed, StayedTight
from growers.bundles.models import Bundle
from growers.harvest.models import LengthClass
from growers.soaking.models import Batch

from .said import Move, a, days, muches, names, notes, of_kind, perhaps_a, rods, yes_or_no

part = {"name": names, "rods": rods, "length_class": perhaps_a(LengthClass), "thickness": of_kind(Bundle.Thickness)}
basket = {"name": names, "made_on": days, "pattern": perhaps_a(Pattern)}
look = {"on": days, "result": of_kind(StayedTight.Result), "note": notes}

MOVES = [
    Move(baskets.add_pattern, name=names),
    Move(baskets.correct_pattern, pattern=a(Pattern), name=names),
    Move(baskets.add_part, pattern=a(Pattern), **part),
    Move(baskets.correct_patternpart, patternpart=a(PatternPart), **part),
    Move(baskets.make_basket, **basket),
    Move(baskets.correct_basket, basket=a(Basket), **basket),
    Move(baskets.use_rods, basket=a(Basket), batch=a(Batch), much=muches),
    Move(
        baskets.use_batch, batch=a(Batch), much=muches, basket=perhaps_a(Basket), new_basket=st.just("") | names,
        made_on=days,
    ),
    Move(baskets.use_unsoaked, basket=a(Basket), bundle=a(Bundle), much=muches, promised_too=yes_or_no),
    Move(baskets.correct_rodsused, rodsused=a(RodsUsed), much=st.none() | muches, part_of_basket="stakes"),
    Move(baskets.stayed_tight, basket=a(Basket), **look),
    Move(baskets.correct_stayedtight, stayedtight=a(StayedTight), **look),
]  # fmt: skip
