"""From ``[unit]`` and ``[finished]`` of a case to the unit's chain and the hardware at hand."""

from __future__ import annotations

from dataclasses import dataclass, field

from simgait.case import Case
from simgait.case.transfer_entries import FinishedEntry, UnitEntry
from simgait.errors import CaseError, Fault, RangeError
from simgait.library.transfers import transfer_figures
from simgait.transfer.geometry import Chain
from simgait.transfer.hardware import Hardware, Tilt, Tube
from simgait.units import metres_from_mm, radians_from_degrees

FINEST_STEP = 0.1  # [deg] of a tilt in steps; 0 is any tilt
TABLE_OF_FIGURES = {
    "upper_tilt_most_deg": "tilt_most_deg",
    "upper_tilt_step_deg": "tilt_step_deg",
    "lower_tilt_most_deg": "tilt_most_deg",
    "lower_tilt_step_deg": "tilt_step_deg",
}


@dataclass(frozen=True, kw_only=True)
class Filled:
    """A table's numbers as written, and what is taken for those that are not."""

    table: str
    entry: UnitEntry | FinishedEntry | None
    said: list[str] = field(default_factory=list)

    def number(self, name: str) -> float:
        """Return a number in the unit of its name; one that is filled in is noted."""
        given = getattr(self.entry, name, None)
        if given is not None:
            return float(given)
        figure = transfer_figures()[TABLE_OF_FIGURES.get(name, name)]
        self.said.append(f"{self.table}.{name}: {figure.number:g} ({figure.grade.value})")
        return figure.number

    def optional(self, name: str, words: str) -> float:
        """Return a number that is nothing where it is not written, which is noted in words."""
        given = getattr(self.entry, name, None)
        if given is not None:
            return float(given)
        self.said.append(f"{self.table}.{name}: none given, so {words}")
        return 0.0

    def length(self, name: str) -> float:
        """Return a length [m] by its name in millimetres."""
        return metres_from_mm(self.number(name))

    def angle(self, name: str) -> float:
        """Return an angle [rad] by its name in degrees."""
        return radians_from_degrees(self.number(name))


def unit_chain(case: Case) -> tuple[Chain, tuple[str, ...]] | None:
    """Return the adjustable unit as a chain, and what was filled in; None without ``[unit]``.

    case: as read.
    """
    if case.unit is None:
        return None
    filled = Filled(table="unit", entry=case.unit)
    spacer = filled.optional("spacer_mm", "no spacer")
    foot_shift = filled.optional("foot_slide_mm", "no slide at the foot")
    chain = Chain(
        socket_adapter=filled.length("socket_adapter_mm"),
        offset=metres_from_mm(case.unit.slide_mm),
        upper_tilt=radians_from_degrees(case.unit.upper_tilt_deg),
        span=metres_from_mm(case.unit.pylon_mm + spacer) + filled.length("clamps_mm"),
        lower_tilt=radians_from_degrees(case.unit.lower_tilt_deg),
        foot_shift=metres_from_mm(foot_shift),
        foot_adapter=filled.length("foot_adapter_mm"),
    )
    return chain, tuple(filled.said)


def hardware_at_hand(case: Case, label: str) -> tuple[Hardware, tuple[str, ...]]:
    """Return the hardware of ``[finished]``, and what was filled in.

    case: as read; label: what its file is called, for a message.

    Raises:
        CaseError: the tubes' lengths or a tilt's step make no sense.
    """
    filled = Filled(table="finished", entry=case.finished)
    offsets = case.finished.offsets_mm if case.finished else None
    if offsets is None:
        filled.said.append("finished.offsets_mm: none given, so no plate")
    try:
        tube = Tube(
            least=filled.length("pylon_least_mm"),
            most=filled.length("pylon_most_mm"),
            step=filled.length("pylon_step_mm"),
        )
    except RangeError as trouble:
        raise CaseError([_fault(label, "finished.pylon_least_mm", str(trouble))]) from trouble
    hardware = Hardware(
        socket_adapter=filled.length("socket_adapter_mm"),
        foot_adapter=filled.length("foot_adapter_mm"),
        clamps=filled.length("clamps_mm"),
        tube=tube,
        upper=_tilt(filled, "upper", label),
        lower=_tilt(filled, "lower", label),
        offsets=tuple(metres_from_mm(offset) for offset in offsets or (0.0,)),
        tolerance=filled.length("tolerance_mm"),
        turn_tolerance=filled.angle("tolerance_deg"),
    )
    return hardware, tuple(filled.said)


def _tilt(filled: Filled, which: str, label: str) -> Tilt:
    name = f"{which}_tilt_step_deg"
    step = filled.number(name)
    if 0.0 < step < FINEST_STEP:
        allowed = f"0 for any tilt, or from {FINEST_STEP:g}"
        raise CaseError([_fault(label, f"finished.{name}", "is too fine", f"{step:g}", allowed)])
    return Tilt(most=filled.angle(f"{which}_tilt_most_deg"), step=radians_from_degrees(step))


def _fault(label: str, name: str, problem: str, value: str = "", allowed: str = "") -> Fault:
    return Fault(
        file=label, field=name, value=value, allowed=allowed, nearest=None, problem=problem
    )
