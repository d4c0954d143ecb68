"""Formulas of slow lifting, judging and the ledger: each for one number, or for many at once.

Arithmetic and elementwise functions only, so that whoever lifts one forearm, a thousand, or one in
a browser runs the same lines.  Derived by statics unless a formula says otherwise.
"""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array

Value = float | Array

NO_LEVER = 1e-12  # [m] below it a cable counts as having none


def moment_to_give(weight_moment: Value, lean: Value, helped: Value) -> Array:
    """Return the moment about the elbow that the cable has to give [N m]; + bends it.

    Weight times the sine of the forearm's lean, less what helps.  weight_moment: of the forearm
    held level [N m]; lean: of the forearm from hanging [rad]; helped: by the lift assist [N m].

    >>> float(moment_to_give(1.0, 0.0, 0.25))
    -0.25
    """
    return np.asarray(weight_moment * np.sin(lean) - helped)


def tension_for(moment: Value, lever: Value) -> Array:
    """Return the tension at the loop that gives a moment [N]; a cable cannot push.

    moment: [N m]; lever: of the cable about the elbow [m].

    >>> float(tension_for(1.0, 0.025)), float(tension_for(-1.0, 0.025))
    (40.0, 0.0)
    """
    return np.asarray(np.maximum(moment, 0.0) / np.where(lever < NO_LEVER, np.inf, lever))


def surplus_moment(moment: Value) -> Array:
    """Return what a lift assist has to spare where it lifts alone [N m].

    moment: that the cable would have to give [N m].

    >>> float(surplus_moment(-0.5)), float(surplus_moment(0.5))
    (0.5, 0.0)
    """
    return np.asarray(np.maximum(-moment, 0.0))


def pull_for(tension: Value, through: Value, pulley: Value) -> Value:
    """Return the pull at the harness that makes a tension at the arm [N].

    tension: [N]; through: pull out of the housing over pull into it [1]; pulley: cable drawn at the
    harness over cable drawn at the arm [1].

    >>> pull_for(40.0, 0.8, 1.0)
    50.0
    """
    return tension / (through * pulley)


def pull_that_lets_down(tension: Value, through: Value, pulley: Value) -> Value:
    """Return the pull at the harness while the arm is let down [N]: friction helps to hold.

    As :func:`pull_for`.

    >>> pull_that_lets_down(50.0, 0.8, 1.0)
    40.0
    """
    return tension * through / pulley


def cable_drawn(start_length: Value, length: Value, pulley: Value) -> Value:
    """Return the cable drawn at the harness [m].

    start_length, length: from guide to loop at the start and now [m]; pulley: [1].

    >>> cable_drawn(0.1, 0.08, 2.0) == 2.0 * (0.1 - 0.08)
    True
    """
    return (start_length - length) * pulley


def lost_in_housing(pull: Value, through: Value) -> Value:
    """Return the part of a pull that the housing keeps [N]; over the cable drawn it is work.

    pull: at the harness [N]; through: [1].

    >>> lost_in_housing(50.0, 0.75)
    12.5
    """
    return pull * (1.0 - through)


def load_gain(weight_moment: Value, shoulder_flexion: Value, start: Value, end: Value) -> Array:
    """Return the work that the load takes between two flexions, closed form [J].

    weight_moment: [N m]; shoulder_flexion: of the upper arm from hanging [rad]; start, end: flexion
    of the elbow [rad].

    >>> round(float(load_gain(1.0, 0.0, 0.0, np.pi)), 9)
    2.0
    """
    lean = shoulder_flexion
    return np.asarray(weight_moment * (np.cos(lean + start) - np.cos(lean + end)))


def ledger_error(cable: float, load: float, spring: float, housing: float, surplus: float) -> float:
    """Return what the ledger leaves unexplained, in per cent of its largest entry [%].

    cable: put in; load: gained; spring: given by the assist; housing: lost; surplus: braked [J].

    >>> ledger_error(1.0, 0.75, 0.0, 0.25, 0.0)
    0.0
    """
    left = cable + spring - load - housing - surplus
    return 100.0 * abs(left) / max(abs(cable), abs(load), abs(spring), 1e-12)


def share_asked(pull: Value, allowed: Value) -> Value:
    """Return a pull as a share of what is allowed [1]. pull, allowed: [N]."""
    return pull / allowed


def pull_margin(asked: Value) -> Value:
    """Return what is left of a pull, as a share of it [1]. asked: share that is asked for [1]."""
    return 1.0 - asked


def excursion_margin(left: Value, wanted: Value, limit: Value) -> Value:
    """Return what is left of an excursion beyond what is wanted, as a share of the limit [1].

    left, wanted, limit: [m].

    >>> excursion_margin(0.5, 0.25, 1.0)
    0.25
    """
    return (left - wanted) / limit


def travel_wanted(opening_share: float, device_excursion: float, pulley: Value) -> Value:
    """Return the cable at the harness that the device wants at the mouth [m].

    opening_share: of its whole travel [1]; device_excursion: [m]; pulley: [1].

    >>> travel_wanted(0.5, 0.04, 1.0)
    0.02
    """
    return opening_share * device_excursion * pulley


def opening_for(left: Value, device_excursion: float, pulley: Value) -> Value:
    """Return the share of the device's travel that an excursion gives [1].

    left: at the harness [m]; device_excursion: [m]; pulley: [1].

    >>> opening_for(0.02, 0.04, 1.0)
    0.5
    """
    return left / (device_excursion * pulley)


def margin_without_tiring(margin: float, share: float) -> float:
    """Return what a margin of pull becomes against the share of it that does not tire [1].

    margin: against the greatest pull [1]; share: of it that does not tire [1].

    >>> margin_without_tiring(0.75, 0.25)
    0.0
    """
    return 1.0 - (1.0 - margin) / share
