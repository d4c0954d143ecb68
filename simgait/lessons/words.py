"""Words and figures that several lessons share."""

from __future__ import annotations

from simgait.lessons.lesson import Figure

INVENTED = "The scene and all its figures are invented (illustrative)."
MACHINES = "The formulas are those of `simgait.levers`; the page runs the same text."
QUASI_STATIC = (
    "Everything moves slowly, so that no force goes into speed. The loss is one fixed share of the "
    "work; real rubbing changes with load, dirt and wear."
)


def newton(what: str, force: float, decimals: int = 0) -> str:
    """Return a weight as the teacher's fold lists it; force: [N].

    >>> newton("Can", 98.1)
    'Can: 98 N.'
    """
    return f"{what}: {force:.{decimals}f} N."


def stroke_figures(
    effort: str,
    effort_travel: str,
    load: str,
    load_travel: str,
    *,
    decimals: int = 0,
    way: str = "cm",
    work: int = 1,
) -> tuple[Figure, ...]:
    """Return the seven figures of a stroke, in the order of `machine_numbers.stroke`.

    decimals: of forces and of ways in cm; way: unit of both ways, cm or m (one decimal); work:
    decimals of the work [J].

    >>> [figure.key for figure in stroke_figures("push", "way", "weight", "rise")][:3]
    ['effort', 'effort_travel', 'load']
    """
    unit, places = (0.01, decimals) if way == "cm" else (1.0, 1)
    return (
        Figure(key="effort", label=effort, unit="N", decimals=decimals),
        Figure(key="effort_travel", label=effort_travel, unit=way, si=unit, decimals=places),
        Figure(key="load", label=load, unit="N", decimals=decimals),
        Figure(key="load_travel", label=load_travel, unit=way, si=unit, decimals=places),
        Figure(key="work_in", label="work put in", unit="J", decimals=work),
        Figure(key="work_out", label="work that arrives", unit="J", decimals=work),
        Figure(key="lost", label="work lost", unit="J", decimals=work),
    )


ARM_CAUTIONS = (
    "A planning aid and a lesson: slow lifting by statics, of one invented wearer. What a real one "
    "can pull and hold is measured on that wearer.",
    "Guard every trial on the wearer. Local rules and the licensed clinician decide.",
)
