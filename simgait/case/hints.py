"""Likely mistakes of unit, named: a value that fits once it is read in another unit."""

from __future__ import annotations

# Ending of the key, factor that would bring the value into the key's unit, what it looks like.
MISTAKES = (
    ("_mm", 1000.0, "metres", "mm"),
    ("_mm", 10.0, "centimetres", "mm"),
    ("_mm", 25.4, "inches", "mm"),
    ("_kg", 0.001, "grams", "kg"),
    ("_kg", 0.45359237, "pounds", "kg"),
    ("_n_mm", 0.001, "N/m", "N/mm"),
    ("_m_s", 1.0 / 3.6, "km/h", "m/s"),
    ("_loss", 0.01, "per cent", "a share from 0 to 1"),
)


def unit_hint(name: str, value: float, low: float, high: float) -> str:
    """Return what a value out of range looks like, or nothing.

    ``name``: key with its unit; ``value``: what was written; ``low``, ``high``: the key's range.

    >>> unit_hint("stature_mm", 1.75, 1200.0, 2200.0)
    '1.75 looks like metres; this field is in mm'
    """
    for ending, factor, other, own in MISTAKES:
        if ending == "_mm" and name.endswith("_n_mm"):
            continue
        if name.endswith(ending) and value != 0.0 and low <= value * factor <= high:
            where = own if own.startswith("a ") else f"in {own}"
            return f"{value:g} looks like {other}; this field is {where}"
    return ""


def nearest_bound(value: float, low: float, high: float) -> str:
    """Return the end of the range that is closer to the value, as a text.

    >>> nearest_bound(720.0, 25.0, 200.0)
    '200'
    """
    return f"{low:g}" if value < low else f"{high:g}"
