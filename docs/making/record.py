"""The figure of an invented fitting record, for the guide."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path

from simgait.pictures.record import draw_record
from simgait.record.appending import append
from simgait.record.entry import Entry, Record
from simgait.record.history import history_of
from simgait.record.reading import read_record
from simgait.stance.provenance import model_version
from simgait.symbols import CAUTIONS

CODE = "invented-1"
# invented: day of May, foot forward [mm], dorsiflexion [deg], speed [m/s], decision, why
TRIALS = (
    (4, 0, 0, 1.05, "", ""),
    (4, 5, 0, 1.12, "", ""),
    (4, 10, 0, 1.08, "foot stays 5 mm forward", "at 10 mm hard to get over the toe"),
    (4, 5, 0, 1.12, "", ""),
    (18, 5, -2, 1.15, "toe down by 2 degrees", "pushed forward less at loading"),
    (18, 5, -3, 1.11, "", ""),
    (18, 5, -2, 1.16, "left so", "no gain beyond 2 degrees"),
    (30, 5, -2, 1.21, "finished limb ordered at these settings", "steady for two weeks"),
)


def entry(day: int, forward: int, tilt: int, speed: float, decision: str, why: str) -> Entry:
    """Return one invented entry."""
    notes = tuple((kind, text) for kind, text in (("decision", decision), ("why", why)) if text)
    alignment = {
        "foot_forward_mm": float(forward),
        "dorsiflexion_deg": float(tilt),
        "socket_flexion_deg": 5.0,
        "length_change_mm": 0.0,
        "heel_rise_mm": 10.0,
    }
    return Entry(
        code=CODE,
        written=datetime(2026, 5, day, 10, 0, tzinfo=UTC),
        visit=date(2026, 5, day),
        by=None,
        case=None,
        alignment=alignment,
        notes=notes,
        measured={"walking_speed_m_s": speed},
        corrects=None,
        withdrawn=False,
    )


def always(made: Entry) -> Callable[[Record], Entry]:
    """Return what makes this entry, whatever stands in the record."""
    return lambda record: made


def draw(path: Path) -> None:
    """Draw the figure of the invented record."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "record.txt"
        for trial in TRIALS:
            append(file, always(entry(*trial)))
        draw_record(history_of(read_record(file)), (CAUTIONS, model_version()), path)
