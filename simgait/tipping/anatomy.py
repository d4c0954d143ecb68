"""A standing wearer as a scene at rest: seven bodies on two feet, and what holds them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from simgait.engines.setting import Balance, Muscle, Pivot, SceneBody, SceneSole, Setting
from simgait.library.strengths import TippingHabit, read_strength
from simgait.limb import prosthesis_bodies
from simgait.limb.columns import SHEAR_DAMPING, SHEAR_SHARPNESS
from simgait.parts.sole import QUICKNESS
from simgait.people import residual_limb, shank, thigh
from simgait.standing.loading import on_slope
from simgait.standing.pose import Point, Pose, within
from simgait.standing.posture import STANDS, stood
from simgait.standing.result import Standing, share_held
from simgait.standing.roots import root_between
from simgait.standing.tipping import centre_height
from simgait.tipping.sound_leg import SoundLeg, sound_foot, sound_leg, sound_segment
from simgait.wearer import GRAVITY

TRUNK, THIGH, RESIDUAL, PROSTHESIS, SOUND_THIGH, SOUND_SHANK, SOUND_FOOT = range(7)
HIP, KNEE, SOCKET, SOUND_HIP, SOUND_KNEE, SOUND_ANKLE = range(6)  # muscles and pivots
TRUNK_GYRATION = 0.496  # [1] of hip to shoulder, about the centre (HAT; Winter 2009, table 4.1)
HIP_TO_SHOULDER = 0.818 - 0.530  # [1] of stature (Drillis & Contini 1966, quoted)
SOUND_STRENGTH = "able-bodied-like"  # whose greatest moments the sound side has (assumed)
FLAT_SHARE = 0.95  # [1] of the sound foot that its ankle uses (assumed)
KNEE_STOP = 3000.0  # [N m/rad] of the ligaments that stop a knee (assumed)
FLAT_SPAN = math.radians(4.0)  # the sound foot counts as leaving the floor beyond (assumed)
FLAT_STIFFNESS = 1000.0  # [N m/rad] with which its ankle then gives way (assumed)
# [rad] range of the sound foot on its shank (memory), [N m/rad] of its stops (assumed)
ANKLE_RANGE = (math.radians(-25.0), math.radians(45.0), 300.0)
MOST_BENT = math.radians(40.0)  # of the trunk, when its lean on a slope is looked for
ANKLE_DAMPING = 5.0  # [N m s/rad] of the sound ankle itself (assumed)


@dataclass(frozen=True, kw_only=True)
class Posture:
    """What a wearer's muscles aim at and give on some slope, in the order of the pivots."""

    aims: tuple[float, ...]  # [rad] lean of the lower body less that of the upper
    feeds: tuple[float, ...]  # [N m]
    ahead: float  # [m] where the body's line meets the floor, ahead of the ankles
    stands: bool = True  # whether knee and hip can be held for minutes so


@dataclass(frozen=True, kw_only=True, eq=False)
class Wearer:
    """Bodies and muscles of a wearer who stands on level floor."""

    standing: Standing
    habit: TippingHabit
    leg: SoundLeg
    bodies: tuple[SceneBody, ...]
    trunk_place: Point  # [m] of the trunk's centre in its frame, from the hip

    @property
    def level(self) -> Posture:
        """The posture on level floor."""
        return self.posture(self.standing.pose, self.leg, 0.0)

    def on_slope(self, slope: float) -> Posture:
        """Return the posture on a slope, as `standing` finds it; + falls away ahead [rad].

        The body stands over the same place of the feet, or over the nearest at which knee and hip
        can be held; the prosthesis carries less as far as its knee could not be held otherwise.
        The sound knee bends as far as the prosthesis' knee takes the pelvis down, and the trunk
        leans until the whole body's line is there.
        """
        stance = self.standing.stance
        share = min(self.standing.share, share_held(stance, slope))
        standing = replace(self.standing, share=share)
        pose, ending = stood(stance, on_slope(share * stance.limb.body_weight, slope))
        above = self.leg.hip[1] - self.standing.pose.hip[1]
        leg = sound_leg(standing, pose, self.habit, above)
        legs = leg_bodies(standing, pose, leg)
        along, down = math.sin(slope), math.cos(slope)
        trunk = self.bodies[TRUNK].mass

        def astray(lean: float) -> float:
            """Moment of all weights about the pressure, over gravity [kg m]."""
            places = [(each.mass, each.centre) for each in legs]
            places.append((trunk, within(pose.hip, self.trunk_place, lean)))
            return sum(m * ((x - pose.footing.pressure) * down + y * along) for m, (x, y) in places)

        back, ahead = -slope - MOST_BENT, -slope + MOST_BENT
        if astray(back) * astray(ahead) < 0.0:
            lean = root_between(astray, back, ahead, within=1e-9)
        else:  # no lean does it: the nearest
            lean = min(back, ahead, key=lambda bent: abs(astray(bent)))
        return replace(self.posture(pose, leg, lean), stands=ending == STANDS)

    def posture(self, pose: Pose, leg: SoundLeg, trunk_lean: float) -> Posture:
        """Return aims and feeds in a pose, with the trunk at a lean [rad]."""
        thigh_lean, shank_lean, foot_lean = leg.leans
        return Posture(
            aims=(
                pose.thigh_lean - trunk_lean,
                pose.knee_flexion,
                0.0,
                thigh_lean - trunk_lean,
                shank_lean - thigh_lean,
                foot_lean - shank_lean,
            ),
            feeds=(pose.hip_moment, -pose.knee_moment, 0.0, *leg.feeds),
            ahead=pose.footing.pressure - pose.ankle[0],
        )


def wearer_of(standing: Standing, habit: TippingHabit) -> Wearer:
    """Return the whole wearer of a limb that stands on both feet.

    The rest of the body is one rigid trunk, so placed that the whole body's centre lies on the
    line of the load, at the usual share of stature.

    Raises:
        RangeError: the person's segments cannot be.
    """
    pose = standing.pose
    leg = sound_leg(standing, pose, habit)
    legs = leg_bodies(standing, pose, leg)
    trunk = _trunk(standing, legs)
    return Wearer(
        standing=standing,
        habit=habit,
        leg=leg,
        bodies=(trunk, *legs),
        trunk_place=(trunk.centre[0] - pose.hip[0], trunk.centre[1] - pose.hip[1]),
    )


def scene_of(wearer: Wearer) -> Setting:
    """Return a wearer who stands on level floor as a scene at rest."""
    pose, leg = wearer.standing.pose, wearer.leg
    return Setting(
        bodies=wearer.bodies,
        pivots=(
            Pivot(upper=TRUNK, lower=THIGH, at=pose.hip),
            Pivot(upper=THIGH, lower=RESIDUAL, at=pose.knee),
            Pivot(upper=RESIDUAL, lower=PROSTHESIS, at=pose.pivot),
            Pivot(upper=TRUNK, lower=SOUND_THIGH, at=leg.hip),
            Pivot(upper=SOUND_THIGH, lower=SOUND_SHANK, at=leg.knee),
            Pivot(upper=SOUND_SHANK, lower=SOUND_FOOT, at=leg.ankle),
        ),
        muscles=_muscles(wearer),
        soles=(_own_sole(wearer.standing), _sound_sole(wearer)),
        balance=_balance(wearer),
        gravity=GRAVITY,
    )


def _balance(wearer: Wearer) -> Balance:
    leg, weight = wearer.leg, wearer.standing.stance.limb.body_weight
    return Balance(
        muscle=SOUND_ANKLE,
        axis=wearer.bodies[SOUND_FOOT].placed(leg.ankle),
        reach_back=FLAT_SHARE * float(leg.strip.along[0]),
        reach_ahead=FLAT_SHARE * float(leg.strip.along[-1]),
        stood=wearer.standing.pose.footing.pressure,
        eagerness=wearer.habit.eagerness,
        rise_time=wearer.habit.rise_time,
        least_load=0.02 * weight,
        most_load=weight,
        flat_lean=leg.leans[2],
        flat_span=FLAT_SPAN,
        flat_stiffness=FLAT_STIFFNESS,
    )


def leg_bodies(standing: Standing, pose: Pose, leg: SoundLeg) -> tuple[SceneBody, ...]:
    """Return the six bodies below the trunk in a pose, the prosthesis' side first."""
    stance = standing.stance
    limb, pieces, person = stance.limb, stance.pieces, stance.limb.person
    upper, lower = thigh(person), residual_limb(person, limb.residual_limb_length)
    own_shank, prosthesis = shank(person), prosthesis_bodies(limb)
    foot = sound_foot(person, leg.ankle, leg.leans[2])
    rows = (
        (upper, within(pose.hip, (0.0, -pieces.thigh_centre), pose.thigh_lean), pose.thigh_lean),
        (
            lower,
            within(pose.knee, (0.0, -pieces.residual_centre), pose.residual_lean),
            pose.residual_lean,
        ),
        (
            prosthesis,
            within(pose.pivot, pieces.prosthesis_centre, pose.prosthesis_lean),
            pose.prosthesis_lean,
        ),
        (upper, sound_segment(person, "thigh", leg.hip, leg.leans[0])[1], leg.leans[0]),
        (own_shank, sound_segment(person, "shank", leg.knee, leg.leans[1])[1], leg.leans[1]),
    )
    return (
        *(
            SceneBody(mass=part.mass, inertia=part.inertia, centre=centre, lean=lean)
            for part, centre, lean in rows
        ),
        SceneBody(mass=foot[0], inertia=foot[2], centre=foot[1], lean=leg.leans[2]),
    )


def _trunk(standing: Standing, legs: tuple[SceneBody, ...]) -> SceneBody:
    """Return the rest of the body: where it must be for the whole's centre to be where it stood."""
    stance = standing.stance
    person = stance.limb.person
    mass = person.mass - sum(each.mass for each in legs)
    first = sum(each.mass * each.centre[0] for each in legs)
    second = sum(each.mass * each.centre[1] for each in legs)
    ahead = standing.pose.footing.pressure
    radius = TRUNK_GYRATION * HIP_TO_SHOULDER * person.stature
    return SceneBody(
        mass=mass,
        inertia=mass * radius**2,
        centre=(
            (person.mass * ahead - first) / mass,
            (person.mass * centre_height(stance) - second) / mass,
        ),
        lean=0.0,
    )


def _muscles(wearer: Wearer) -> tuple[Muscle, ...]:
    """Return the muscles in the order of the pivots; each holds what statics asks at its aim."""
    stance, posture = wearer.standing.stance, wearer.level
    limb, mass = stance.limb, stance.limb.person.mass
    own, other = stance.strength, read_strength(SOUND_STRENGTH)
    hip = (limb.wearer.hip_stiffness, limb.wearer.hip_damping)
    knee = (limb.wearer.knee_stiffness, limb.wearer.knee_damping)
    liner = (limb.socket.rotational_stiffness, limb.socket.rotational_damping)
    endless = math.inf
    free, straight = (
        (-endless, endless, 0.0),
        (-stance.habit.knee_past_straight, endless, KNEE_STOP),
    )
    rows = (
        (TRUNK, THIGH, hip, own.hip, free),
        (THIGH, RESIDUAL, knee, own.knee, straight),
        (RESIDUAL, PROSTHESIS, liner, endless, free),
        (TRUNK, SOUND_THIGH, hip, other.hip, free),
        (SOUND_THIGH, SOUND_SHANK, knee, other.knee, straight),
        (SOUND_SHANK, SOUND_FOOT, (0.0, ANKLE_DAMPING), endless, ANKLE_RANGE),
    )
    return tuple(
        Muscle(
            upper=upper,
            lower=lower,
            aim=aim,
            feed=feed,
            stiffness=stiffness,
            damping=damping,
            least=min(-greatest * mass, feed),
            greatest=max(greatest * mass, feed),
            stop_low=low,
            stop_high=high,
            stop_stiffness=stop,
        )
        for (upper, lower, (stiffness, damping), greatest, (low, high, stop)), aim, feed in zip(
            rows, posture.aims, posture.feeds, strict=True
        )
    )


def _own_sole(standing: Standing) -> SceneSole:
    pieces = standing.stance.pieces
    x, y = pieces.prosthesis_centre
    return SceneSole(
        body=PROSTHESIS,
        forward=pieces.forward - x,
        up=pieces.up - y,
        stiffness=pieces.stiffness,
        loss=pieces.loss,
        onset=pieces.onset,
        quickness=QUICKNESS,
        friction=standing.stance.limb.friction,
        sharpness=SHEAR_SHARPNESS,
        shear_damping=SHEAR_DAMPING,
    )


def _sound_sole(wearer: Wearer) -> SceneSole:
    leg = wearer.leg
    x, y = wearer.bodies[SOUND_FOOT].placed(leg.ankle)
    return replace(
        _own_sole(wearer.standing),
        body=SOUND_FOOT,
        forward=leg.strip.forward + x,
        up=leg.strip.up + y,
        stiffness=leg.strip.stiffness,
        loss=leg.strip.loss,
    )
