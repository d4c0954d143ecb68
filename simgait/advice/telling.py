"""Sentences of advice: what to look at on the wearer, and which aims fight."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from simgait.advice.aims import Aim
from simgait.advice.compromise import Conflict
from simgait.symbols import BY_NAME
from simgait.symbols.watching import VISIBLE, WATCHING

UNDO = "If not, take the change back: the model has missed something about this wearer."
UNDO_UNSEEN = (
    "If it goes the other way, take the change back; that nothing is seen refutes nothing here."
)
FAINT = "too little to be seen surely, so ask, film or measure:"
NOTHING_CHANGED = "Nothing is changed, so nothing on the wearer should change."
LITTLE = 0.02  # [1] of its present size by which a measure must change to be looked for


def aim_words(aim: Aim) -> str:
    """Return an aim in words, with its unit.

    >>> aim_words(Aim(measure="hip_rise_mm", sense="below", value=-20.0, within=0.0, weight=1.0,
    ...     complaint=None, relief=None))
    'hip rise below -20 mm'
    """
    measure = BY_NAME[aim.measure]
    unit = f" {measure.unit}" if measure.unit else ""
    near = f" within {aim.within:.4g}" if aim.sense == "near" else ""
    return f"{measure.title} {aim.sense} {aim.value:.4g}{near}{unit}"


def confirming(
    aimed: Sequence[str],
    worse: Sequence[str],
    now: Mapping[str, float],
    then: Mapping[str, float],
) -> str:
    """Return what to look at on the wearer to confirm or refute a change.

    aimed: measures that it brings nearer to what is wanted; worse: those that it makes worse; now,
    then: by name.
    """
    clear, faint = signs(aimed, now, then)
    good = [*clear, *([f"{FAINT} {'; '.join(faint)}"] if faint else [])]
    if not good:
        names = ", ".join(BY_NAME[name].title for name in aimed)
        good = [f"nothing that the eye sees should change; measure again: {names}"]
    harsh, slight = (
        [sign for sign in part if sign not in good] for part in signs(worse, now, then)
    )
    bad = [*harsh, *([f"{FAINT} {'; '.join(slight)}"] if slight else [])]
    price = f" Its price: {'; '.join(bad)}." if bad else ""
    return f"Look at the wearer: {'; '.join(good)}. {UNDO if clear else UNDO_UNSEEN}{price}"


def signs(
    measures: Sequence[str], now: Mapping[str, float], then: Mapping[str, float]
) -> tuple[list[str], list[str]]:
    """Return what should be seen of the measures that change by more than a little, each once.

    First what is visible, or of which it is not known; then what is less than just visible.
    """
    clear: list[str] = []
    faint: list[str] = []
    for name in measures:
        change = then[name] - now[name]
        if name in WATCHING and abs(change) > LITTLE * abs(now[name]):
            sign = WATCHING[name].falls if change < 0.0 else WATCHING[name].rises
            (clear if seen(name, now, then) else faint).append(sign)
    return list(dict.fromkeys(clear)), [each for each in dict.fromkeys(faint) if each not in clear]


def seen(name: str, now: Mapping[str, float], then: Mapping[str, float]) -> bool:
    """Return whether a measure changes by what is just visible; a moment as a whole, not by mass.

    Of what has no such size in `VISIBLE`, it is taken to.
    """
    whole = name.removesuffix("_kg")
    return whole not in VISIBLE or abs(then[whole] - now[whole]) >= VISIBLE[whole]


def fighting(aims: Sequence[Aim], conflicts: Sequence[Conflict]) -> tuple[str, ...]:
    """Return one sentence for each conflict."""
    found = []
    for conflict in conflicts:
        words = [aim_words(aims[place]) for place in conflict.aims]
        if len(words) == 1:
            unit = BY_NAME[aims[conflict.aims[0]].measure].unit
            found.append(
                f"Nothing that was tried brings {words[0]}; the nearest is "
                f"{conflict.nearest:.4g} {unit}".rstrip()
                + "."
            )
        else:
            found.append(
                "These fight; in what was tried each can be had, but not together: "
                f"{'; '.join(words)}."
            )
    return tuple(found)
