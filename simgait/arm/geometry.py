"""The cable that bends an elbow: how long it is, and at which lever it pulls.

From the elbow's axis, up the upper arm: the guide stands `guide` along it and `guide_offset` in
front of it.  From the same axis, down the forearm: the loop stands `loop` along it and
`loop_offset` in front, which is the side that the elbow bends to.  Between guide and loop the cable
is straight.  Flexion is counted from the straight elbow.

All of it is exact.  Seen from the elbow, the angle between guide and loop is pi less the flexion
and less the two angles by which the offsets bring guide and loop forward; so with

    along  = guide loop - guide_offset loop_offset
    across = guide loop_offset + guide_offset loop

the cosine rule reads

    length^2 = guide^2 + guide_offset^2 + loop^2 + loop_offset^2
               + 2 (along cos(flexion) - across sin(flexion))

and the lever is -d length / d flexion.  Derived; `tests/analytic` derives it again from vectors.
"""

from __future__ import annotations

import numpy as np

from simgait.arrays import Array

Value = float | Array


def along_and_across(
    guide: Value, guide_offset: Value, loop: Value, loop_offset: Value
) -> tuple[Value, Value]:
    """Return the two products of lengths on which length and lever depend [m^2].

    guide, guide_offset, loop, loop_offset: [m].

    >>> [round(float(value), 6) for value in along_and_across(0.1, 0.0, 0.05, 0.0)]
    [0.005, 0.0]
    """
    return guide * loop - guide_offset * loop_offset, guide * loop_offset + guide_offset * loop


def cable_length(
    flexion: Value,
    *,
    guide: Value,
    guide_offset: Value = 0.0,
    loop: Value,
    loop_offset: Value = 0.0,
) -> Array:
    """Return the straight distance from guide to loop [m].

    flexion: of the elbow, from straight [rad]; the others: [m].

    >>> float(cable_length(0.0, guide=0.075, loop=0.025))
    0.1
    """
    along, across = along_and_across(guide, guide_offset, loop, loop_offset)
    squares = guide * guide + guide_offset * guide_offset + loop * loop + loop_offset * loop_offset
    folded = 2.0 * (along * np.cos(flexion) - across * np.sin(flexion))
    return np.asarray(np.sqrt(np.maximum(squares + folded, 0.0)))


def lever_arm(
    flexion: Value,
    *,
    guide: Value,
    guide_offset: Value = 0.0,
    loop: Value,
    loop_offset: Value = 0.0,
) -> Array:
    """Return the lever of the cable about the elbow, -d length / d flexion [m]; + bends the elbow.

    Derived: (along sin(flexion) + across cos(flexion)) / length.  Nothing where guide and loop
    meet.  flexion: of the elbow, from straight [rad]; the others: [m].

    >>> round(1000.0 * float(lever_arm(np.pi / 2.0, guide=0.075, loop=0.025)), 1)
    23.7
    """
    along, across = along_and_across(guide, guide_offset, loop, loop_offset)
    length = cable_length(
        flexion, guide=guide, guide_offset=guide_offset, loop=loop, loop_offset=loop_offset
    )
    turned = along * np.sin(flexion) + across * np.cos(flexion)
    return np.asarray(turned / np.where(length > 0.0, length, np.inf))


def excursion(
    start: Value,
    end: Value,
    *,
    guide: Value,
    guide_offset: Value = 0.0,
    loop: Value,
    loop_offset: Value = 0.0,
) -> Array:
    """Return the cable drawn in between two flexions [m].

    start, end: flexion of the elbow, from straight [rad]; the others: [m].

    >>> ends = np.radians([10.0, 135.0])
    >>> round(1000.0 * float(excursion(*ends, guide=0.075, loop=0.025)), 1)
    39.7
    """
    at_start = cable_length(
        start, guide=guide, guide_offset=guide_offset, loop=loop, loop_offset=loop_offset
    )
    at_end = cable_length(
        end, guide=guide, guide_offset=guide_offset, loop=loop, loop_offset=loop_offset
    )
    return np.asarray(at_start - at_end)


def working_flexions(
    *, guide: Value, guide_offset: Value = 0.0, loop: Value, loop_offset: Value = 0.0
) -> tuple[Array, Array]:
    """Return the flexions between which the cable bends the elbow [rad].

    At both the cable passes the elbow's axis: its lever is nothing, and beyond them it straightens
    the elbow.  Derived: the zeros of the lever, -b and pi - b, b = atan2(across, along).

    guide, guide_offset, loop, loop_offset: [m].

    >>> low, high = working_flexions(guide=0.075, loop=0.025)
    >>> round(float(np.degrees(high - low)))
    180
    """
    along, across = along_and_across(guide, guide_offset, loop, loop_offset)
    forward = np.arctan2(across, along)
    return np.asarray(-forward), np.asarray(np.pi - forward)


def guide_place(
    shoulder_flexion: Value, upper_arm: Value, guide: Value, guide_offset: Value = 0.0
) -> tuple[Array, Array]:
    """Return where the guide is, forward and up from the shoulder's axis [m].

    shoulder_flexion: of the upper arm from hanging, + forward [rad]; upper_arm: from the shoulder's
    axis to the elbow's [m]; guide, guide_offset: [m].

    >>> [round(float(value), 3) for value in guide_place(0.0, 0.3, 0.075, 0.01)]
    [0.01, -0.225]
    """
    down = upper_arm - guide
    sine, cosine = np.sin(shoulder_flexion), np.cos(shoulder_flexion)
    forward = down * sine + guide_offset * cosine
    return np.asarray(forward), np.asarray(guide_offset * sine - down * cosine)


def square_foot(
    x: Value, y: Value, from_x: Value, from_y: Value, to_x: Value, to_y: Value
) -> tuple[Value, Value]:
    """Return where the square from a point meets the line through two others [m].

    x, y: the point; from_x, from_y, to_x, to_y: the two others [m].

    >>> square_foot(1.0, 1.0, 0.0, 0.0, 2.0, 0.0)
    (1.0, 0.0)
    """
    way_x, way_y = to_x - from_x, to_y - from_y
    along = (x - from_x) * way_x + (y - from_y) * way_y
    share = along / (way_x * way_x + way_y * way_y)
    return from_x + share * way_x, from_y + share * way_y


def forearm_place(
    shoulder_flexion: Value,
    flexion: Value,
    upper_arm: Value,
    along: Value,
    in_front: Value = 0.0,
) -> tuple[Array, Array]:
    """Return where a point of the forearm is, forward and up from the shoulder's axis [m].

    shoulder_flexion: of the upper arm from hanging, + forward [rad]; flexion: of the elbow, from
    straight [rad]; upper_arm: from the shoulder's axis to the elbow's [m]; along: from the elbow's
    axis along the forearm [m]; in_front: on the side that the elbow bends to [m].

    >>> [round(float(value), 3) for value in forearm_place(0.0, np.pi / 2.0, 0.3, 0.25)]
    [0.25, -0.3]
    """
    lean = shoulder_flexion + flexion
    forward = upper_arm * np.sin(shoulder_flexion) + along * np.sin(lean) + in_front * np.cos(lean)
    up = -upper_arm * np.cos(shoulder_flexion) - along * np.cos(lean) + in_front * np.sin(lean)
    return np.asarray(forward), np.asarray(up)
