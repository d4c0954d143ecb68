"""Free scenes: muscles between bodies, soles on the floor, a wearer who balances with one ankle.

A body is six numbers: place of its centre of mass (forward, up) [m], angle [rad] turning the top
backward (so minus its lean), and the three speeds.  A load is three: force forward, force up [N],
and a couple that turns the top backward [N m].  The floor lies level in its own frame; a slope is
a gravity that leans.
"""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.chain import (
    SLIP_LOAD,
)
from simgait.physics.layout import (
    ANCHOR,
    BODY_WEIGHT,
    C_PROSTHESIS,
    ELEMENTS,
    PIVOT_VY,
    PIVOT_Y,
    PROSTHESIS_RATE,
    S_PROSTHESIS,
    SLIDE_SPEED,
    SLIP,
    SUM_FORWARD,
    SUM_MOMENT,
    SUM_SLIP,
    SUM_UP,
    T_PROSTHESIS,
    W,
)
from simgait.physics.sole import (
    clear_sums,
    close_sums,
    delay_shear,
    press_sole,
)
from simgait.physics.trigonometry import (
    cosine,
    sine,
)

BODY = 6  # numbers a body
BODY_X = 0
BODY_Y = 1
BODY_ANGLE = 2
BODY_VX = 3
BODY_VY = 4
BODY_SPIN = 5
LOAD = 3  # numbers a load
LOAD_X = 0
LOAD_Y = 1
LOAD_TURN = 2

MUSCLE = 12  # numbers a muscle (or ligament, or liner): it turns the lower body on the upper one
UPPER = 0  # number of the upper body
LOWER = 1  # number of the lower body
AIM = 2  # [rad] lean of the lower body less that of the upper at which only `FEED` acts
FEED = 3  # [N m] what holds the posture that is aimed at
STIFF = 4  # [N m/rad]
DAMP = 5  # [N m s/rad]
LEAST = 6  # [N m] bounds of the above together
GREATEST = 7  # [N m]
STOP_LOW = 8  # [rad] below this and above the next a stop acts beside the muscle
STOP_HIGH = 9  # [rad]
STOP_STIFF = 10  # [N m/rad]
GIVEN = 11  # [N m] what it gives now, + turns the lower body's top forward

BALANCE = 21
BALANCING = 0  # 1 = the ankle below takes part, 0 = nothing does
ANKLE_MUSCLE = 1  # number of the muscle that is that ankle
ANKLE_X = 2  # [m] its axis in the foot's frame, from the foot's centre of mass
ANKLE_Y = 3  # [m]
REACH_BACK = 4  # [m] from the ankle axis to where the foot still carries (negative)
REACH_AHEAD = 5  # [m]
STOOD = 6  # [m] where the line of gravity through the body's centre is to meet the floor
EAGERNESS = 7  # [1] how much farther than needed the pressure is moved
GRAVITY_ALONG = 8  # [m/s2] of gravity along the floor, + forward
GRAVITY_DOWN = 9  # [m/s2] square to it, + down
CENTRE_X = 10  # [m] body's centre, filled in here
CENTRE_Y = 11  # [m]
CENTRE_VX = 12  # [m/s]
EXTRAPOLATED = 13  # [m] where the gravity line of the extrapolated centre meets the floor
RISE_TIME = 14  # [s] in which the ankle's muscles follow
LIGHT_LOAD = 15  # [N] the load on the foot is reckoned with between these two
MOST_LOAD = 16  # [N]
EFFORT = 17  # [N m] what the ankle's muscles give now
FLAT_LEAN = 18  # [rad] of the foot at rest
FLAT_SPAN = 19  # [rad] to either side, within which it still lies on the floor
FLAT_STIFF = 20  # [N m/rad] with which the ankle gives way beyond


def find_centre(bodies: int, body: Array, mass: Array, balance: Array) -> None:
    """Fill the body's centre, its speed, and the extrapolated centre on the floor.

    Extrapolated centre of mass: x + v / sqrt(g / l) (Hof et al. 2005), l being the height of the
    centre; on a slope the gravity line through it is followed down to the floor.
    """
    total = 0.0
    x = 0.0
    y = 0.0
    vx = 0.0
    for b in range(bodies):
        total += mass[b]
        x += mass[b] * body[b * BODY + BODY_X]
        y += mass[b] * body[b * BODY + BODY_Y]
        vx += mass[b] * body[b * BODY + BODY_VX]
    x = x / total
    y = max(y / total, 0.01)
    vx = vx / total
    down = balance[GRAVITY_DOWN]
    balance[CENTRE_X] = x
    balance[CENTRE_Y] = y
    balance[CENTRE_VX] = vx
    line = x + y * balance[GRAVITY_ALONG] / down
    balance[EXTRAPOLATED] = line + vx * sqrt(y / down)


def press_feet(
    feet: int,
    step: float,
    body: Array,
    foot: Array,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
    rate: Array,
    load: Array,
) -> None:
    """Add the floor's force on every foot to the loads, and move the soles' deflections on.

    One lane a foot; `foot`: number of the body that carries each sole, whose elements are given
    from that body's centre of mass.  step: [s].
    """
    for f in range(feet):
        b = int(foot[f]) * BODY
        lean = -body[b + BODY_ANGLE]
        scratch[S_PROSTHESIS * W + f] = sine(lean)
        scratch[C_PROSTHESIS * W + f] = cosine(lean)
        scratch[T_PROSTHESIS * W + f] = sine(lean) / cosine(lean)
        scratch[PIVOT_Y * W + f] = body[b + BODY_Y]
        scratch[PIVOT_VY * W + f] = body[b + BODY_VY]
        turning = -body[b + BODY_SPIN]
        state[PROSTHESIS_RATE * W + f] = turning
        scratch[SLIDE_SPEED * W + f] = body[b + BODY_VX] - turning * body[b + BODY_Y]
    delay_shear(feet, parameter, scratch)
    clear_sums(feet, scratch)
    press_sole(feet, 0, ELEMENTS, 0, 0, state, parameter, sole, scratch, rate)
    close_sums(feet, state, parameter, scratch)
    for f in range(feet):
        light = SLIP_LOAD * parameter[BODY_WEIGHT * W + f] + 1e-9
        for e in range(ELEMENTS):
            state[(ANCHOR + e) * W + f] += step * rate[(ANCHOR + e) * W + f]
        state[SLIP * W + f] += (
            step * scratch[SUM_SLIP * W + f] / max(scratch[SUM_UP * W + f], light)
        )
        b = int(foot[f])
        forward = scratch[SUM_FORWARD * W + f]
        load[b * LOAD + LOAD_X] += forward
        load[b * LOAD + LOAD_Y] += scratch[SUM_UP * W + f]
        turn = scratch[SUM_MOMENT * W + f] + forward * body[b * BODY + BODY_Y]
        load[b * LOAD + LOAD_TURN] += turn


def pull_muscles(muscles: int, body: Array, muscle: Array, load: Array) -> None:
    """Add what every muscle gives: feed + stiffness x error - damping x speed, within its bounds.

    Beyond a stop a spring acts beside the muscle.
    """
    for k in range(muscles):
        m = k * MUSCLE
        upper = int(muscle[m + UPPER])
        lower = int(muscle[m + LOWER])
        turned = body[upper * BODY + BODY_ANGLE] - body[lower * BODY + BODY_ANGLE]
        turning = body[upper * BODY + BODY_SPIN] - body[lower * BODY + BODY_SPIN]
        given = (
            muscle[m + FEED]
            + muscle[m + STIFF] * (muscle[m + AIM] - turned)
            - muscle[m + DAMP] * turning
        )
        given = min(max(given, muscle[m + LEAST]), muscle[m + GREATEST])
        short = max(muscle[m + STOP_LOW] - turned, 0.0) + min(muscle[m + STOP_HIGH] - turned, 0.0)
        given += muscle[m + STOP_STIFF] * short
        muscle[m + GIVEN] = given
        load[upper * LOAD + LOAD_TURN] += given
        load[lower * LOAD + LOAD_TURN] -= given


def balance_ankle(
    feet: int, step: float, body: Array, muscle: Array, foot: Array, scratch: Array, balance: Array
) -> None:
    """Set what the ankle of the last foot gives, so that the pressure moves the body back.

    Wanted pressure of both feet together: the extrapolated centre, and `EAGERNESS` times as far
    again as that is from where the line of gravity met the floor when the body stood; on a slope
    the body so leans uphill until its line is over the same place of the feet.  The other foot has
    no ankle that could do anything, so this one takes it all, as far as its length reaches:
    moment = up x (pressure - axis) + forward x height of the axis.  The muscles follow within
    their rise time, never give more than the foot can carry, and give way as it leaves the floor.
    """
    f = feet - 1
    m = int(balance[ANKLE_MUSCLE]) * MUSCLE
    b = int(foot[f]) * BODY
    up = 0.0
    moment = 0.0
    for k in range(feet):
        up += scratch[SUM_UP * W + k]
        other = 1.0 if k < f else 0.0
        place = body[int(foot[k]) * BODY + BODY_X]
        moment += other * (scratch[SUM_MOMENT * W + k] + place * scratch[SUM_UP * W + k])
    own = scratch[SUM_UP * W + f]
    x = balance[EXTRAPOLATED]
    wanted = x + balance[EAGERNESS] * (x - balance[STOOD])
    s = sine(-body[b + BODY_ANGLE])
    c = cosine(-body[b + BODY_ANGLE])
    axis = body[b + BODY_X] + balance[ANKLE_X] * c + balance[ANKLE_Y] * s
    height = body[b + BODY_Y] + balance[ANKLE_Y] * c - balance[ANKLE_X] * s
    weight = max(min(own, balance[MOST_LOAD]), balance[LIGHT_LOAD])
    ahead = (wanted * up - moment) / weight - axis
    ahead = min(max(ahead, balance[REACH_BACK]), balance[REACH_AHEAD])
    push = scratch[SUM_FORWARD * W + f] * height
    aimed = weight * ahead + push
    balance[EFFORT] += step / balance[RISE_TIME] * (aimed - balance[EFFORT])
    low = own * balance[REACH_BACK] * c + push
    high = own * balance[REACH_AHEAD] * c + push
    risen = -body[b + BODY_ANGLE] - balance[FLAT_LEAN]
    risen -= min(max(risen, -balance[FLAT_SPAN]), balance[FLAT_SPAN])
    muscle[m + FEED] = min(max(balance[EFFORT], low), high) - balance[FLAT_STIFF] * risen


def drive_scene(
    bodies: int,
    muscles: int,
    feet: int,
    step: float,
    body: Array,
    mass: Array,
    muscle: Array,
    foot: Array,
    balance: Array,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
    rate: Array,
    load: Array,
) -> None:
    """Fill the loads on all bodies of a scene but gravity's, and move the soles' deflections on.

    The engine moves bodies first and changes their speeds then, so the loads are those of where
    the bodies then are, to which they are moved on here.  With the loads of where they were, a
    spring would be given energy: its swing would grow by frequency^2 x step / 2 a second.
    """
    for k in range(bodies * LOAD):
        load[k] = 0.0
    for b in range(bodies):
        for k in range(3):
            body[b * BODY + k] += step * body[b * BODY + BODY_VX + k]
    find_centre(bodies, body, mass, balance)
    press_feet(feet, step, body, foot, state, parameter, sole, scratch, rate, load)
    if balance[BALANCING] > 0.5:
        balance_ankle(feet, step, body, muscle, foot, scratch, balance)
    pull_muscles(muscles, body, muscle, load)
