"""Water vapour in air, and how fast wood dries in it."""

import numpy as np

from growers.science.arrays import Floats, as_given, within

# Any air that a shed holds, °C.
COLDEST_C, WARMEST_C = -40.0, 60.0

# Saturation pressure over water, Magnus form: Alduchov and Eskridge 1996, equation 21.
MAGNUS_PA, MAGNUS_A, MAGNUS_C = 610.94, 17.625, 243.04

# How strongly the pace of drying follows the saturation pressure, and the temperature at which it is 1.
# Our own starting values, no source.
PACE_EXPONENT = 0.7
PACE_C = 10.0


def saturation_pressure(temperature_c: Floats) -> Floats:
    """Pressure of water vapour over water in saturated air [Pa].

    Parameters
    ----------
    temperature_c : [°C], -40 to 60.

    Returns
    -------
    Pa, 19 to 19,900. NaN where the temperature is NaN.

    Raises
    ------
    ValueError : out of range.

    Notes
    -----
    Magnus form, e = 610.94 exp(17.625 T / (T + 243.04)). Over water also below 0 °C, as the weather services
    report relative humidity. Within 0.4 % from -40 to 50 °C, as its authors state.

    References
    ----------
    Alduchov, O. A. and Eskridge, R. E. (1996), Improved Magnus form approximation of saturation vapor
    pressure, J. Appl. Meteor. 35, 601-609, equation 21. doi:10.1175/1520-0450(1996)035<0601:IMFAOS>2.0.CO;2
    """
    t = within(temperature_c, COLDEST_C, WARMEST_C, "temperature_c", "is it in °F?")
    return as_given(MAGNUS_PA * np.exp(MAGNUS_A * t / (t + MAGNUS_C)))


def drying_pace(temperature_c: Floats) -> Floats:
    """How fast wood gives off water at a temperature, against 10 °C.

    Parameters
    ----------
    temperature_c : [°C], -40 to 60.

    Returns
    -------
    1 at 10 °C, about 0.6 at 0 °C and 1.6 at 20 °C. NaN where the temperature is NaN.

    Raises
    ------
    ValueError : out of range.

    Notes
    -----
    (p(T) / p(10 °C)) ** 0.7, p the `saturation_pressure`. Form and exponent are our own guess, no source.
    """
    return (saturation_pressure(temperature_c) / saturation_pressure(PACE_C)) ** PACE_EXPONENT
