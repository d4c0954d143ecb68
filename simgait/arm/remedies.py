"""What keeps positions from fitting, and what each remedy would change."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from simgait.arm.judging import Judgement, judge
from simgait.arm.lifting import lift, setting_of
from simgait.arm.result import Binding, Remedy
from simgait.arrays import Array, Flags
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable, Harness

HALVINGS = 20  # of the interval in which the least change is sought
SHORTEST_FOREARM = 0.10  # [m] that a remedy may leave
SHOWN_TRAVEL = 0.010  # [m] of the device, less


@dataclass(frozen=True, kw_only=True)
class Fitted:
    """An arm with its cable, wearer, and the places of guide and loop that are searched."""

    arm: Arm
    cable: Cable
    harness: Harness
    guide: Array  # [positions, m]
    loop: Array  # [positions, m]

    def judged(self, share: float) -> tuple[Judgement, Array, Array]:
        """Judgement, peak pulls [N] and excursions [m] of all positions.

        A loop beyond the forearm's end does not fit.  share: of the greatest pull [1].
        """
        setting = setting_of(self.arm, self.cable, self.harness, self.guide, self.loop)
        curves = lift(setting)
        found = judge(setting, curves, self.cable, self.harness, share)
        beyond = np.where(self.loop > self.arm.forearm, -np.inf, np.inf)
        found.margins["axis"] = np.minimum(found.margins["axis"], beyond)
        return found, np.max(curves.pull, axis=1), curves.drawn[:, -1]


@dataclass(frozen=True, kw_only=True)
class Step:
    """One kind of change: how it is made, how large a step is shown, how far it can go."""

    name: str
    unit: str
    made: Callable[[Fitted, float], Fitted]
    shown: float  # [unit]
    most: float  # [unit]
    whole: bool = False  # there is only this one step


def with_assist(fitted: Fitted, more: float) -> Fitted:
    """Return it with the lift assist stronger by so much at every flexion [N m]."""
    stronger = tuple(moment + more for moment in fitted.cable.assist)
    return replace(fitted, cable=replace(fitted.cable, assist=stronger))


def with_lighter_device(fitted: Fitted, less: float) -> Fitted:
    """Return it with a device lighter by so much [kg]."""
    return replace(
        fitted, arm=replace(fitted.arm, device_mass=max(fitted.arm.device_mass - less, 0.0))
    )


def with_shorter_forearm(fitted: Fitted, less: float) -> Fitted:
    """Return it with a forearm shorter by so much [m]."""
    return replace(fitted, arm=fitted.arm.with_forearm(-less))


def with_better_housing(fitted: Fitted, share: float) -> Fitted:
    """Return it with so much of the housing's loss taken away [1]."""
    through = fitted.cable.share_through
    better = through + share * (1.0 - through)
    return replace(fitted, cable=replace(fitted.cable, friction=None, efficiency=better))


def with_less_travel(fitted: Fitted, less: float) -> Fitted:
    """Return it with a device that needs so much less cable to work [m]."""
    travel = (fitted.cable.device_excursion or 0.0) - less
    return replace(fitted, cable=replace(fitted.cable, device_excursion=max(travel, 0.0)))


def with_pulley(fitted: Fitted, ratio: float) -> Fitted:
    """Return it with a movable pulley of that ratio before the arm, without losses [1].

    The wearer pulls with the force divided by the ratio, over the travel times the ratio.
    """
    return replace(fitted, cable=replace(fitted.cable, pulley=fitted.cable.pulley * ratio))


def steps_for(fitted: Fitted, forearm_step: float) -> tuple[Step, ...]:
    """Return the remedies that there are for an arm.

    forearm_step: by how much a forearm is usually shortened [m].
    """
    arm = fitted.arm
    room = max(min(arm.forearm - SHORTEST_FOREARM, arm.device_centre), 0.0)
    device, travel = arm.device_mass, fitted.cable.device_excursion or 0.0
    steps = [
        Step(
            name="lift_assist", unit="N m", made=with_assist, shown=1.0,
            most=max(min(arm.weight_moment(), 29.0 - max(fitted.cable.assist)), 0.0),
        ),
        Step(
            name="lighter_device", unit="kg", made=with_lighter_device,
            shown=min(0.1, device), most=device,
        ),
        Step(
            name="shorter_forearm", unit="m", made=with_shorter_forearm,
            shown=min(forearm_step, room), most=room,
        ),
        Step(
            name="better_housing", unit="1", made=with_better_housing, shown=0.5,
            most=1.0 if fitted.cable.share_through < 1.0 else 0.0,
        ),
        Step(
            name="two_to_one_pulley", unit="1", made=with_pulley, shown=2.0,
            most=2.0 if fitted.cable.pulley <= 2.0 else 0.0, whole=True,
        ),
        Step(
            name="less_device_travel", unit="m", made=with_less_travel,
            shown=min(SHOWN_TRAVEL, travel), most=travel,
        ),
    ]  # fmt: skip
    return tuple(step for step in steps if step.most > 0.0 and step.shown > 0.0)


def least_change(fitted: Fitted, step: Step, share: float) -> float | None:
    """Return the least change that makes a position fit [unit of the step]; None if none does.

    Found by halving: every remedy but the pulley, which is all or nothing, only ever lowers pulls
    or travel.
    share: of the wearer's greatest pull that may be used to lift [1].
    """

    def fits(change: float) -> bool:
        return bool(fitting(step.made(fitted, change), share).any())

    if not fits(step.most):
        return None
    if step.whole:
        return step.most
    low, high = 0.0, step.most
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if fits(middle) else (middle, high)
    return high


def fitting(fitted: Fitted, share: float) -> Flags:
    """Return which positions fit: all limits kept, and the lift within a share of the pull [1]."""
    whole, _, _ = fitted.judged(1.0)
    if share >= 1.0:
        return whole.feasible
    part, _, _ = fitted.judged(share)
    return np.asarray(whole.feasible & (part.margins["pull"] >= 0.0))


def remedies_for(fitted: Fitted, forearm_step: float) -> tuple[Remedy, ...]:
    """Return every remedy with what it changes; nothing to remedy, none.

    What is wanted is a feasible position, or, where there is one, one that does not tire.
    forearm_step: [m].
    """
    wanted, share = "feasible", 1.0
    if fitting(fitted, 1.0).any():
        wanted, share = "fatigue_free", fitted.harness.fatigue_free_share
        if fitting(fitted, share).any():
            return ()
    before, pulls, drawn = fitted.judged(share)
    near = int(np.argmax(before.least))
    found = []
    for step in steps_for(fitted, forearm_step):
        size = min(step.shown, step.most)
        changed = step.made(fitted, size)
        _, new_pulls, new_drawn = changed.judged(share)
        found.append(
            Remedy(
                name=step.name,
                change=size,
                unit=step.unit,
                peak_pull_change=float(new_pulls[near] - pulls[near]),
                excursion_change=float(new_drawn[near] - drawn[near]),
                feasible_positions=int(fitting(changed, share).sum()),
                needed=least_change(fitted, step, share),
                wanted=wanted,
            )
        )
    return tuple(found)


def bindings_of(fit: Judgement) -> tuple[Binding, ...]:
    """Return what binds where nothing is feasible: each limit that is exceeded, worst first.

    Where the least excess is nothing, that limit alone can be kept, and only all of them together
    cannot; the other excess is that of the position which comes nearest to keeping all.
    """
    if fit.feasible.any():
        return ()
    near = int(np.argmax(fit.least))
    found = [
        Binding(
            limit=name,
            positions=int((margin < 0.0).sum()),
            least_excess=max(0.0, -float(margin.max())),
            excess_at_nearest=max(0.0, -float(margin[near])),
            nearest=near,
        )
        for name, margin in fit.margins.items()
        if (margin < 0.0).any()
    ]
    return tuple(sorted(found, key=lambda each: (-each.excess_at_nearest, -each.positions)))
