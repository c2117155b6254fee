"""What someone probably meant by a figure far from what is likely."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Slip:
    """A figure taken for another: meant = (value - offset) * factor, typed in a unit of `typed` (if any)."""

    kinds: tuple[str, ...]
    typed: tuple[str, ...]
    factor: float
    offset: float = 0.0


_SI = {"mass": "kg", "length": "m", "temperature": "C"}
_ANY = ("mass", "length", "thickness", "count", "hours")

# Slips of unit before slips of the decimal mark: the commoner come first. The order is our own, no source.
SLIPS: dict[str, Slip] = {
    "lb_for_kg": Slip(("mass",), ("kg",), 0.45359237),
    "ft_for_m": Slip(("length",), ("m",), 0.3048),
    "cm_for_m": Slip(("length",), ("m",), 0.01),
    "in_for_ft": Slip(("length",), ("ft",), 1 / 12),
    "g_for_kg": Slip(("mass",), ("kg",), 0.001),
    "kg_for_g": Slip(("mass",), ("g",), 1000.0),
    "kg_for_lb": Slip(("mass",), ("lb",), 1 / 0.45359237),
    "m_for_ft": Slip(("length",), ("ft",), 1 / 0.3048),
    "f_for_c": Slip(("temperature",), ("C",), 5 / 9, 32.0),
    "tenfold": Slip(_ANY, (), 0.1),
    "tenth": Slip(_ANY, (), 10.0),
}


def as_meant(value: float, slip: str) -> float:
    """`value`, in SI as it was understood, put right for `slip` (a key of `SLIPS`), in SI."""
    return (value - SLIPS[slip].offset) * SLIPS[slip].factor


def likely_slip_and_meant(
    value: float, low: float, high: float, kind: str, unit: str | None = None
) -> tuple[str, float] | None:
    """The slip that would bring `value` from `low` to `high`, and what was then meant; None if none would.

    Parameters
    ----------
    value, low, high : in SI (kg, m, °C, hours, or a number). A value already from low to high is no slip.
    kind : mass, length, thickness, temperature, hours or count.
    unit : the unit typed, a key of `UNITS`; slips of other units are passed over. None: kg, m or C.

    Returns
    -------
    (key of `SLIPS`, value meant, in SI) or None.
    """
    if low <= value <= high:
        return None
    for name, slip in SLIPS.items():
        fits = kind in slip.kinds and (not slip.typed or (unit or _SI.get(kind)) in slip.typed)
        if fits and low <= as_meant(value, name) <= high:
            return name, as_meant(value, name)
    return None


def likely_slip(
    value: float, expected_low: float, expected_high: float, kind: str, unit: str | None = None
) -> str | None:
    """The key of `SLIPS` that would bring `value` to what is expected, or None: `likely_slip_and_meant`."""
    found = likely_slip_and_meant(value, expected_low, expected_high, kind, unit)
    return found[0] if found else None
