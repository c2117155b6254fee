"""The same quantities by another road, sharing no code with `growers.science`."""

import math
from decimal import Decimal


def hailwood_horrobin(temperature_c, relative_humidity):
    """Equilibrium moisture (fraction) from the molar balance of Hailwood and Horrobin (1946), in Decimal.

    Water dissolved in the wood acts with activity a = K h. Of one mole of sorption sites (W grams of dry wood)
    a part x0 is free, x1 = K1 a x0 holds one water and x2 = K2 a x1 two; x0 + x1 + x2 = 1. Dissolved water
    follows Raoult: a = n / (n + 1) for n moles in one mole of sites.
    """
    t, h = temperature_c, relative_humidity
    w = Decimal("349") + Decimal("1.29") * t + Decimal("0.0135") * t * t
    k = Decimal("0.805") + Decimal("0.000736") * t - Decimal("0.00000273") * t * t
    k1 = Decimal("6.27") - Decimal("0.00938") * t - Decimal("0.000303") * t * t
    k2 = Decimal("1.91") + Decimal("0.0407") * t - Decimal("0.000293") * t * t
    activity = k * h
    dissolved = activity / (1 - activity)
    free = 1 / (1 + k1 * activity * (1 + k2 * activity))
    one = k1 * activity * free
    two = k2 * activity * one
    return 18 * (dissolved + one + 2 * two) / w


def murphy_koop(celsius):
    """Saturation pressure over water [Pa]: Murphy and Koop (2005), Q. J. R. Meteorol. Soc. 131, 1539-1565."""
    k = celsius + 273.15
    return math.exp(
        54.842763
        - 6763.22 / k
        - 4.210 * math.log(k)
        + 0.000367 * k
        + math.tanh(0.0415 * (k - 218.8)) * (53.878 - 1331.22 / k - 9.44523 * math.log(k) + 0.014025 * k)
    )
