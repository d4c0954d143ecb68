"""The words and numbers on the pictures of studies: plain names, units, signs."""

from collections.abc import Mapping, Sequence
from math import floor, isfinite, log10
from pathlib import PurePosixPath

from simgait.pictures.wording import MINUS
from simgait.studies.study import AIM
from simgait.symbols import BY_NAME, ENDING_SENTENCES, SETTING_BY_NAME

__all__ = [
    "axis_label",
    "decimals_for",
    "definition",
    "ending_name",
    "ending_order",
    "exact",
    "has_sign",
    "label",
    "noun",
    "number",
    "setting_words",
    "unit_of",
    "value_words",
]

HOLD = "\u00a0"  # a space at which no line is broken
_MORE_NAMES = {"case": "case", "draw": "draw"}


def noun(name: str) -> str:
    """A column's name in plain words, without its unit.

    >>> noun("alignment.foot_forward_mm"), noun("hip_rise_mm")
    ('foot forward', 'hip rise')
    """
    plain = name.removesuffix(AIM)
    known = SETTING_BY_NAME.get(plain) or BY_NAME.get(plain)
    if known is not None:
        return known.title
    return _MORE_NAMES.get(plain) or plain.rpartition(".")[2].replace("_", " ")


def unit_of(name: str) -> str:
    """The unit of a column as written in brackets; empty where there is none."""
    plain = name.removesuffix(AIM)
    known = SETTING_BY_NAME.get(plain) or BY_NAME.get(plain)
    unit = known.unit if known is not None else ""
    return "" if unit == "1" else unit.replace(" ", HOLD)


def label(name: str) -> str:
    """A column's name in plain words with its unit.

    >>> label("alignment.foot_forward_mm"), label("drop_off")
    ('foot forward [mm]', 'drop-off [m/s]')
    """
    unit = unit_of(name)
    return f"{noun(name)} [{unit}]" if unit else noun(name)


def axis_label(name: str) -> str:
    """The label of an axis: words, unit, and what plus means.

    >>> axis_label("alignment.dorsiflexion_deg")
    'dorsiflexion [deg], + toe up'
    """
    setting = SETTING_BY_NAME.get(name.removesuffix(AIM))
    return f"{label(name)}, + {setting.plus}" if setting and setting.plus else label(name)


def definition(measure: str) -> str:
    """A sentence that says what a measure is, with its sign; empty for an unknown one.

    What is defined by the measure before it ("The same, ...") takes that one's definition too.
    """
    if measure not in BY_NAME:
        return ""
    own = BY_NAME[measure].definition
    names = list(BY_NAME)
    place = names.index(measure)
    if place and own.startswith(("The same", "When ")):
        return f"{definition(names[place - 1])} {own}"
    return own


def ending_name(ending: str) -> str:
    """An ending in words.

    >>> ending_name("fell_forward")
    'fell forward'
    """
    return "toe-off" if ending == "toe_off" else ending.replace("_", " ")


def ending_order(endings: Mapping[str, int] | Sequence[str]) -> list[str]:
    """Endings in the order in which everything lists them, others behind."""
    known = [name for name in ENDING_SENTENCES if name in endings]
    return known + sorted(set(endings) - set(known))


def decimals_for(span: float) -> int:
    """How many decimals tell values apart that lie within a span: two figures of it, 0 to 4.

    >>> decimals_for(40.0), decimals_for(3.0), decimals_for(0.2)
    (0, 1, 2)
    """
    if not isfinite(span) or span <= 0.0:
        return 1
    return min(max(1 - floor(log10(span)), 0), 4)


def number(value: float, decimals: int, *, signed: bool = False) -> str:
    """A number with a true minus sign; no sign at what rounds to nothing.

    >>> number(-3.14159, 1) == "\\u22123.1", number(-0.04, 1), number(2.0, 0, signed=True)
    (True, '0.0', '+2')
    """
    if not isfinite(value):
        return "none"
    rounded = round(float(value), decimals)
    if rounded == 0.0:
        return f"{0.0:.{decimals}f}"
    return f"{rounded:{'+' if signed else ''}.{decimals}f}".replace("-", MINUS)


def exact(value: float) -> str:
    """A number as it is, to six figures, with a true minus sign.

    >>> exact(50.0), exact(-0.25) == "\\u22120.25"
    ('50', True)
    """
    return f"{value + 0.0:.6g}".replace("-", MINUS)


def has_sign(name: str) -> bool:
    """Whether plus and minus have a meaning of their own for a setting.

    >>> has_sign("alignment.foot_forward_mm"), has_sign("person.mass_kg")
    (True, False)
    """
    setting = SETTING_BY_NAME.get(name.removesuffix(AIM))
    return setting is not None and bool(setting.plus)


def value_words(name: str, value: object) -> str:
    """A value of a column as text: a number without idle digits, signed where signs have a meaning.

    >>> value_words("alignment.foot_forward_mm", 10.0), value_words("case", "a/heavy-worker.toml")
    ('+10', 'heavy worker')
    """
    if isinstance(value, str):
        if name != "case":
            return value
        return PurePosixPath(value).stem.replace("-", " ").replace("_", " ") or value
    known = round(float(value), 6)  # type: ignore[arg-type]
    return f"{'+' if known > 0.0 and has_sign(name) else ''}{exact(known)}"


def setting_words(name: str, value: object) -> str:
    """A setting with its value and unit.

    >>> setting_words("alignment.foot_forward_mm", 10.0), setting_words("foot.model", "firm")
    ('foot forward +10 mm', 'foot firm')
    """
    unit = "" if isinstance(value, str) else unit_of(name).replace("deg", "°")
    gap = " " if unit and unit != "°" else ""
    if name == "case":
        return value_words(name, value)
    return f"{noun(name)} {value_words(name, value)}{gap}{unit}"
