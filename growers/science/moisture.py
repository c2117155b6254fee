"""Moisture of wood and of the air about it.

Moisture is a fraction of the dry mass (dry basis) unless its name says `wet_basis`. Temperatures are in °C,
relative humidity is a fraction. Functions take floats or arrays of any shapes that broadcast, and give an
array of the broadcast shape, or a float for floats.
"""

from typing import Any

import numpy as np

from growers.science.arrays import Floats, as_given, within
from growers.science.vapour import COLDEST_C, WARMEST_C, drying_pace, saturation_pressure

__all__ = [
    "daily_equilibrium",
    "dry_from_wet_basis",
    "drying_pace",
    "equilibrium_moisture",
    "mean_equilibrium",
    "moisture_dry_basis",
    "saturation_pressure",
    "wet_from_dry_basis",
]

# The coldest air of the table that the equation stands for, 30 °F: Wood Handbook, FPL-GTR-190 (2010), 4-2.
# Carried on below, its parabolas turn back (7 % at -40 °C and 50 %), so colder air is taken for this.
COLDEST_FITTED_C = (30 - 32) * 5 / 9

# Damper air is taken for this. Near saturation the equation runs up to a film of dew, which is no air to come
# to rest with, and cheap hygrometers stick at 100 %. Our own choice, no source.
DAMPEST = 0.99


def equilibrium_moisture(temperature_c: Floats, relative_humidity: Floats) -> Floats:
    """Moisture at which wood comes to rest in air [fraction, dry basis].

    Parameters
    ----------
    temperature_c : air temperature [°C], -40 to 60; below -1.1 it is taken for -1.1 (see `COLDEST_FITTED_C`).
    relative_humidity : [fraction], 0 to 1; above 0.99 it is taken for 0.99 (see `DAMPEST`).

    Returns
    -------
    Fraction from 0 to about 0.28. NaN where either is NaN: a missing hour stays missing.

    Raises
    ------
    ValueError : out of range, with the likeliest reason (85 for 0.85, °F for °C).

    Notes
    -----
    Hailwood-Horrobin sorption with two hydrates:
    M% = 1800/W [Kh/(1-Kh) + (K1 Kh + 2 K1 K2 K² h²) / (1 + K1 Kh + K1 K2 K² h²)], with T in °C and
    W = 349 + 1.29 T + 0.0135 T², K = 0.805 + 0.000736 T - 0.00000273 T²,
    K1 = 6.27 - 0.00938 T - 0.000303 T², K2 = 1.91 + 0.0407 T - 0.000293 T².
    It is for timber, midway between taking up and giving off water; bark-on willow may differ by a point.

    References
    ----------
    Simpson, W. T. (1998), Equilibrium moisture content of wood in outdoor locations in the United States and
    worldwide, USDA Forest Products Laboratory, FPL-RN-0268.
    USDA Forest Products Laboratory (2010), Wood Handbook, FPL-GTR-190, chapter 4.
    """
    t = np.maximum(within(temperature_c, COLDEST_C, WARMEST_C, "temperature_c", "is it in °F?"), COLDEST_FITTED_C)
    h = np.minimum(within(relative_humidity, 0.0, 1.0, "relative_humidity", "is it in per cent?"), DAMPEST)
    w = 349 + 1.29 * t + 0.0135 * t**2
    kh = (0.805 + 0.000736 * t - 0.00000273 * t**2) * h
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    hydrated = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return as_given(18 / w * (kh / (1 - kh) + hydrated))


def mean_equilibrium(temperature_c: Floats, relative_humidity: Floats, weights: Floats | None = None) -> float:
    """The moisture that air over some hours pulls wood towards [fraction, dry basis].

    The mean of the hourly equilibrium, weighted by how fast wood dries in each hour. It is not that of the
    mean air, which comes out about a point too dry: the equation bends upwards in damp air.

    Parameters
    ----------
    temperature_c, relative_humidity : one value an hour, as for `equilibrium_moisture`; shapes broadcast.
    weights : 0 or more, an hour's share; None for `drying_pace` of its temperature.

    Returns
    -------
    Fraction. Hours with NaN in either are left out; NaN if no hour is left, or none with weight.

    Raises
    ------
    ValueError : out of range, or a weight below 0 or not a number.
    """
    moisture = np.asarray(equilibrium_moisture(temperature_c, relative_humidity), dtype=float)
    weight = drying_pace(temperature_c) if weights is None else weights
    weight = np.broadcast_to(np.asarray(weight, dtype=float), moisture.shape)
    known = ~np.isnan(moisture)
    if not np.all(weight[known] >= 0):
        raise ValueError("weights must be numbers of 0 or more")
    total = weight[known].sum()
    return float((moisture[known] * weight[known]).sum() / total) if total > 0 else float("nan")


def daily_equilibrium(at: Floats, temperature_c: Floats, relative_humidity: Floats) -> Any:
    """`mean_equilibrium` of each day.

    Parameters
    ----------
    at : when each reading holds: anything pandas takes for a DatetimeIndex. A reading at midnight belongs to
        the day that begins. With a zone, days are that zone's, of 23 or 25 hours when its clocks change.
    temperature_c, relative_humidity : as long as `at`; ranges as for `equilibrium_moisture`.

    Returns
    -------
    pandas.DataFrame, a row for each day from the first to the last, indexed by its midnight without a zone
    (`day`): `moisture` [fraction, dry basis], `pace` (mean of `drying_pace`), `hours` (readings used).
    Readings with NaN in either are left out; a day with none left has NaN, NaN and 0. How few are enough is
    for the caller to say.

    Raises
    ------
    ValueError : out of range, lengths that differ, or an instant missing.
    """
    import pandas as pd

    index = pd.DatetimeIndex(at).tz_localize(None)
    if index.hasnans:
        raise ValueError("an instant is missing")
    temperature, humidity = (np.asarray(x, dtype=float) for x in (temperature_c, relative_humidity))
    if not len(index) == len(temperature) == len(humidity):
        raise ValueError("at, temperature_c and relative_humidity must be of one length")
    hours = pd.DataFrame(
        {"moisture": equilibrium_moisture(temperature, humidity), "pace": drying_pace(temperature)},
        index=index,
    ).dropna()
    hours["pull"] = hours["moisture"] * hours["pace"]
    days = hours.groupby(hours.index.normalize()).agg(
        pull=("pull", "sum"), pace=("pace", "mean"), total=("pace", "sum"), hours=("pace", "size")
    )
    if len(index):
        first, last = index.min().normalize(), index.max().normalize()
        days = days.reindex(pd.date_range(first, last, freq="D"))
    days.index.name = "day"
    days["moisture"] = days["pull"] / days["total"]
    days["hours"] = days["hours"].fillna(0).astype(int)
    return days[["moisture", "pace", "hours"]]


def moisture_dry_basis(wet_mass: Floats, dry_mass: Floats) -> Floats:
    """Moisture by oven drying, `(wet - dry) / dry` [fraction, dry basis].

    Parameters
    ----------
    wet_mass : mass before drying, 0 < dry_mass <= wet_mass, in the unit of `dry_mass`.
    dry_mass : mass after drying at 103 ± 2 °C to constant mass.

    Returns
    -------
    Fraction, 0 or more (green willow about 1). NaN where either is NaN.

    Raises
    ------
    ValueError : a dry mass of 0 or less, or above the wet mass.

    References
    ----------
    EN 13183-1:2002, Moisture content of a piece of sawn timber, part 1: oven dry method. ISO 13061-1:2014.
    """
    wet, dry = np.asarray(wet_mass, dtype=float), np.asarray(dry_mass, dtype=float)
    if np.any(dry <= 0):
        raise ValueError("dry_mass must be above 0")
    if np.any(wet < dry):
        raise ValueError("wet_mass must be no less than dry_mass: are they the wrong way round?")
    return as_given((wet - dry) / dry)


def wet_from_dry_basis(moisture: Floats) -> Floats:
    """Moisture on the wet basis, by which fuel is sold [fraction].

    Parameters
    ----------
    moisture : [fraction, dry basis], 0 or more, of any shape.

    Returns
    -------
    `moisture / (1 + moisture)`, from 0 to below 1. NaN stays NaN.

    Raises
    ------
    ValueError : below 0.

    References
    ----------
    ISO 18134-1, Solid biofuels: determination of moisture content.
    """
    m = within(moisture, 0.0, np.inf, "moisture", "it is a fraction of the dry mass")
    return as_given(m / (1 + m))


def dry_from_wet_basis(moisture_wet_basis: Floats) -> Floats:
    """Moisture on the dry basis [fraction] from the wet basis.

    Parameters
    ----------
    moisture_wet_basis : [fraction, wet basis], 0 or more and below 1, of any shape.

    Returns
    -------
    `moisture_wet_basis / (1 - moisture_wet_basis)`, 0 or more. NaN stays NaN.

    Raises
    ------
    ValueError : below 0, or 1 and above.
    """
    w = within(moisture_wet_basis, 0.0, np.nextafter(1.0, 0.0), "moisture_wet_basis", "is it in per cent?")
    return as_given(w / (1 - w))
