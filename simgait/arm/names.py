"""The quantities of an arm as a reader meets them: name, unit, definition, a sentence for all."""

from __future__ import annotations

from dataclasses import dataclass

LIFT_CAUTION = (
    "A planning aid: a lift by a given pull that nobody steers, in the plane in which the elbow "
    "bends; nothing rubs in the elbow; clothing, harness and habit change pull and travel on the "
    "wearer."
)
OWN_CAUTIONS = (
    "A planning aid: slow lifting by statics, in the plane in which the elbow bends; clothing, "
    "harness and habit change pull and travel on the wearer.",
    "What the wearer can pull must have been measured on that wearer; a figure from a table is no "
    "wearer.",
    "Guard every trial on the wearer. Local rules and the licensed clinician decide.",
)
TIRING = "A pull within the fatigue-free share of one study need not be free of pain or pressure."
OPENS = (
    "At {place} the device {verb} while the forearm is lifted: lifting takes more pull than the "
    "device does."
)  # place: which position; verb: what a pull does to the device
SURPLUS = (
    "The lift assist is stronger than the weight somewhere in the range: the forearm rises by "
    "itself, and the wearer cannot let it down there. A pull of nothing is no success."
)
LEAST_SURPLUS = 1e-3  # [J] of a lift assist that nobody needs to be warned of
DEVICE_TIRES = (
    "Not to tire concerns lifting only: working the device on the same cable takes more than the "
    "fatigue-free share."
)


@dataclass(frozen=True, kw_only=True)
class ArmQuantity:
    """One number of an arm; ``name`` ends in its unit where it has one."""

    name: str
    unit: str
    definition: str
    sentence: str


def _quantity(name: str, unit: str, definition: str, sentence: str) -> ArmQuantity:
    return ArmQuantity(name=name, unit=unit, definition=definition, sentence=sentence)


POSITION = (
    _quantity("loop_mm", "mm", "Loop, from the elbow's axis along the forearm.",
              "How far out the cable holds the forearm."),
    _quantity("guide_mm", "mm", "Guide, from the elbow's axis along the upper arm.",
              "How far up the cable comes from."),
    _quantity("peak_pull_n", "N", "Greatest pull at the harness while the elbow is bent slowly.",
              "The hardest moment of lifting the forearm."),
    _quantity("peak_pull_at_deg", "deg", "Elbow flexion at which that is.",
              "Where lifting is hardest."),
    _quantity("pull_at_90_n", "N", "Pull at the harness with the elbow at 90 degrees.",
              "The pull that a checkout measures."),
    _quantity("lever_at_90_mm", "mm", "Lever of the cable about the elbow there.",
              "How long the arm of the lever is."),
    _quantity("excursion_mm", "mm", "Cable drawn at the harness over the whole range.",
              "How far the wearer has to pull."),
    _quantity("device_excursion_left_mm", "mm",
              "Greatest excursion less that: what is left with the elbow fully bent.",
              "What is left to work the device at the mouth."),
    _quantity("opening_left_share", "1", "The same over the device's whole excursion.",
              "How much of its opening the device has at the mouth."),
    _quantity("work_j", "J", "Work put into the cable over one lift.",
              "The effort of one lift."),
    _quantity("ledger_error_percent", "%",
              "What load, spring and housing leave unexplained of that work.",
              "Whether the books balance."),
    _quantity("feasible", "yes or no", "No limit of the wearer is exceeded.",
              "Whether this wearer can work it."),
    _quantity("fatigue_free", "yes or no",
              "Feasible, and the pull while lifting stays within the fatigue-free share.",
              "Whether lifting all day should not tire."),
    _quantity("opens_while_lifting", "yes or no",
              "The cable's tension while lifting exceeds the pull at which the device begins to "
              "work.",
              "The hook opens before the forearm is up: what it holds falls."),
    _quantity("crosses_axis_at_deg", "deg",
              "Flexion within the range at which the cable passes the elbow's axis.",
              "There the cable has no lever, and beyond it straightens the elbow."),
)  # fmt: skip

MARGINS = (
    _quantity("pull", "%", "1 - greatest share of the wearer's pull at that excursion.",
              "What is left of the pull."),
    _quantity("excursion", "%", "What bending the elbow leaves of the greatest excursion.",
              "What is left of the travel."),
    _quantity("device_excursion", "%",
              "The same less what the device needs at the mouth, over the greatest excursion.",
              "What is left once the device works at the mouth."),
    _quantity("device_pull", "%",
              "1 - pull that works the device over what the wearer can pull there.",
              "What is left of the pull for the device."),
)  # fmt: skip

LENGTH = (
    _quantity("forearm_change_mm", "mm", "Change of the forearm; + longer.",
              "By how much the forearm is cut or lengthened."),
    _quantity("shoulder_moment_nm", "N m",
              "Of the prosthesis and what is held about the shoulder, held straight out and level.",
              "What the shoulder has to hold."),
    _quantity("shoulder_moment_bent_nm", "N m",
              "The same with the upper arm level and the forearm upright.",
              "The same with the elbow bent."),
    _quantity("elbow_moment_nm", "N m", "About the elbow, forearm level.",
              "What the elbow has to hold."),
    _quantity("inertia_kg_m2", "kg m^2", "About the shoulder, elbow straight.",
              "How hard the arm is to start and to stop."),
    _quantity("first_acceleration_rad_s2", "rad/s^2",
              "Of the straight hanging arm, by the whole moment that the shoulder can hold.",
              "How briskly it can be started."),
    _quantity("slowest_swing_s", "s", "Period of a small free swing, elbow straight.",
              "How slowly it swings by itself."),
    _quantity("fastest_swing_s", "s", "The same with the elbow fully bent.",
              "How fast."),
    _quantity("socket_moment_nm", "N m",
              "About the end of the limb in the socket, held straight out and level.",
              "How the arm levers on the limb."),
    _quantity("brim_force_n", "N", "Of the couple in the socket: that moment over the depth.",
              "What presses at the brim."),
    _quantity("end_force_n", "N", "The same plus the load.",
              "What presses at the end of the limb."),
    _quantity("reach_mm", "mm", "From the shoulder's axis to the tip, straight.",
              "How far it reaches."),
    _quantity("reach_lost_mm", "mm", "Against the arm as given.",
              "What shortening costs."),
    _quantity("other_side_difference_mm", "mm", "Reach less that of the other arm's thumb.",
              "How far one sees it."),
    _quantity("mouth_reached", "yes or no", "The tip comes as near as the mouth, and as far.",
              "Whether one can eat with it."),
    _quantity("midline_reached", "yes or no", "The forearm reaches the midline before the trunk.",
              "Whether both hands can work together."),
    _quantity("within_capacity", "yes or no", "The moment is within what the shoulder can hold.",
              "Whether it can be held out."),
)  # fmt: skip

DEVICE = (
    _quantity("peak_pull_n", "N", "Greatest pull at the harness while the device is worked.",
              "The hardest moment of working the device."),
    _quantity("excursion_mm", "mm", "Cable drawn at the harness for that.",
              "How far the wearer has to pull."),
    _quantity("work_j", "J", "Put in while pulling.", "The effort of one grip."),
    _quantity("stored_j", "J", "That arrives at the device.", "What of it arrives."),
    _quantity("lost_n_mm", "N mm", "In the housing, in a whole cycle of pulling and letting back.",
              "What the housing takes, out and back."),
    _quantity("efficiency", "1", "Pull at the device over pull at the harness.",
              "How much of the pull arrives."),
    _quantity("usual_minimum", "1", "What is usually asked of that, by level.",
              "Below it, look at the housing."),
)  # fmt: skip

REMEDIES = {
    "lift_assist": "a spring about the elbow, stronger by so much at every flexion",
    "lighter_device": "a lighter hook or hand",
    "shorter_forearm": "a shorter forearm",
    "better_housing": "so much of the housing's loss taken away",
    "two_to_one_pulley": "a movable pulley: half the pull, twice the travel",
    "less_device_travel": "a device that works with less cable",
}
WANTED = {
    "feasible": "a position that this wearer can work",
    "fatigue_free": "a position whose lift does not tire",
}
