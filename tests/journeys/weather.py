"""A month of real weather as a logger would write it, with what wood in it settles at, reckoned one hour at a time."""

import csv
import importlib.util
from decimal import Decimal
from math import exp
from pathlib import Path

from tests.outside.second_ways import hailwood_horrobin


def july(year):
    """The July of a typical year at Greensboro, North Carolina: [(day and hour, °C, %)].

    TMY3, US National Renewable Energy Laboratory, as it ships inside the pvlib package; told as of the year given.
    """
    package = Path(importlib.util.find_spec("pvlib").submodule_search_locations[0])
    with open(package / "data" / "723170TYA.CSV", encoding="utf-8") as file:
        next(file)
        return [
            (
                # TMY3 names an hour by its end.
                f"{year}-07-{int(row['Date (MM/DD/YYYY)'][3:5]):02d} {int(row['Time (HH:MM)'][:2]) - 1:02d}:00",
                Decimal(row["Dry-bulb (C)"]),
                Decimal(row["RHum (%)"]),
            )
            for row in csv.DictReader(file)
            if row["Date (MM/DD/YYYY)"].startswith("07/")
        ]


def as_logger_file(hours):
    lines = ["datetime,temp_c,rh_pct", *(f"{at},{warm},{damp}" for at, warm, damp in hours)]
    return "\n".join(lines).encode()


def settles_at(hours):
    """Moisture that wood in this air settles at: each hour counts by how fast rods dry in it, (psat/psat(10 °C))^0.7.

    The vapour pressure is by another formula than the site's (Magnus form, WMO-No. 8: 6.112 exp(17.62 t/(243.12 + t))).
    """
    pace = [exp(17.62 * float(warm) / (243.12 + float(warm))) ** 0.7 for _at, warm, _damp in hours]
    moisture = [float(hailwood_horrobin(warm, min(damp / 100, Decimal("0.99")))) for _at, warm, damp in hours]
    return sum(p * m for p, m in zip(pace, moisture, strict=True)) / sum(pace)
