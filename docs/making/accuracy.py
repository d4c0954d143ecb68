"""The reference page of accuracy: steps against a method of order eight, and the order measured."""

from __future__ import annotations

from functools import cache

import numpy as np
from scipy.integrate import solve_ivp

from making.text import page, plain, table
from reference_run import ABSOLUTE, RELATIVE, reference_measures
from simgait.arrays import Array
from simgait.case import read_case
from simgait.engines import compiled
from simgait.engines.blocks import W, new_block, put
from simgait.library import models_folder
from simgait.limb import Limb, limb_columns, limbs_of
from simgait.physics import layout as rows
from simgait.stance.batch import batch_of
from simgait.stance.naming import named_measures
from simgait.stance.running import LOADING, STEP, Outcome, run_batch, run_part
from simgait.stance.steps import stable_steps
from simgait.symbols import MAIN_MEASURES

STEPS = tuple(sorted({4e-3, 2e-3, 1e-3, 0.5e-3, 0.25e-3, STEP}, reverse=True))  # [s]
NOISE = 1e-5  # [%] below it the standard itself is no better
ALLOWED = 0.1  # [%] of a measure's range
STILL = 1e-3  # [its unit] range below which a measure does not move at all
HALF_OF_STANCE = 50.0  # [% of stance] in which the time of a peak is sought
WORTH = np.array([1.0, 1.0, 1.0, 1.0, 1.0, 0.1, 0.1, 0.1, 0.1, 0.1])
UNTIL = 0.6  # [1] share of stance up to which states are compared
BETWEEN = 20e-3  # [s] between the instants at which states are compared; whole steps
LEAST_ORDER = 3.5  # below it the page may not say that the order is kept
SHORT_CASE = "short-residual-limb"


def limbs(case: str) -> tuple[Limb, ...]:
    """Return the limbs of a case of models/cases."""
    return limbs_of(read_case(models_folder() / "cases" / f"{case}.toml"))


def compared() -> tuple[Limb, ...]:
    """Return two corners and the baseline of the everyday case."""
    nine = limbs("everyday")
    return nine[0], nine[4], nine[8]


def at_step(chosen: tuple[Limb, ...], step: float, curves: bool = False) -> Outcome:
    """Return the runs of some limbs at one step [s]; at the default one, doubled after loading."""
    doubled = step == STEP and not curves
    return run_part(batch_of(chosen), np.arange(len(chosen)), step, curves, doubled)


def by_name(values: Array, limb: Limb) -> dict[str, float]:
    """Return one run's measures by name, without the ledger's own."""
    named = named_measures(values, limb.person.mass)
    del named["ledger_error_percent"]
    return named


@cache
def ranges() -> dict[str, float]:
    """Return the range of every measure over the nine alignments of the everyday case."""
    nine = limbs("everyday")
    runs = run_batch(batch_of(nine)).measures
    found = [by_name(values, limb) for values, limb in zip(runs, nine, strict=True)]
    spread = {name: max(f[name] for f in found) - min(f[name] for f in found) for name in found[0]}
    spread |= {
        name: HALF_OF_STANCE for name in spread if name.endswith(("peak_percent", "min_percent"))
    }
    return {name: width for name, width in spread.items() if width > STILL}


@cache
def standard() -> list[dict[str, float]]:
    """Return the measures of the compared limbs by the method of order eight."""
    return [by_name(reference_measures(limb), limb) for limb in compared()]


@cache
def errors(step: float) -> dict[str, float]:
    """Return the largest error of every measure at a step [s], in % of its range."""
    chosen = compared()
    runs = at_step(chosen, step).measures
    found = [by_name(values, limb) for values, limb in zip(runs, chosen, strict=True)]
    return {
        name: max(
            100.0 * abs(one[name] - true[name]) / width
            for one, true in zip(found, standard(), strict=True)
        )
        for name, width in ranges().items()
    }


def two_digits(value: float) -> str:
    """Return a number with two significant digits; a dash if there is none."""
    return f"{value:.1e}" if value < 1e-3 else f"{float(f'{value:.2g}'):g}"


def error_cell(value: float) -> str:
    """Return an error as text; below `NOISE` only that it is below."""
    if not np.isfinite(value):
        return "no measures"
    return two_digits(value) if value >= NOISE else f"< {NOISE:.0e}"


def heading(step: float) -> str:
    """Return how a step is named at the head of a column."""
    if step == STEP:
        return f"{plain(1000.0 * step)}, then {plain(2000.0 * step)} ms"
    return f"{plain(1000.0 * step)} ms"


def error_table() -> str:
    """Return the table of errors: main measures, and the worst of all, at every step."""
    lines = [
        (f"`{name}`", *(error_cell(errors(step)[name]) for step in STEPS)) for name in MAIN_MEASURES
    ]
    worst = [max(errors(step).values()) for step in STEPS]
    lines.append((f"worst of all {len(ranges())}", *(f"**{error_cell(each)}**" for each in worst)))
    heads = ("error, % of range", *map(heading, STEPS))
    worst_name = max(errors(STEP), key=lambda name: errors(STEP)[name])
    said = f"\nThe worst at the default step is `{worst_name}`.\n"
    return table(heads, lines, right=len(STEPS)) + said


def reference_states(limb: Limb, times: Array) -> Array:
    """Return coordinates and speeds at times [s] by DOP853 on the same right-hand side [n, 10]."""
    kernel, columns, block = compiled.kernel(), limb_columns(limb), new_block(3)
    put(block.parameter, columns.parameter[None])
    put(block.sole, columns.sole[None])
    put(block.reference, columns.reference[None])
    lane = block.state.reshape(-1, W)[:, 0]

    def slope(time: float, state: Array) -> Array:
        lane[:] = state
        kernel.move(
            1, time, block.state, block.parameter, block.sole, block.reference, block.scratch,
            block.rate,
        )  # fmt: skip
        return block.rate.reshape(-1, W)[:, 0].copy()

    solved = solve_ivp(
        slope, (0.0, times[-1]), columns.state, method="DOP853", t_eval=times, rtol=RELATIVE,
        atol=ABSOLUTE, max_step=0.002,
    )  # fmt: skip
    return np.asarray(solved.y[: len(WORTH)].T)


def state_errors() -> list[float]:
    """Return the mean error of the state of the baseline at every step [m or rad]."""
    limb = compared()[1]
    count = int(UNTIL * limb.wearer.stance_time / BETWEEN)
    true = reference_states(limb, BETWEEN * np.arange(1, count + 1))
    found = []
    for step in STEPS:
        channels = at_step((limb,), step, curves=True).curves[0]
        every = round(BETWEEN / step)
        here = channels[every : every * count + 1 : every, : len(WORTH)]
        found.append(float(np.mean(np.max(np.abs(here - true) * WORTH, axis=1))))
    return found


def order_section() -> str:
    """Return the table of state errors and the measured order."""
    found = state_errors()
    order = float(np.polyfit(np.log(STEPS[1:]), np.log(found[1:]), 1)[0])
    if not order > LEAST_ORDER:
        raise ValueError(f"the measured order is {order:.2f}; this page says that four is kept")
    heads = ("", *(f"{plain(1000.0 * step)} ms" for step in STEPS))
    return (
        "## The order, measured\n\nMean error of the state up to six tenths of stance, everyday "
        "baseline, in metres and radians (a tenth of it in metres and radians a second):\n\n"
        + table(heads, [("error of the state", *map(two_digits, found))], right=len(STEPS))
        + f"\nFrom 2 ms down the error falls as the step to the power {order:.1f}; the method has "
        "order four. The elements of the sole touch the floor at instants of their own, which a "
        "fixed step meets anywhere, but force, slope and curvature begin at nothing there, so that "
        "the order is kept.\n"
    )


def ledger_section() -> str:
    """Return the table of ledger errors."""
    row = []
    for step in STEPS:
        found = at_step(limbs("everyday"), step)
        row.append(two_digits(100.0 * float(np.max(found.measures[:, rows.LEDGER_ERROR]))))
    heads = ("", *map(heading, STEPS))
    return (
        "## The ledger\n\nWhat the energy ledger leaves unexplained, worst of the nine "
        "alignments, in % of all energy exchanged (a run above 0.1 % ends as "
        "`energy_drift`):\n\n" + table(heads, [("ledger error", *row)], right=len(STEPS))
    )


def choice_section() -> str:
    """Return why the default step is what it is, and who gets a smaller one."""
    worst = {step: max(errors(step).values()) for step in STEPS}
    good = [step for step in STEPS if worst[step] <= ALLOWED]
    if max(good) < STEP:
        raise ValueError(f"the default step {STEP} s is not good; the largest that is: {max(good)}")
    taken = sorted({float(s) for s in stable_steps(batch_of(limbs(SHORT_CASE)), STEP)})
    said = " and ".join(f"{plain(1000.0 * step)} ms" for step in taken)
    return (
        f"## Which step, and why\n\nThe default step is {plain(1000.0 * STEP)} ms "
        f"(`simgait.stance.running.STEP`) for the first {plain(LOADING)} s, in which the foot "
        "takes the load, and twice that afterwards: every measure is then within "
        f"{plain(ALLOWED)} % of its own range. Half the step would cost twice the time and buy an "
        "accuracy that no figure of a foot or a person deserves. What is recorded stays "
        f"{plain(1000.0 * STEP)} ms apart: instants in the middle of a double step are filled by "
        "polynomials through the steps' ends around them.\n\n"
        "A short residual limb is light between two firm dampers, and its motion decays faster "
        "than these steps can follow. For each run `simgait/stance/steps.py` therefore works out "
        "the fastest decay and swing of the three leans at touch-down; double steps are taken only "
        "where it leaves room for them, and the step is halved until it follows them. The case "
        f"`{SHORT_CASE}` runs at {said}, throughout.\n"
    )


def accuracy_page() -> str:
    """Return the page of accuracy."""
    every = by_name(at_step(compared(), STEP).measures[0], compared()[0])
    still = ", ".join(f"`{name}`" for name in every if name not in ranges())
    return page(
        "Accuracy",
        "Every run is integrated by the classical Runge-Kutta method with fixed steps; events "
        "are located within the step. This page compares it with SciPy's DOP853 (order eight, "
        f"relative tolerance {RELATIVE:g}) on the very same right-hand side. Recording, the "
        "location of toe-off and the reading of measures are shared; what is compared is "
        "integration and step. The tests hold the equations themselves against an independent "
        "derivation and a general physics engine.",
        "## Measures\n\nLargest error over three alignments of `models/cases/everyday.toml` "
        "(two corners and the baseline), in per cent of the measure's range over all nine "
        "alignments: its own spread, not its size; for the times of peaks, the half of stance in "
        "which they are sought. Left out, because it does not move between "
        f"these alignments at all: {still}.\n\n" + error_table(),
        order_section(),
        ledger_section(),
        choice_section(),
    )
