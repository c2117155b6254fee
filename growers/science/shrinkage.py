"""How much a rod has shrunk in drying, and how much shrinking is still to come.

It is the shrinking of the first drying, which pulls the rod in and sets it: soaking swells it again, but
less, and in every basket alike. Moisture is a fraction of the dry mass; shrinking, of the green thickness.
"""

import numpy as np

from growers.science.arrays import Floats, as_given, within

# Fibre saturation point: above it only free water leaves, and wood keeps its size [fraction, dry basis].
# Wood Handbook, FPL-GTR-190 (2010), chapter 4: 30 % on average, for all species.
FIBRE_SATURATION = 0.30

# Shrinking across the rod, along the rings, from green to oven-dry [fraction of the green thickness].
# Black willow, Salix nigra, tangential 8.7 %: Wood Handbook, FPL-GTR-190 (2010), table 4-3. The nearest
# published figure: basketry willows are other species, cut at one year.
GREEN_TO_OVEN_DRY = 0.087

# Shrinking still to come within which a basket is taken to hold tight, until a holding's own baskets say
# otherwise [fraction]. Our own starting guess, no source.
SHRINK_LIMIT = 0.02


def shrinkage(moisture: Floats, green_to_oven_dry: float = GREEN_TO_OVEN_DRY) -> Floats:
    """How much a rod has shrunk from green by the time it holds this moisture [fraction of green thickness].

    Parameters
    ----------
    moisture : [fraction, dry basis], 0 or more, of any shape.
    green_to_oven_dry : the whole shrinking from green to oven-dry [fraction], above 0 and below 1.

    Returns
    -------
    Fraction from 0 (at 0.30 and above) to `green_to_oven_dry` (at 0), shaped as `moisture`. NaN stays NaN.

    Raises
    ------
    ValueError : moisture below 0 or above 5 (per cent for a fraction), a whole shrinking beyond 0 to 1.

    Notes
    -----
    S(M) = S0 (F - min(M, F)) / F, with F the fibre saturation point: linear below it.

    References
    ----------
    USDA Forest Products Laboratory (2010), Wood Handbook, FPL-GTR-190, chapter 4 and table 4-3.
    """
    if not 0 < green_to_oven_dry < 1:
        raise ValueError(f"green_to_oven_dry {green_to_oven_dry:g} is not between 0 and 1")
    m = within(moisture, 0.0, 5.0, "moisture", "is it in per cent?")
    return as_given(green_to_oven_dry * (1 - np.minimum(m, FIBRE_SATURATION) / FIBRE_SATURATION))


def shrinkage_to_come(moisture: Floats, settles_at: Floats, green_to_oven_dry: float = GREEN_TO_OVEN_DRY) -> Floats:
    """How much a rod will still shrink until it comes to rest indoors [fraction of green thickness].

    Parameters
    ----------
    moisture : what it holds now [fraction, dry basis], 0 or more.
    settles_at : what it will hold indoors [fraction, dry basis], 0 or more: the `equilibrium_moisture` of the
        room, about 0.093 at 20 °C and 50 %. Shapes broadcast.
    green_to_oven_dry : as for `shrinkage`.

    Returns
    -------
    `shrinkage(settles_at) - shrinkage(moisture)`, 0 to `green_to_oven_dry`; below 0 for a rod drier than it
    will be, which will swell. NaN stays NaN.

    Raises
    ------
    ValueError : as `shrinkage`.
    """
    return shrinkage(settles_at, green_to_oven_dry) - shrinkage(moisture, green_to_oven_dry)


def moisture_at_limit(limit: Floats, settles_at: Floats, green_to_oven_dry: float = GREEN_TO_OVEN_DRY) -> Floats:
    """The moisture at which just `limit` of shrinking is still to come [fraction, dry basis].

    Parameters
    ----------
    limit : [fraction of green thickness], 0 or more, and no more than a green rod will shrink.
    settles_at : moisture indoors [fraction, dry basis], 0 to 0.30. Shapes broadcast.
    green_to_oven_dry : as for `shrinkage`.

    Returns
    -------
    Fraction from `settles_at` to 0.30: about 0.162 for 2 % in a room at 20 °C and 50 %.

    Raises
    ------
    ValueError : a limit that even a green rod stays within; settles_at beyond 0 to 0.30.

    Notes
    -----
    The inverse of `shrinkage_to_come` in `moisture`: M = E + limit F / S0.
    """
    limits = within(limit, 0.0, 1.0, "limit", "is it in per cent?")
    rest = within(settles_at, 0.0, FIBRE_SATURATION, "settles_at", "wood at rest indoors is drier")
    if np.any(limits > shrinkage(rest, green_to_oven_dry)):
        raise ValueError("limit is more than a green rod shrinks until it comes to rest")
    return as_given(rest + limits * FIBRE_SATURATION / green_to_oven_dry)
