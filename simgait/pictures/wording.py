"""The words on the pictures: names of alignments, endings, and which runs are shown by name."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees, isfinite

from simgait.pictures.inputs import AlignmentLike, ComparisonLike, ResultLike

__all__ = [
    "MAIN_MEASURES",
    "Measure",
    "alignment_labels",
    "ended_badly",
    "ending_words",
    "shared_settings",
    "shown_note",
    "shown_runs",
    "sign_key",
    "signed",
]

MINUS = "\u2212"
_HOLD = "\u00a0"  # a space at which no line is broken


@dataclass(frozen=True, kw_only=True)
class Measure:
    """A column of the comparison figure: key in the measures, words, unit, decimals printed."""

    key: str
    noun: str
    words: str
    unit: str
    decimals: int


def _measure(key: str, noun: str, words: str, unit: str, decimals: int) -> Measure:
    return Measure(key=key, noun=noun, words=words, unit=unit, decimals=decimals)


MAIN_MEASURES = (
    _measure("knee_flexion_moment_peak_nm_kg", "knee peak,", "bending", "Nm/kg", 2),
    _measure("knee_extension_moment_peak_nm_kg", "knee peak,", "straightening", "Nm/kg", 2),
    _measure("socket_flexion_moment_peak_nm", "socket peak,", "flexing", "Nm", 1),
    _measure("socket_extension_moment_peak_nm", "socket peak,", "extending", "Nm", 1),
    _measure("forward_margin_min_mm", "least margin", "forward", "mm", 0),
    _measure("backward_margin_min_mm", "least margin", "backward", "mm", 0),
)

# attribute, short name, words for the plus sign, is it an angle, is its sign always printed
_SETTINGS = (
    ("foot_forward", "foot", "forward", False, True),
    ("dorsiflexion", "toe", "up", True, True),
    ("socket_flexion", "socket", "flexed", True, True),
    ("length_change", "length", "longer", False, True),
    ("heel_rise", "heel", "", False, False),
)


def signed(value: float, decimals: int) -> str:
    """The number with its sign and a true minus; nothing but 0 for what rounds to nothing.

    >>> signed(-3.21, 1) == "\u22123.2", signed(0.04, 1), signed(2.0, 0)
    (True, '0', '+2')
    """
    rounded = round(value, decimals)
    if rounded == 0.0:
        return "0"
    return f"{rounded:+.{decimals}f}".replace("-", MINUS)


def alignment_labels(results: Sequence[ResultLike]) -> tuple[str, ...]:
    """One label a run, naming only the settings that differ between the runs.

    With nothing to tell apart (a single run) every setting that is not zero is named.
    """
    names = _varying([result.alignment for result in results])
    return tuple(_label(result.alignment, names) for result in results)


def shared_settings(results: Sequence[ResultLike]) -> str:
    """The settings that are not zero and the same in all runs, in words; empty if none."""
    alignments = [result.alignment for result in results]
    varying = _varying(alignments)
    if not varying:
        return ""
    same = [s for s in _SETTINGS if s[0] not in varying and _shown(alignments[0], s) != "0"]
    return ", ".join(f"{s[1]} {_with_unit(alignments[0], s)}" for s in same)


def sign_key(results: Sequence[ResultLike]) -> str:
    """What plus means for each setting that the labels name.

    For a comparison of foot shifts it is 'foot + forward'.
    """
    alignments = [result.alignment for result in results]
    varying = _varying(alignments)
    named = [
        s
        for s in _SETTINGS
        if s[2] and (s[0] in varying or any(_shown(a, s) != "0" for a in alignments))
    ]
    return ", ".join(f"{s[1]} + {s[2]}" for s in named)


def ended_badly(result: ResultLike) -> bool:
    """Whether the stance ended otherwise than by toe-off."""
    return result.ending != "toe_off"


def ending_words(result: ResultLike) -> str:
    """The ending in words, such as 'toe-off' or 'fell forward'."""
    return "toe-off" if result.ending == "toe_off" else result.ending.replace("_", " ")


def shown_runs(comparison: ComparisonLike, limit: int = 9) -> tuple[int, ...]:
    """Indices of the runs shown by name: baseline first, then in the order of comparison.

    When there are more than `limit`, the baseline, then the runs with the largest and smallest
    value of each main measure, then badly ended ones (one first of all) fill the places.
    """
    everyone = range(len(comparison.results))
    chosen = [comparison.baseline]
    ranked = list(everyone) if len(everyone) <= limit else _extremes(comparison)
    for index in ranked:
        if index not in chosen and len(chosen) < limit:
            chosen.append(index)
    return (comparison.baseline, *sorted(chosen[1:]))


def shown_note(comparison: ComparisonLike, shown: Sequence[int]) -> str:
    """A sentence that says which runs are shown; empty when all are."""
    total = len(comparison.results)
    if len(shown) == total:
        return ""
    return (
        f"{len(shown)} of {total} alignments shown: "
        "the baseline and the extremes of the main measures"
    )


def _extremes(comparison: ComparisonLike) -> list[int]:
    bad = [i for i, result in enumerate(comparison.results) if ended_badly(result)]
    ranked = bad[:1]
    for measure in MAIN_MEASURES:
        values = [
            (result.measures.get(measure.key, float("nan")), i)
            for i, result in enumerate(comparison.results)
        ]
        finite = sorted(pair for pair in values if isfinite(pair[0]))
        if finite:
            ranked += [finite[0][1], finite[-1][1]]
    return ranked + bad[1:] + list(range(len(comparison.results)))


def _varying(alignments: Sequence[AlignmentLike]) -> list[str]:
    return [s[0] for s in _SETTINGS if len({_shown(alignment, s) for alignment in alignments}) > 1]


def _label(alignment: AlignmentLike, names: Sequence[str]) -> str:
    wanted = [s for s in _SETTINGS if s[0] in names] or [
        s for s in _SETTINGS if _shown(alignment, s) != "0"
    ]
    if not wanted:
        return "all settings zero"
    return ", ".join(f"{s[1]}{_HOLD}{_with_unit(alignment, s)}" for s in wanted)


def _shown(alignment: AlignmentLike, setting: tuple[str, str, str, bool, bool]) -> str:
    value = float(getattr(alignment, setting[0]))
    number = degrees(value) if setting[3] else 1000.0 * value
    text = f"{number:.1f}".removesuffix(".0")
    if text in ("0", "-0"):
        return "0"
    sign = "+" if setting[4] and number > 0.0 else ""
    return sign + text.replace("-", MINUS)


def _with_unit(alignment: AlignmentLike, setting: tuple[str, str, str, bool, bool]) -> str:
    return _shown(alignment, setting) + ("°" if setting[3] else f"{_HOLD}mm")
