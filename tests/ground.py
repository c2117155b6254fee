"""Beds, cuts and bundles of Hallow Carr, made as a page makes them."""

from datetime import date

from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.harvest import actions as harvest
from growers.harvest.models import LengthClass

CUT_ON, TIED_ON = date(2025, 12, 28), date(2026, 1, 20)


def planted(hand, variety="Pellock", bed="Beck Side", planted_year=2019, **said):
    into = beds.Bed.objects.of(hand["holding"]).filter(name=bed).first() or beds.add_bed(**hand, name=bed)
    return beds.plant(**hand, bed=into, new_variety=variety, planted_year=planted_year, **said)


def cut(hand, planting, on=CUT_ON, **said):
    """A cut of one day."""
    return harvest.cut(**hand, planting=planting, on=on, **said).cut


def length(hand, label="5 ft"):
    lengths = LengthClass.objects.of(hand["holding"])
    if not lengths.exists():
        harvest.usual_lengths(**hand)
    return lengths.get(label=label)


def tied(hand, this, on=TIED_ON, label="5 ft", **said):
    return bundles.tie(**hand, cut=this, on=on, length_class=length(hand, label), **said)
