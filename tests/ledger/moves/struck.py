"""Anything taken back, and put back."""

from growers.baskets.models import RodsUsed
from growers.bundles.models import Bundle, Making, ScaleCorrection, Taking
from growers.customers.models import OrderPromise, SaleLine
from growers.exchange.rules.entries import entry_models
from growers.people import actions as people
from growers.soaking.models import Batch, Lift
from growers.stock.models import Count, Promise

from .said import Move, a, struck, the_clock, yes_or_no

EVERY_KIND = entry_models()
OF_THE_LEDGER = [
    Bundle, Taking, Making, Count, Promise, ScaleCorrection, Batch, Lift, RodsUsed, SaleLine, OrderPromise,
]  # fmt: skip
said = {"reason": "a mistake", "at": the_clock, "with_what_stands_on_it": yes_or_no}

# More often than anything else: whatever was done can be taken back.
MOVES = 3 * [
    Move(people.strike_out, record=a(*OF_THE_LEDGER), **said),
    Move(people.strike_out, record=a(*EVERY_KIND), **said),
    Move(people.put_back, record=struck(EVERY_KIND)),
]
