"""simgait film: a stance film for showing, or the film of an arm's lift."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from simgait.case import read_case
from simgait.case.kinds import kind_of
from simgait.case.reading import read_bytes, tables_of, text_of
from simgait.command.building import built_limbs
from simgait.command.running import (
    print_json,
    ready_folder,
    refused_if_unwritable,
    refused_option,
)
from simgait.errors import CaseError, Fault, one_line
from simgait.library import nearest
from simgait.pictures.films.wish import CURVES, MOST_RUNS, NARROW, SLOWS, WIDTHS, FilmWish
from simgait.pictures.reel import FILM_ENDINGS
from simgait.stance import Comparison, compare
from simgait.stance.comparing import about_shown

USUAL_CURVES = ("knee-moment", "vertical-force")
USUAL_WIDTH = 960  # [pixel]
NO_CURVES = "none"


@dataclass(frozen=True, kw_only=True)
class Asked:
    """The options of a stance film as they were typed; None where they were not."""

    layout: str | None
    together: str | None
    slow: float | None
    runs: str | None
    curves: str | None
    width: int | None

    @property
    def given(self) -> tuple[str, ...]:
        """The options that were typed."""
        return tuple(f"--{name}" for name, value in vars(self).items() if value is not None)


def run_film(case: str, out: str, asked: Asked, as_json: bool) -> None:
    """Draw the film of a case and say what was written.

    case: path of a leg's or an arm's case file; out: of the film; as_json: one JSON object is
    printed and nothing else.

    Raises:
        CaseError: the case, an option or the place of the film is refused.
        SimgaitError: ffmpeg is missing or could not make the film.
    """
    final = film_path(out)
    label = one_line(case)
    if kind_of(tables_of(text_of(read_bytes(Path(case), label), label), label)) == "arm":
        answer = arm_film(case, final, asked)
    else:
        answer = stance_film(case, final, asked)
    if as_json:
        print_json(answer)
        return
    from simgait.command.tables import console, print_notes

    terminal = console()
    terminal.print(answer["title"], markup=False)
    for line in told(answer):
        terminal.print(line)
    print_notes(terminal, "Cautions, also in the picture", answer["cautions"])
    print_notes(terminal, "Written", [answer["file"]], wrap=False)


def film_path(out: str) -> Path:
    """Return the path of a film that can be written.

    Raises:
        CaseError: its name ends in no kind of film, or it is a folder.
        SimgaitError: it is an MP4 and ffmpeg is missing.
    """
    path = Path(out)
    ending = path.suffix.lower()
    if ending not in FILM_ENDINGS:
        kinds = ", ".join(f"a name that ends in {each}" for each in FILM_ENDINGS)
        near = nearest(ending, FILM_ENDINGS) if ending else None
        raise refused_option("--out", repr(out), "is no film's name", kinds, near)
    if path.is_dir():
        raise refused_option("--out", repr(out), "is a folder", "the name of a file")
    if ending == ".mp4":
        from simgait.pictures.video import find_ffmpeg

        find_ffmpeg()
    return path


def stance_film(case: str, final: Path, asked: Asked) -> dict[str, Any]:
    """Draw the stance film of a leg's case; return what was written, as JSON says it."""
    wish = wish_of(asked)
    checked = read_case(case)
    total = len(checked.alignments())
    numbers = None if asked.runs is None else chosen_runs(asked.runs, total, wish.layout)
    built_limbs(case, checked, checked.alignments())
    ready_folder(str(final.parent))
    comparison = compare(checked)
    shown = shown_runs(comparison, numbers, wish)
    comparison = about_shown(comparison, shown)
    from simgait.pictures.films.drawing import draw_stance_film

    with refused_if_unwritable(final):
        film = draw_stance_film(comparison, final, shown, wish)
    return {
        "title": comparison.title,
        "file": str(final),
        "layout": wish.layout,
        "runs": [index + 1 for index in shown],
        "of": total,
        "curves": wish.curves,
        "frames": film.frames,
        "width": film.width,
        "height": film.height,
        "slow_motion": film.slow_motion,
        "filled": comparison.filled,
        "cautions": comparison.cautions,
        "sources": comparison.sources,
        "version": comparison.version,
    }


def shown_runs(
    comparison: Comparison, numbers: tuple[int, ...] | None, wish: FilmWish
) -> tuple[int, ...]:
    """Return the indices of the runs to show, the baseline first if it is among them."""
    if numbers is None:
        from simgait.stance.differing import most_different

        return most_different(comparison, 2 if wish.overlaid or wish.width < NARROW else 3)
    return tuple(sorted((number - 1 for number in numbers), key=lambda i: i != comparison.baseline))


def wish_of(asked: Asked) -> FilmWish:
    """Return what was asked for, with what was not asked filled in.

    Raises:
        CaseError: a value is refused.
    """
    layout = asked.layout or "side-by-side"
    if asked.together and layout != "overlaid":
        raise refused_option(
            "--together", asked.together, "has no meaning without --layout overlaid",
            "limbs side by side stand where they walk",
        )  # fmt: skip
    low, high = SLOWS
    if asked.slow is not None and not low <= asked.slow <= high:
        problem = "is out of range" if math.isfinite(asked.slow) else "is not finite"
        near = f"{min(max(asked.slow, low), high):g}" if math.isfinite(asked.slow) else None
        raise refused_option("--slow", f"{asked.slow:g}", problem, f"{low:g} to {high:g}", near)
    width = USUAL_WIDTH if asked.width is None else asked.width
    if not WIDTHS[0] <= width <= WIDTHS[1]:
        near = str(min(max(width, WIDTHS[0]), WIDTHS[1]))
        allowed = f"{WIDTHS[0]} to {WIDTHS[1]} pixels"
        raise refused_option("--width", str(width), "is out of range", allowed, near)
    return FilmWish(
        layout=layout,
        together=asked.together or "hips",
        slow=asked.slow,
        curves=USUAL_CURVES if asked.curves is None else chosen_curves(asked.curves),
        width=width,
    )


def chosen_curves(text: str) -> tuple[str, ...]:
    """Return the curves of `--curves`, in the order typed; none for "none".

    Raises:
        CaseError: one is not known, or said twice.

    >>> chosen_curves("vertical-force, knee-moment"), chosen_curves("none")
    (('vertical-force', 'knee-moment'), ())
    """
    if text.strip() == NO_CURVES:
        return ()
    names = tuple(part.strip() for part in text.split(","))
    for place, name in enumerate(names):
        if name not in CURVES:
            allowed = f"{', '.join(CURVES)}, or {NO_CURVES}"
            near = nearest(name, tuple(CURVES))
            raise refused_option("--curves", repr(name), "is not a known curve", allowed, near)
        if name in names[:place]:
            raise refused_option("--curves", repr(name), "is said twice", "each curve once")
    return names


def chosen_runs(text: str, total: int, layout: str) -> tuple[int, ...]:
    """Return the numbers of `--runs`, from 1 to `total`.

    Raises:
        CaseError: one is no number, out of range or said twice, or there are too many.

    >>> chosen_runs("1, 3,7", 9, "side-by-side")
    (1, 3, 7)
    """
    allowed = f"numbers from 1 to {total} as in simgait compare, such as {min(1, total)},{total}"
    numbers: list[int] = []
    for part in (each.strip() for each in text.split(",")):
        if not (part.isascii() and part.isdigit() and len(part) < 10):
            raise refused_option("--runs", repr(part), "is not a run's number", allowed)
        number = int(part)
        if not 1 <= number <= total:
            near = str(min(max(number, 1), total))
            raise refused_option("--runs", part, "is not a run of this case", allowed, near)
        if number in numbers:
            raise refused_option("--runs", part, "is said twice", "each run once")
        numbers.append(number)
    most = MOST_RUNS[layout]
    if len(numbers) > most:
        raise refused_option(
            "--runs", text, f"are too many for {layout}", f"up to {most} runs; fewer show more"
        )
    return tuple(numbers)


def arm_film(case: str, final: Path, asked: Asked) -> dict[str, Any]:
    """Draw the film of an arm's lift; return what was written, as JSON says it.

    Raises:
        CaseError: the case or an option is refused, or the arm has no lift to show.
    """
    from simgait.arm.provenance import arm_case_sources
    from simgait.arm.running import work_arm
    from simgait.arm.sheet import arm_sheet
    from simgait.case.arm_case import read_arm_case

    if asked.given:
        raise refused_option(
            ", ".join(asked.given), "", "is for films of a stance; this is a case of an arm",
            "no option but --out and --json",
        )  # fmt: skip
    checked = read_arm_case(case)
    ready_folder(str(final.parent))
    sheet = arm_sheet(work_arm(checked, 0, 1))
    if sheet.lifted is None:
        raise CaseError([no_lift(case)])
    from simgait.pictures.arm_film import draw_lift_film

    with refused_if_unwritable(final):
        draw_lift_film(sheet, final)
    return {
        "title": checked.title,
        "file": str(final),
        "ending": sheet.lifted.ending,
        "filled": checked.filled,
        "cautions": sheet.lift_cautions,
        "sources": arm_case_sources(checked),
        "version": sheet.version,
    }


def no_lift(case: str) -> Fault:
    """Return the fault of an arm of which there is nothing to film."""
    return Fault(
        file=one_line(case),
        field="arm",
        value="",
        allowed="an arm whose elbow a cable lifts, with at least one position of guide and loop "
        "that lifts it",
        nearest=None,
        problem="has no lift to film",
    )


def told(answer: dict[str, Any]) -> list[str]:
    """Return what was drawn, in sentences."""
    if "runs" not in answer:
        return [f"The arm's lift; ending: {answer['ending'].replace('_', ' ')}."]
    numbers = ", ".join(map(str, answer["runs"]))
    return [
        f"Runs {numbers} of {answer['of']}, {answer['layout'].replace('-', ' ')}, numbered as in "
        "simgait compare.",
        f"{answer['width']} x {answer['height']} pixels, {answer['frames']} frames, "
        f"{answer['slow_motion']:.3g} times slower than life.",
    ]
