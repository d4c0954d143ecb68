"""What should make a reader doubt that a wearer would keep the strategy in a run.

The bounds are the project's own (assumed, no publication): beyond them a run that ends normally is
still no walk to aim for.
"""

from __future__ import annotations

from collections.abc import Mapping

from simgait.limb import Limb

MOST_BACK = 5.0  # [deg] of the knee beyond straight
MOST_FORCE = 1.4  # [body weights] vertical
MOST_SPEED_CHANGE = 0.15  # [m/s] over stance
MOST_DROP = 0.35  # [m/s] of the hip when the other foot lands
MOST_SOCKET_MOMENT = 60.0  # [N m]
MOST_HEEL = 0.020  # [m] between the shoe's heel and the one that the foot is built for


def remarks_on(limb: Limb, ending: str, measures: Mapping[str, float]) -> tuple[str, ...]:
    """Return one sentence for each bound that a run exceeds; none for a run within them.

    limb: as simulated; ending: its name; measures: by name, in the units that their names state.
    """
    found = []
    heel = limb.alignment.heel_rise - limb.foot.heel_rise
    if abs(heel) > MOST_HEEL:
        found.append(f"the shoe's heel is {1000.0 * heel:+.0f} mm from what the foot is built for")
    if ending != "toe_off":
        return (*found, f"ended otherwise than by toe-off: {ending.replace('_', ' ')}")
    socket = max(
        measures["socket_flexion_moment_peak_nm"], measures["socket_extension_moment_peak_nm"]
    )
    back = -measures["knee_flexion_least_deg"]
    for value, bound, sentence in (
        (back, MOST_BACK, f"the knee is forced {back:.0f} deg back beyond straight"),
        (measures["force_up_peak_bw"], MOST_FORCE, "the vertical force is far above walking's"),
        (abs(measures["speed_change_m_s"]), MOST_SPEED_CHANGE, "the pace is not kept"),
        (measures["drop_off"], MOST_DROP, "the body drops hard onto the other leg"),
        (socket, MOST_SOCKET_MOMENT, f"the socket levers on the limb with {socket:.0f} N m"),
    ):
        if value > bound:
            found.append(sentence)
    return tuple(found)
