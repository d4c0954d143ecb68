"""Where each quantity of a limb that stands still lies in its flat arrays (row numbers).

SI units and radians; one limb, one stand, so no lanes.
"""

# ---- rest: a limb at rest, its wearer's strength and habit, and what carries the body beside i
REST_ONSET = 0  # [m] depth over which an element's stiffness comes up
REST_SOCKET = 1  # [N m/rad] stiffness of the socket
REST_ANKLE_FORWARD = 2  # [m] ankle axis from the socket pivot, in the prosthesis' frame
REST_ANKLE_UP = 3  # [m]
REST_MASS = 4  # [kg] of prosthesis, residual limb and thigh
REST_CENTRE_FORWARD = 7  # [m] of the prosthesis' mass, from the socket pivot
REST_CENTRE_UP = 8  # [m]
REST_CENTRE_RESIDUAL = 9  # [m] knee axis to centre of mass
REST_CENTRE_THIGH = 10  # [m] hip axis to centre of mass
REST_PIVOT_BELOW_KNEE = 11  # [m]
REST_LENGTH_THIGH = 12  # [m]
REST_FLAT = 13  # [rad] lean of the prosthesis at which the sole lies as its foot was built
REST_WEIGHT = 14  # [N] of the body
REST_GRAVITY = 15  # [m/s2]
REST_FRICTION = 16  # [1] coefficient of the sole on the floor
REST_HEEL_END = 17  # [m] of the carrying sole, along it from the ankle axis (negative)
REST_TOE_END = 18  # [m]
REST_LEG_LENGTH = 19  # [m] hip height of the sound side, standing
REST_SOCKET_DEPTH = 20  # [m] enclosed length of the residual limb
REST_CENTRE_HEIGHT = 21  # [m] of the body's centre above the floor
# from here on the wearer's own, which no alignment changes
REST_PLACE = 22  # [m] of the body's line over the foot, along the sole, ahead of the ankle axis
REST_KNEE = 23  # [N m] greatest extending moment of the knee's muscles
REST_HIP = 24  # [N m] greatest moment of the hip's muscles
REST_HELD = 25  # [1] share of both that can be held for minutes
REST_STRAIGHTEST = 26  # [rad] knee flexion below which ligaments hold the knee
REST_DEEPEST = 27  # [rad] knee flexion beyond which nobody stands for minutes
REST_CHOSEN = 28  # [rad] knee flexion chosen at bench alignment
REST_SOUND_HEEL = 29  # [m] end of the sound foot that still carries, behind its ankle axis
REST_SOUND_TOE = 30  # [m] the same ahead of it
REST_END_BELOW_PIVOT = 31  # [m] socket pivot to the socket's end
REST_CENTRE_ABOVE_HIP = 32  # [m] body's centre above the sound hip, standing
REST_SOLE = 33  # first of four rows an element
REST_FORWARD = 0  # [m] of the unloaded sole, from the socket pivot, in the prosthesis' frame
REST_UP = 1  # [m]
REST_ALONG = 2  # [m] along the sole, ahead of the ankle axis
REST_STIFFNESS = 3  # [N/m] of the element when pressed deep
REST_ROWS = 129  # REST_SOLE + 4 * ELEMENTS

# ---- load: what the floor gives and how gravity pulls, in the floor's frame ------------------
LOAD_NORMAL = 0  # [N] floor on foot, square to the floor
LOAD_ALONG = 1  # [N] floor on foot, along the floor, + forward
LOAD_PULL_ALONG = 2  # [m/s2] gravity, + forward
LOAD_PULL_UP = 3  # [m/s2] + up, so negative
LOAD_ROWS = 4

# ---- pose: a limb at rest in the floor's frame, from the floor below the socket pivot --------
POSE_NORMAL = 0  # [N] load under which the sole was settled last
POSE_LEAN = 1  # [rad] of the prosthesis against the floor's normal, + proximal end ahead
POSE_HEIGHT = 2  # [m] of the socket pivot above the floor
POSE_PRESSURE = 3  # [m] pressure point ahead of the socket pivot, along the floor
POSE_PLACE = 4  # [m] pressure point along the sole, ahead of the ankle axis
POSE_HEEL_SHARE = 5  # [1] of the load, carried behind the ankle axis
POSE_RESIDUAL = 6  # [rad] lean of the residual limb
POSE_THIGH = 7  # [rad] lean of the thigh
POSE_ANKLE = 8  # [m] along the floor and above it, here and below
POSE_PIVOT = 10
POSE_KNEE = 12
POSE_HIP = 14
POSE_CENTRE = 16  # centres of mass of prosthesis, residual limb and thigh
POSE_SOCKET_MOMENT = 22  # [N m] external, in the sense that bends the knee
POSE_KNEE_MOMENT = 23  # [N m] external, + bends the knee
POSE_HIP_MOMENT = 24  # [N m] external, + bends the hip
POSE_SOLE = 25  # first of three rows an element
POSE_ACROSS = 0  # [m] of the unloaded sole along the floor, from the socket pivot
POSE_ABOVE = 1  # [m] above the sole's lowest element
POSE_FORCE = 2  # [N] square to the floor
POSE_ROWS = 97  # POSE_SOLE + 3 * ELEMENTS

# ---- brackets: roots that are looked for, one within the other -------------------------------
BRACKET_A = 0  # the newest end, and the function there
BRACKET_AT_A = 1
BRACKET_B = 2  # the other end
BRACKET_AT_B = 3
BRACKET_C = 4  # the end before
BRACKET_AT_C = 5
BRACKET_NEXT = 6  # where to look next
BRACKET_BEST = 7  # the better end
BRACKET_WITHIN = 8  # how near the root must be
BRACKET_DONE = 9  # 1 when it is, else 0
BRACKET_SIZE = 10
BRACKET_ROWS = 30  # of three levels
DEPTH_LEVEL = 0  # of the sole under its load
LEAN_LEVEL = 1  # of the prosthesis
SHARE_LEVEL = 2  # of the weight

# ---- trial: one direction in which a stand is tipped -----------------------------------------
TRIAL_SENSE = 0  # 1 forward, -1 backward
TRIAL_PUSHED = 1  # 1 by a push, 0 by a slope
TRIAL_SHARE = 2  # [1] of the weight on the prosthesis
TRIAL_REACH = 3  # [m] the other foot's part in moving the load line, with sign
TRIAL_PLACE = 4  # [m] pressure point along the sole, undisturbed
TRIAL_LEAN = 5  # [rad] of the prosthesis, undisturbed
TRIAL_RATIO = 6  # [1] disturbance that balances the lean looked at, with sign
TRIAL_ROWS = 7

# ---- how standing ends, and what ends it when it is disturbed --------------------------------
STANDS = 0
KNEE_GIVES_WAY = 1
HIP_GIVES_WAY = 2
KNEE_TOO_BENT = 3
SLIDES = 4
SOLE_END = 5

# ---- stood: what is found of one way of standing, in SI --------------------------------------
STOOD_ENDING = 0
STOOD_SHARE = 1  # [1] of the weight on the prosthesis
STOOD_LINE_KNEE = 2  # [m] load line ahead of the knee, and of the others
STOOD_LINE_ANKLE = 3
STOOD_LINE_HIP = 4
STOOD_LINE_SOCKET = 5
STOOD_KNEE_MOMENT = 6  # [N m]
STOOD_SOCKET_MOMENT = 7
STOOD_HIP_MOMENT = 8
STOOD_FORWARD_RESERVE = 9  # [m]
STOOD_BACKWARD_RESERVE = 10
STOOD_HEEL_SHARE = 11  # [1]
STOOD_FOREFOOT_SHARE = 12
STOOD_KNEE_EFFORT = 13  # [1]
STOOD_HIP_EFFORT = 14
STOOD_KNEE_FLEXION = 15  # [rad]
STOOD_SHANK_LEAN = 16
STOOD_HIP_BELOW = 17  # [m]
STOOD_LIMITS = 18  # slope forward, push forward, slope backward, push backward
STOOD_RATIO = 0  # [1] tangent of the slope, or push over weight; a size
STOOD_REASON = 1
STOOD_AT = 2  # [m] where the prosthesis' foot then carries, along the sole
STOOD_ROWS = 30  # STOOD_LIMITS + 4 * 3

# ---- outline: points to be drawn, x from below the ankle axis, y from the floor --------------
OUTLINE_HIP = 0  # [m] along the floor and above it, here and below
OUTLINE_KNEE = 2
OUTLINE_BRIM = 4
OUTLINE_PIVOT = 6
OUTLINE_LIMB_END = 8
OUTLINE_SOCKET_END = 10
OUTLINE_ANKLE = 12
OUTLINE_PRESSURE = 14  # x of the load line where it meets the floor
OUTLINE_HEEL_END = 15  # x of the ends of the carrying sole
OUTLINE_TOE_END = 16
OUTLINE_SOLE = 17  # undeformed, x and y an element; y < 0 is pressed in
OUTLINE_ROWS = 65  # OUTLINE_SOLE + 2 * ELEMENTS
