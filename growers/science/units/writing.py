"""Writing quantities in SI as people read them; whatever is written here, the readers read back.

Rounded to what a grower's scale, tape or thermometer shows, without trailing zeros, so that what was typed
comes back as it was typed. Unit signs are international; no words.
"""

from growers.science.units.registry import UNITS, from_si

_FRACTIONS = {0: "", 1: "½"}


def write_number(value: float, places: int, *, decimal: str = ".") -> str:
    """`value` to `places` decimals, without trailing zeros, with a true minus and the given decimal mark."""
    written = f"{value:.{places}f}"
    if places:
        written = written.rstrip("0").rstrip(".")
    return ("0" if written in ("-0", "") else written).replace("-", "−").replace(".", decimal)


def write_mass(kg: float, unit: str, *, decimal: str = ".") -> str:
    """A mass [kg, 0 or more] in `unit`: "3.2 kg", "800 g", "12 lb 3 oz", "1 st 3 lb" or "13 oz".

    Kilograms to 1 g below 1 kg, to 10 g below 100 kg, else to 100 g. Grams whole, with a tenth below 100 g.
    Pounds and stones to the ounce, ounces to a tenth (pounds too below 4 oz). ValueError for another unit.
    """
    _expect(unit, "mass")
    amount = float(from_si(kg, unit))
    if unit == "kg":
        places = 3 if kg < 0.9995 else 2 if kg < 99.995 else 1
        return f"{write_number(amount, places, decimal=decimal)} kg"
    if unit == "g":
        return f"{write_number(amount, 1 if amount < 99.95 else 0, decimal=decimal)} g"
    ounces = float(from_si(kg, "oz"))
    if unit == "oz" or ounces < 4:
        return f"{write_number(ounces, 1, decimal=decimal)} oz"
    pounds, ounces = divmod(round(ounces), 16)
    stones, pounds = divmod(pounds, 14) if unit == "st" else (0, pounds)
    parts = ((stones, "st"), (pounds, "lb"), (ounces, "oz"))
    return " ".join(f"{amount} {sign}" for amount, sign in parts if amount)


def write_length(m: float, unit: str, *, decimal: str = ".") -> str:
    """A length [m, 0 or more] in `unit`: ft (4'6"), in, cm ("137 cm"), m ("1.37 m") or mm.

    Feet to half an inch, inches to a half, metres to 1 cm, centimetres and millimetres whole.
    Raises ValueError for another unit.
    """
    _expect(unit, "length")
    if unit in ("ft", "in"):
        return _feet(m, unit)
    places = 2 if unit == "m" else 0
    return f"{write_number(float(from_si(m, unit)), places, decimal=decimal)} {unit}"


def write_thickness(m: float, unit: str = "mm", *, decimal: str = ".") -> str:
    """The thickness of a rod [m, 0 or more] in `unit`: "9 mm" to a tenth, other units to a hundredth."""
    _expect(unit, "length")
    return f"{write_number(float(from_si(m, unit)), 1 if unit == 'mm' else 2, decimal=decimal)} {unit}"


def write_temperature(c: float, unit: str = "C", *, decimal: str = ".") -> str:
    """A temperature [°C] in `unit`, C ("10 °C") or F ("50 °F"), to a tenth. ValueError for another unit."""
    _expect(unit, "temperature")
    return f"{write_number(float(from_si(c, unit)), 1, decimal=decimal)} °{unit}"


def write_humidity(fraction: float, *, decimal: str = ".") -> str:
    """Relative humidity [fraction] as "85 %", to a tenth of a per cent."""
    return f"{write_number(fraction * 100, 1, decimal=decimal)} %"


def write_hours(hours: float) -> str:
    """A span of time [h, 0 or more] as "45 min", "1 h 30 min", "30 h", and from two days on "2 d 4 h".

    To the minute below two days, else to the hour.
    """
    minutes = round(hours * 60)
    if minutes >= 48 * 60:
        parts = zip(divmod(round(hours), 24), ("d", "h"), strict=True)
    else:
        parts = zip(divmod(minutes, 60), ("h", "min"), strict=True)
    return " ".join(f"{amount} {sign}" for amount, sign in parts if amount) or "0 min"


def _feet(m: float, unit: str) -> str:
    halves = round(from_si(m, "in") * 2)
    feet, halves = divmod(halves, 24) if unit == "ft" else (0, halves)
    inches, half = divmod(halves, 2)
    written = f"{inches or ''}{_FRACTIONS[half]}" if halves else ""
    if feet:
        return f"{feet}'" + (f'{written}"' if written else "")
    return f'{written or 0}"'


def _expect(unit: str, dimension: str) -> None:
    if unit not in UNITS or UNITS[unit].dimension != dimension:
        raise ValueError(f"{unit!r} is no unit of {dimension}")
