"""What every reckoning asks of its numbers."""

from typing import Any

import numpy as np

Floats = Any  # a float, or anything numpy takes for an array of floats


def within(values: Floats, low: float, high: float, name: str, hint: str) -> np.ndarray:
    """`values` as an array of floats, NaN allowed; ValueError beyond `low` to `high`, with a hint."""
    array = np.asarray(values, dtype=float)
    beyond = array[(array < low) | (array > high) | np.isinf(array)]
    if beyond.size:
        raise ValueError(f"{name} {beyond.flat[0]:g} is not from {low:g} to {high:g}: {hint}")
    return array


def as_given(array: Floats) -> Floats:
    """A float where floats were given, else the array."""
    return float(array) if np.ndim(array) == 0 else array
