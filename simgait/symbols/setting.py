"""The words for what a case file states: a few plain words, the unit, what plus means."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Setting:
    """One entry of a case file, as tables and pictures name it."""

    name: str  # dotted, as in a study file
    title: str  # a few words
    unit: str  # as shown; empty for texts and pure numbers
    plus: str = ""  # what plus means, where the sign is a convention


def _setting(name: str, title: str, unit: str = "", plus: str = "") -> Setting:
    return Setting(name=name, title=title, unit=unit, plus=plus)


SETTINGS: tuple[Setting, ...] = (
    _setting("person.sex", "sex"),
    _setting("person.mass_kg", "body mass", "kg"),
    _setting("person.stature_mm", "stature", "mm"),
    _setting("person.segment_table", "table of body segments"),
    _setting("person.thigh_mm", "thigh length", "mm"),
    _setting("person.knee_height_mm", "knee height", "mm"),
    _setting("person.hip_height_mm", "hip height", "mm"),
    _setting("limb.residual_limb_mm", "residual limb", "mm"),
    _setting("limb.side", "side"),
    _setting("foot.model", "foot"),
    _setting("foot.heel_stiffness_n_mm", "heel stiffness", "N/mm"),
    _setting("foot.forefoot_stiffness_n_mm", "forefoot stiffness", "N/mm"),
    _setting("foot.heel_loss", "energy loss of the heel"),
    _setting("foot.forefoot_loss", "energy loss of the forefoot"),
    _setting("foot.heel_lever_mm", "heel lever of the foot", "mm"),
    _setting("foot.toe_lever_mm", "toe lever of the foot", "mm"),
    _setting("foot.sole_height_mm", "sole height", "mm"),
    _setting("foot.heel_rise_mm", "heel rise the foot is built for", "mm"),
    _setting("foot.mass_kg", "mass of the foot", "kg"),
    _setting("foot.length_mm", "length of the foot", "mm"),
    _setting("foot.toe_spring_mm", "toe spring", "mm"),
    _setting("foot.heel_round_mm", "rounding of the heel", "mm"),
    _setting("shoe.model", "shoe"),
    _setting("socket.model", "socket"),
    _setting("pylon.model", "pylon"),
    _setting("wearer.model", "wearer"),
    _setting("walking.speed_m_s", "walking speed", "m/s"),
    _setting("ground.friction", "friction of the floor"),
    _setting("sound_side.shoe_heel_rise_mm", "heel rise of the other shoe", "mm"),
    _setting("sound_side.shoe_thickness_mm", "thickness of the other shoe", "mm"),
    _setting("alignment.foot_forward_mm", "foot forward", "mm", "ahead of the socket"),
    _setting("alignment.dorsiflexion_deg", "dorsiflexion", "deg", "toe up"),
    _setting("alignment.socket_flexion_deg", "socket flexion", "deg", "knee starts bent"),
    _setting("alignment.length_change_mm", "length change", "mm", "longer"),
    _setting("alignment.heel_rise_mm", "heel rise of the shoe", "mm"),
)

SETTING_BY_NAME = {setting.name: setting for setting in SETTINGS}
