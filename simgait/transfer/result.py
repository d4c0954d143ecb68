"""A transfer: the pose, the chains that keep it, and what their residual errors do to the step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from simgait.alignment import Alignment
from simgait.case import Case
from simgait.errors import CaseError, Fault, RangeError
from simgait.limb import Limb, limb_of
from simgait.stance import StanceResult, simulate_stances
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.symbols import MAIN_MEASURES
from simgait.transfer.geometry import Chain, Pose, distance
from simgait.transfer.hardware import Hardware
from simgait.transfer.limb_pose import alignment_of_pose, pose_of_limb
from simgait.transfer.search import Found, best_with, found_chains
from simgait.transfer.setting import hardware_at_hand, unit_chain
from simgait.units import degrees_from_radians, mm_from_metres

CLOSE_TO_LIMIT = 0.01745  # [rad] of a tilt to its limit, about 1 deg: little is left to adjust
UNLIKE = (0.002, 0.0175)  # [m], [rad] between the unit and [alignment] before it is said
CUT_RESTS_ON = tuple(
    f"{table}.{part}_mm"
    for table in ("unit", "finished")
    for part in ("socket_adapter", "clamps", "foot_adapter")
)
WIDEST = "foot forward and length change within 60 mm, dorsiflexion within 15 deg"
ON_TRANSFER = (
    "Geometry in one plane, of rigid parts: check length, heel and the line of the foot on the "
    "finished limb before anyone stands on it.",
    "The maker's limits of tilts, of the tube's insertion and of loads hold besides.",
)


@dataclass(frozen=True, kw_only=True, eq=False)
class Fitted:
    """One chain that keeps the pose, and the stance with it."""

    found: Found
    alignment: Alignment  # that the chain amounts to
    result: StanceResult
    remarks: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class Transfer:
    """The pose of the foot under the socket, and the finished chains that keep it."""

    title: str
    side: str | None  # "left", "right"
    pose: Pose
    unit: Chain | None  # None: the pose is that of [alignment]
    hardware: Hardware
    limb: Limb  # as it stands with the unit
    result: StanceResult
    fitted: tuple[Fitted, ...]  # at least one, the best first
    filled: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    version: str

    @property
    def unmeasured(self) -> tuple[str, ...]:
        """What was filled in of the lengths that a cut rests on."""
        return unmeasured(self.filled)

    def changes(self, fitted: Fitted) -> Mapping[str, float]:
        """Return by how much each main measure changes with a chain against the unit."""
        before, after = self.result.measures, fitted.result.measures
        return {name: after[name] - before[name] for name in MAIN_MEASURES}


def transfer(case: Case, label: str = "case") -> Transfer:
    """Return the chains that keep the pose of a case's foot, and what they do to the step.

    case: as read; label: what its file is called, for messages.

    Raises:
        CaseError: the unit's pose is none of this limb, the hardware makes no sense, or no chain
            keeps the pose within the tolerances.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> case = read_case(models_folder() / "cases" / "everyday.toml")
    >>> transfer(case).fitted[0].found.error < 0.001
    True
    """
    stated = limb_of(case, case.baseline)
    unit, said = unit_chain(case) or (None, ())
    pose = pose_of_limb(stated) if unit is None else unit.pose
    own = _alignment(stated, pose, label)
    hardware, more = hardware_at_hand(case, label)
    found = found_chains(pose, hardware)
    if not found:
        raise CaseError([_none_fits(pose, hardware, label)])
    limbs = [limb_of(case, own)]
    alignments = [alignment_of_pose(stated, each.chain.pose) for each in found]
    limbs += [limb_of(case, alignment) for alignment in alignments]
    results = _stances(limbs, label)
    return Transfer(
        title=case.title,
        side=case.side,
        pose=pose,
        unit=unit,
        hardware=hardware,
        limb=limbs[0],
        result=results[0],
        fitted=tuple(
            _fitted(each, alignment, result, hardware)
            for each, alignment, result in zip(found, alignments, results[1:], strict=True)
        ),
        filled=(*case.filled, *said, *more),
        cautions=(
            *case_cautions(case),
            *ON_TRANSFER,
            *_unlike(stated, pose, unit),
            *_doubts(results[0]),
            *_before_cutting((*said, *more)),
        ),
        sources=case_sources(case),
        version=model_version(),
    )


def _fitted(found: Found, alignment: Alignment, result: StanceResult, hardware: Hardware) -> Fitted:
    """Return a chain with its stance, and what should make a reader look twice at either."""
    steps = tuple(f"in the step with it {remark}" for remark in result.remarks)
    return Fitted(
        found=found,
        alignment=alignment,
        result=result,
        remarks=chain_remarks(found, hardware) + steps,
    )


def _alignment(stated: Limb, pose: Pose, label: str) -> Alignment:
    """Return the alignment that a pose amounts to; refuse one that no limb has."""
    try:
        return alignment_of_pose(stated, pose)
    except RangeError as trouble:
        problem = f"holds the foot where no alignment of this limb does: {_apart(stated, pose)}"
        raise CaseError([_unit_fault(label, problem, WIDEST)]) from trouble


def _stances(limbs: Sequence[Limb], label: str) -> tuple[StanceResult, ...]:
    """Return the stances of limbs; refuse a unit with which one cannot be built."""
    try:
        return simulate_stances(limbs)
    except RangeError as trouble:
        raise CaseError([_unit_fault(label, f"makes no limb: {trouble}")]) from trouble


def _unit_fault(label: str, problem: str, allowed: str = "") -> Fault:
    return Fault(file=label, field="unit", value="", allowed=allowed, nearest=None, problem=problem)


def _apart(stated: Limb, pose: Pose) -> str:
    """Return how far a pose is from where ``[alignment]`` has the foot, each way in words."""
    own = pose_of_limb(stated)
    ways = (
        (mm_from_metres(pose.forward - own.forward), "mm", "forward", "back"),
        (mm_from_metres(pose.below - own.below), "mm", "lower", "higher"),
        (degrees_from_radians(pose.turn - own.turn), "deg", "toe up", "toe down"),
    )
    told = [
        f"{abs(size):.1f} {unit} {plus if size > 0.0 else minus}"
        for size, unit, plus, minus in ways
        if round(size, 1) != 0.0
    ]
    return f"{', '.join(told)} from where [alignment] has it"


def _doubts(result: StanceResult) -> tuple[str, ...]:
    """Return a caution where the alignment that is to be kept gives no walk to aim for."""
    if not result.remarks:
        return ()
    return (
        f"The alignment to be kept is no walk to aim for: {'; '.join(result.remarks)}. Settle that "
        "before a finished limb is built on it.",
    )


def _unlike(stated: Limb, pose: Pose, unit: Chain | None) -> tuple[str, ...]:
    """Return a caution where the unit does not hold the foot as ``[alignment]`` states."""
    own = pose_of_limb(stated)
    apart, turned = distance(own, pose), abs(own.turn - pose.turn)
    if unit is None or (apart <= UNLIKE[0] and turned <= UNLIKE[1]):
        return ()
    return (
        f"The unit as it reads holds the foot {_apart(stated, pose)}; the unit was followed. Read "
        f"both again: [alignment] is {degrees_from_radians(own.turn):+.1f} deg of both tilts "
        "together, socket flexion and dorsiflexion less the 4 deg by which the neutral foot stands "
        "toe down.",
    )


def unmeasured(filled: Sequence[str]) -> tuple[str, ...]:
    """Return which lengths of parts were filled in, of those on which the cut of a tube rests.

    filled: lines as NAME: VALUE.

    >>> unmeasured(("shoe.model: none given", "finished.clamps_mm: 40 (illustrative)"))
    ('finished.clamps_mm: 40 (illustrative)',)
    """
    return tuple(line for line in filled if line.partition(":")[0] in CUT_RESTS_ON)


def _before_cutting(filled: Sequence[str]) -> tuple[str, ...]:
    """Return a caution where the cut rests on lengths that nobody measured."""
    if not (lengths := unmeasured(filled)):
        return ()
    return (
        "Measure the parts before anything is cut: the cut rests on lengths that the case does not "
        f"state and that are invented here, millimetre for millimetre. {'; '.join(lengths)}.",
    )


def chain_remarks(found: Found, hardware: Hardware) -> tuple[str, ...]:
    """Return what should make a reader look twice at a chain.

    found: the chain; hardware: that it is made of.
    """
    told = []
    for which, angle, tilt in (
        ("upper", found.chain.upper_tilt, hardware.upper),
        ("lower", found.chain.lower_tilt, hardware.lower),
    ):
        if tilt.most - abs(angle) < CLOSE_TO_LIMIT:
            told.append(
                f"the {which} tilt is within 1 deg of its limit of "
                f"{degrees_from_radians(tilt.most):g} deg: little is left to adjust"
            )
    return tuple(told)


def _none_fits(pose: Pose, hardware: Hardware, label: str) -> Fault:
    """Return why no chain keeps a pose: the closest one with every plate."""
    told = []
    for offset in hardware.offsets:
        best = best_with(pose, offset, hardware)
        plate = f"plate {mm_from_metres(offset):+g} mm" if offset else "no plate"
        if best is None:
            told.append(f"{plate}: no tilts or tube within the tolerances")
            continue
        chain = best[1]
        told.append(
            f"{plate}: at best {mm_from_metres(distance(pose, chain.pose)):.2f} mm and "
            f"{degrees_from_radians(abs(chain.turn - pose.turn)):.2f} deg off with a tube of "
            f"{mm_from_metres(best[2]):.1f} mm, tilts "
            f"{degrees_from_radians(chain.upper_tilt):.2f} and "
            f"{degrees_from_radians(chain.lower_tilt):.2f} deg"
        )
    allowed = (
        f"within {mm_from_metres(hardware.tolerance):g} mm and "
        f"{degrees_from_radians(hardware.turn_tolerance):g} deg"
    )
    return Fault(
        file=label,
        field="finished",
        value="",
        allowed=allowed,
        nearest=None,
        problem=f"has no chain that keeps the pose: {'; '.join(told)}",
    )
