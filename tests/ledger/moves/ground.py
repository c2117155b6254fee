"""Beds, cuts and lengths."""

from hypothesis import strategies as st

from growers.beds import actions as beds
from growers.beds.models import Bed, GapUp, HealthNote, Planting, Variety
from growers.harvest import actions as harvest
from growers.harvest.models import Cut, CuttingDay, GreenOut, LengthClass

from .said import Move, a, ages, days, names, notes, of_kind, perhaps_a, perhaps_a_day, perhaps_mass, rods

years = st.sampled_from([None, 2015, 2025, 2026])
perhaps_named = st.just("") | names
much = {"bundles": st.none() | st.integers(0, 9), "armfuls": st.none() | st.integers(1, 3), "mass": perhaps_mass}
seen = {"on": days, "what": of_kind(HealthNote.What), "how_bad": of_kind(HealthNote.HowBad)}
went = {
    "on": days, "what": of_kind(GreenOut.What), "where": of_kind(GreenOut.Where), "pieces": rods, "mass": perhaps_mass
}  # fmt: skip
long = {"min_m": st.sampled_from([0.9, 1.2]), "max_m": st.sampled_from([None, 0.8, 1.5])}

MOVES = [
    Move(beds.add_variety, name=names, species="Salix triandra"),
    Move(beds.correct_variety, variety=a(Variety), name=names, note=notes),
    Move(beds.add_bed, name=names, area_m2=st.sampled_from([None, 0, 120.0])),
    Move(beds.correct_bed, bed=a(Bed), name=names, note=notes),
    Move(
        beds.plant, bed=a(Bed), variety=perhaps_a(Variety), new_variety=perhaps_named, planted_year=years,
        planted_on=perhaps_a_day, rows="1–3", stools=rods,
    ),
    Move(beds.correct_planting, planting=a(Planting), planted_year=years, planted_on=perhaps_a_day, stools=rods),
    Move(
        beds.correct_planting, planting=a(Planting), planted_year=2019, grubbed_on=perhaps_a_day, variety=a(Variety)
    ),
    Move(beds.grub_out, planting=a(Planting), on=days),
    Move(beds.gap_up, planting=a(Planting), on=days, stools=st.integers(0, 350)),
    Move(beds.correct_gap_up, gapup=a(GapUp), on=days, stools=st.integers(0, 350)),
    Move(beds.note_health, planting=a(Planting), **seen),
    Move(beds.correct_health_note, healthnote=a(HealthNote), **seen),
    Move(harvest.add_length, label=names, **long),
    Move(harvest.usual_lengths, system=st.sampled_from(["ft", "cm"])),
    Move(harvest.correct_length, lengthclass=a(LengthClass), label=names, **long),
    Move(harvest.cut, planting=a(Planting), on=days, age_years=ages, **much),
    Move(
        harvest.cut_one, planting=a(Planting), on=days, came_off=st.sampled_from(["bundles", "armfuls"]),
        age_years=ages,
    ),
    Move(harvest.correct_cutting_day, cuttingday=a(CuttingDay), on=days, **much),
    Move(harvest.correct_cut, cut=a(Cut), planting=a(Planting), age_years=st.sampled_from([1, 2])),
    Move(harvest.green_out, cut=a(Cut), **went),
    Move(harvest.correct_green_out, greenout=a(GreenOut), **went),
]  # fmt: skip
