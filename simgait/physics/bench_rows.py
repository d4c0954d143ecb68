"""Where the numbers lie from which a limb is set up at an alignment, as in `layout`."""

# ---- bench: numbers of a limb that no alignment changes --------------------------------------
BENCH_KNEE = 0  # [m] height of the knee that makes the limb level, in the shoes it was cut in
BENCH_END = 1  # [m] socket pivot to the socket's end, where the unit is fixed
BENCH_SOLE_HEIGHT = 2  # [m] of the ankle axis above the foot's sole
BENCH_FOOT_LENGTH = 3  # [m]
BENCH_BUILT_FOR = 4  # [m] heel rise that the foot is built for
BENCH_SOCKET_MASS = 5  # [kg]
BENCH_ADAPTER_MASS = 6  # [kg]
BENCH_TUBE_MASS = 7  # [kg/m]
BENCH_FOOT_MASS = 8  # [kg]
BENCH_REST_MASS = 9  # [kg] the body without thigh and residual limb on this side
BENCH_HIP_HEIGHT = 10  # [m] of the sound side, standing barefoot
BENCH_STRUT_HEIGHT = 11  # [m] hip height at which the arriving limb carries nothing, barefoot
START_THIGH = 12  # [rad] lean of the thigh at touch-down
START_FLEXION = 13  # [rad] of the knee
START_THIGH_RATE = 14  # [rad/s]
START_FLEXION_RATE = 15  # [rad/s]
START_FORWARD_SPEED = 16  # [m/s] of the hip
START_UPWARD_SPEED = 17  # [m/s]
BENCH = 18

# ---- setting: the alignment, and the sound side's shoe in it ---------------------------------
SET_FOOT_FORWARD = 0  # [m]
SET_DORSIFLEXION = 1  # [rad]
SET_SOCKET_FLEXION = 2  # [rad]
SET_LENGTH_CHANGE = 3  # [m]
SET_HEEL_RISE = 4  # [m]
SET_SOUND_LIFT = 5  # [m] how far the sound side's shoe lifts its ankle
SETTING = 6

# ---- leans: symmetric matrices of the three leans: 11, 22, 33, 12, 13, 23 --------------------
LEAN_MASS = 0  # [kg m2]
LEAN_DAMPING = 6  # [N m s/rad]
LEAN_STIFFNESS = 12  # [N m/rad]
LEANS = 18
