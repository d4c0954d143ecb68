"""Where each quantity lies in the flat arrays (row numbers), shared by every engine.

SI units and radians.  An entry of row R and lane i lies at ``R * W + i``.
"""

NOT_A_NUMBER = 1e300 * 1e300 * 0.0
W = 16  # lanes in a block (row stride of every flat array)

# ---- state: what is integrated --------------------------------------------------------------
HIP_X = 0  # [m]
HIP_Y = 1  # [m]
THIGH = 2  # [rad] lean of the thigh
RESIDUAL = 3  # [rad] lean of the residual limb
PROSTHESIS = 4  # [rad] lean of the prosthesis
HIP_VX = 5  # [m/s]
HIP_VY = 6  # [m/s]
THIGH_RATE = 7  # [rad/s]
RESIDUAL_RATE = 8  # [rad/s]
PROSTHESIS_RATE = 9  # [rad/s]
WORK_HIP = 10  # [J] work of the hip muscles on the limb
WORK_KNEE = 11  # [J] work of the knee muscles on the limb
WORK_OTHER = 12  # [J] work of the other limb on the hip
WORK_TRUNK = 13  # [J] work of the trunk on the hip
WORK_SOLE = 14  # [J] work of the normal forces of the sole on the limb
WORK_FRICTION = 15  # [J] work of the friction forces on the limb
LOSS_SOCKET = 16  # [J] lost in the soft tissue and liner
LOSS_SOLE = 17  # [J] lost in the foot
EXCHANGED = 18  # [J] sum of the sizes of all of the above flows
SLIP = 19  # [m] load-weighted distance slid
ABSORBED_SOLE = 20  # [J] taken up by the foot
ANCHOR = 21  # [m] first of the tangential deflections, one for each sole element
ELEMENTS = 24  # sole elements
STATES = 45  # ANCHOR + ELEMENTS

# ---- parameters: one column of numbers describes one run ------------------------------------
GRAVITY = 0  # [m/s2]
MASS_HIP = 1  # [kg] point mass at the hip: the rest of the body
MASS_THIGH = 2
LENGTH_THIGH = 3  # [m] hip to knee
CENTRE_THIGH = 4  # [m] hip to centre of mass
INERTIA_THIGH = 5  # [kg m2] about the centre of mass
MASS_RESIDUAL = 6
LENGTH_RESIDUAL = 7  # [m] knee to the point about which the socket turns on the limb
CENTRE_RESIDUAL = 8  # [m] knee to centre of mass
INERTIA_RESIDUAL = 9
MASS_PROSTHESIS = 10
CENTRE_FORWARD = 11  # [m] from the socket pivot, in the prosthesis' frame
CENTRE_UP = 12  # [m]
INERTIA_PROSTHESIS = 13
SOCKET_STIFFNESS = 14  # [N m/rad]
SOCKET_DAMPING = 15  # [N m s/rad]
FRICTION = 16  # [-] coefficient of the sole on the floor
SHEAR_SHARPNESS = 17  # [1/m] friction is used up when the tangential deflection times this is 1.5
SHEAR_DAMPING = 18  # [s/m] tangential damping per normal force
SOLE_QUICKNESS = 19  # [s/m] the sole's loss is fully developed when the speed times this is 3
SOLE_ONSET = 20  # [m] depth over which an element's stiffness comes up
HIP_STIFFNESS = 21  # [N m/rad]
HIP_DAMPING = 22  # [N m s/rad]
KNEE_STIFFNESS = 23
KNEE_DAMPING = 24
TRUNK_DAMPING = 25  # [N s/m]
TRUNK_SPEED = 26  # [m/s] speed that the trunk holds
REFERENCE_TIME = 27  # [s] length of the reference curves
STANCE_TIME = 28  # [s] nominal stance time
LEAVES_TIME = 29  # [s] the other limb has left the floor
ARRIVES_TIME = 30  # [s] the other limb touches down
OTHER_UP = 31  # 4 coefficients [N], leaving
OTHER_FORWARD = 35  # 4 coefficients [N], leaving
NEXT_UP = 39  # 4 coefficients [N], arriving
NEXT_FORWARD = 43  # 4 coefficients [N], arriving
ANKLE_FORWARD = 47  # [m] ankle axis from the socket pivot, in the prosthesis' frame
ANKLE_UP = 48  # [m]
SOLE_SLOPE = 49  # [rad] turn of the sole in the prosthesis' frame, + toe up
HEEL_END = 50  # [m] heel end of the sole, along the sole from the ankle axis (negative)
TOE_END = 51  # [m] toe end of the sole
LEG_LENGTH = 52  # [m] hip height of the sound side, standing
SOCKET_DEPTH = 53  # [m] enclosed length of the residual limb
BODY_WEIGHT = 54  # [N]
RUN_ON = 55  # 1 = go on after toe-off (for fitting), 0 = stop
NEXT_STIFFNESS = 56  # [N/m] of the arriving limb as a strut
NEXT_DAMPING = 57  # [N s/m]
NEXT_HEIGHT = 58  # [m] hip height at which that strut carries nothing
PARAMETERS = 59

# ---- sole: four rows an element -------------------------------------------------------------
SOLE_FORWARD = 0  # [m] from the socket pivot, in the prosthesis' frame
SOLE_UP = 1  # [m]
SOLE_STIFFNESS = 2  # [N/m]
SOLE_LOSS = 3  # [-] share by which the force differs between loading and unloading
SOLE_ROWS = 96  # 4 * ELEMENTS
HEEL_ELEMENTS = 6  # the first ones belong to the heel
FOREFOOT_ELEMENTS = 8  # the last ones belong to the forefoot

# ---- reference curves: coefficients of uniform cubic splines --------------------------------
NODES = 25
COEFFICIENTS = 27  # NODES + 2
THIGH_CURVE = 0
KNEE_CURVE = 27
REFERENCE_ROWS = 54

# ---- channels: what is recorded at every step -----------------------------------------------
# rows 0..9 are the first ten of the state
FORCE_UP = 10  # [N] ground on foot
FORCE_FORWARD = 11  # [N]
FORCE_MOMENT = 12  # [N m] sum of normal force times its x
DEPTH = 13  # [m] deepest sole element; negative when the foot is clear
DEPTH_HEEL = 14  # [m]
DEPTH_FOREFOOT = 15  # [m]
DEPTHS = 3  # of these three, followed by the rates of each
DEPTH_RATE = 16  # [m/s]
DEPTH_HEEL_RATE = 17  # [m/s]
DEPTH_FOREFOOT_RATE = 18  # [m/s]
MOMENT_HIP = 19  # [N m] of the hip muscles on the thigh
MOMENT_KNEE = 20  # [N m] of the knee muscles, + flexes
MOMENT_SOCKET = 21  # [N m] of the prosthesis on the residual limb, + flexing
SOCKET_SHEAR = 22  # [N] of the prosthesis on the residual limb, across it, + forward
SOCKET_THRUST = 23  # [N] along it, + towards the knee
OTHER_FORCE_UP = 24  # [N]
OTHER_FORCE_FORWARD = 25  # [N]
SLIDING = 26  # [m] slid so far
CHANNELS = 27
MOST_PLACES = 30000000  # MOST_INSTANTS times the most rows an instant has, for the same
MOST_INSTANTS = 1000000  # more than any run records: lets a compiler see that no index wraps

# ---- scratch rows within one evaluation -----------------------------------------------------
S_THIGH = 0
C_THIGH = 1
S_RESIDUAL = 2
C_RESIDUAL = 3
S_PROSTHESIS = 4
C_PROSTHESIS = 5
PIVOT_X = 6
PIVOT_Y = 7
PIVOT_VX = 8
PIVOT_VY = 9
SLIDE_SPEED = 10
SUM_UP = 11
SUM_FORWARD = 12
SUM_MOMENT = 13
SUM_POWER = 14
SUM_LOSS = 15
SUM_SLIP = 16
TORQUE_HIP = 17
TORQUE_KNEE = 18
PUSH_X = 19
PUSH_Y = 20
TRUNK_PUSH = 21
THIGH_AIM = 22  # [rad] reference of thigh lean
THIGH_AIM_RATE = 23  # [rad/s]
KNEE_AIM = 24  # [rad] reference of knee flexion
KNEE_AIM_RATE = 25  # [rad/s]
PLAN_X = 26  # [N] forward force of the other limb as planned
PLAN_Y = 27  # [N] its upward force
PLAN_FIRM = 28  # [1] how firm the arriving limb is
DEEP_HEEL = 29  # [m] depth of the heel's deepest element, and its sinking speed [m/s]
DEEP_MIDDLE = 31  # the same of the mid-sole
DEEP_FOREFOOT = 33  # the same of the forefoot
SHEAR_DELAY = 35  # [s] tangential damping over stiffness
T_PROSTHESIS = 36  # [1] tangent of the prosthesis' lean
SCRATCH = 37

# ---- endings --------------------------------------------------------------------------------
RUNNING = 0
TOE_OFF = 1
FELL_FORWARD = 2
FELL_BACKWARD = 3
KNEE_COLLAPSED = 4
FOOT_SLIPPED = 5
STEP_LIMIT = 6
NOT_FINITE = 7
ENERGY_DRIFT = 8

# ---- ends: how each run ended ---------------------------------------------------------------
ENDING = 0  # one of the above
END_TIME = 1  # [s]
END_STEP = 2  # last recorded step at or before the end
ENERGY_START = 3  # [J] kinetic, potential and socket spring
ENERGY_END = 4  # [J]
END_INSTANT = 5  # recorded instant that ends the step in which the run ended
END_STATE = 6  # first of the final state
ENDS = 51  # END_STATE + STATES

# ---- series: what the measures are read from: rows of recorded instants by lanes -------------
Y_KNEE = 0  # [N m] external flexion moment of the knee
Y_SOCKET = 1  # [N m] external flexing moment of the socket
Y_UP = 2  # [N]
Y_FORWARD = 3  # [N]
Y_BEHIND = 4  # [N m] flexing moment of the ground force alone about the knee
Y_FLEXION = 5  # [rad] knee flexion
Y_SHANK = 6  # [rad] lean of the residual limb
Y_HIP = 7  # [m] hip height
Y_HIP_FALL = 8  # [m/s] downward speed of the hip
Y_FORWARD_MARGIN = 9  # [m]
Y_BACKWARD_MARGIN = 10  # [m]
Y_BRIM = 11  # [N] size of the force on the limb at the brim
Y_LIMB_END = 12  # [N] size of the force at its end
Y_USE = 13  # [1] friction used; only where loaded
Y_ROLL_X = 14  # [m] pressure point in the prosthesis' frame, forward of the limb's axis
Y_ROLL_Y = 15  # [m] up
SERIES = 16

# ---- found: rows of what is read off a series, one entry a run ------------------------------
LAST = 0  # last sample that may be read
END = 1  # [s] end of the run
BEGIN = 2  # [s] window in which is sought
FINISH = 3  # [s]
FROM = 4  # first and last sample inside the window
TO = 5
VALUE = 6  # what was found
WHEN = 7  # [s] and when
PLACE = 8  # sample beside it
LOADED_AT = 9  # [s] the foot carries enough for a pressure point
ORIGIN_X = 10  # [m] a point of the roll-over shape
ORIGIN_Y = 11  # [m]
MOMENTS = 12  # sums of 1, u, v, uu, vv, uv, z, uz, vz over time, with z = uu + vv
FOUND = 21

# ---- measures, in SI ------------------------------------------------------------------------
KNEE_FLEXION_PEAK = 0
KNEE_FLEXION_PEAK_WHEN = 1
KNEE_EXTENSION_PEAK = 2
KNEE_EXTENSION_PEAK_WHEN = 3
KNEE_MIDSTANCE = 4
KNEE_FLEXION_IMPULSE = 5
KNEE_EXTENSION_IMPULSE = 6
FORCE_BEHIND_KNEE = 7
LOADING_FLEXION = 8
SOCKET_FLEXION_PEAK = 9
SOCKET_EXTENSION_PEAK = 10
SOCKET_COUPLE = 11
BRIM_FORCE = 12
LIMB_END_FORCE = 13
SOCKET_30 = 14
SOCKET_45 = 15
SOCKET_75 = 16
HEEL_LEVER = 17
TOE_LEVER = 18
FOOT_FLAT = 19
HEEL_OFF = 20
STANCE_LENGTH = 21
ROLL_RADIUS = 22
ROLL_CENTRE = 23
FORWARD_MARGIN = 24
FORWARD_MARGIN_WHEN = 25
BACKWARD_MARGIN = 26
BACKWARD_MARGIN_WHEN = 27
DROP_OFF = 28
FORWARD_THRUST = 29
FORWARD_THRUST_ANGLE = 30
UP_PEAK_FIRST = 31
UP_PEAK_SECOND = 32
BRAKING_PEAK = 33
PROPULSIVE_PEAK = 34
BRAKING_IMPULSE = 35
PROPULSIVE_IMPULSE = 36
UP_IMPULSE = 37
LOADING_RATE = 38
UTILISED_FRICTION = 39
SLIP_LENGTH = 40
FOOT_STORED = 41
FOOT_RETURNED = 42
FOOT_LOST = 43
SPEED_CHANGE = 44
HIP_RISE = 45
LEDGER_ERROR = 46
UP_PEAK = 47
LEAST_FLEXION = 48
MEASURES = 49
