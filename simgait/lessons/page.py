"""One self-contained page of a lesson: words and figures here, the drawing in the browser."""

from __future__ import annotations

import html
from functools import cache
from importlib.resources import files
from typing import Any

from simgait.engines.script_formulas import formulas_text
from simgait.lessons.leg_data import stances
from simgait.lessons.lesson import Figure, Lesson
from simgait.lessons.shelf import read_lesson
from simgait.page.shell import BASE_SCRIPTS, BASE_STYLES, asset, page_text
from simgait.page.stance_data import stance_physics

__all__ = ["lesson_page"]

OWN_SCRIPTS = ("lesson_stage.js", "lesson_ledger.js")


@cache
def lesson_asset(name: str) -> str:
    """Return the text of a lesson's script or style, by its file name.

    >>> "const SCENES" in lesson_asset("lesson_stage.js")
    True
    """
    return (files("simgait.lessons") / "assets" / name).read_text(encoding="utf-8")


def lesson_page(name: str) -> str:
    """Return the whole text of a lesson's page.

    Raises:
        CaseError: there is no such lesson; the fault names the nearest.

    >>> "<title>The pole at the pond" in lesson_page("lever-first")
    True
    """
    lesson = read_lesson(name)
    data: dict[str, Any] = {"lesson": lesson_data(lesson)}
    if lesson.on_stance:
        data["stances"] = stances(lesson)
        model = [stance_physics(), asset("stance_model.js"), lesson_asset("figures_stance.js")]
    else:
        model = [lesson_formulas(lesson), lesson_asset("figures_formula.js")]
    return page_text(
        title=f"{lesson.title} \u2013 a lesson of simgait",
        body=lesson_body(lesson),
        data=data,
        scripts=(
            *map(asset, BASE_SCRIPTS),
            *model,
            *map(lesson_asset, OWN_SCRIPTS),
            lesson_asset(lesson.drawing),
            lesson_asset("lesson.js"),
        ),
        styles=(*map(asset, BASE_STYLES), lesson_asset("lesson.css")),
    )


def lesson_formulas(lesson: Lesson) -> str:
    """Return the formulas of a lesson as JavaScript.

    Raises:
        NotTranslated: one of them cannot be said there.
    """
    return formulas_text({lesson.numbers.__module__: [lesson.numbers.__name__]})


def lesson_data(lesson: Lesson) -> dict[str, Any]:
    """Return what the page's script reads of a lesson."""
    ledger, control = lesson.ledger, lesson.control
    return {
        "name": lesson.name,
        "title": lesson.title,
        "idea": lesson.idea,
        "formula": lesson.numbers.__name__,
        "control": vars(control),
        "figures": [figure_data(figure) for figure in lesson.figures],
        "shown": lesson.shown,
        "question": {
            "words": lesson.question.words,
            "choices": [vars(choice) for choice in lesson.question.choices],
            "right": lesson.question.right,
        },
        "explanation": lesson.explanation,
        "ledger": {
            "kind": ledger.kind,
            "title": ledger.title,
            "giver": ledger.giver,
            "taker": ledger.taker,
            "loss": ledger.loss,
            "rows": [vars(row) for row in ledger.rows],
            "note": ledger.note,
        },
        "teacher": vars(lesson.teacher),
        "constants": dict(lesson.constants),
    }


def figure_data(figure: Figure) -> dict[str, Any]:
    """Return a figure as the page's script reads it."""
    return vars(figure)


def lesson_body(lesson: Lesson) -> str:
    """Return the page's markup: title and scene, and the places that the script fills."""
    scene = "".join(f"<p>{html.escape(words)}</p>" for words in lesson.scene)
    cautions = "".join(f"<p>{html.escape(words)}</p>" for words in lesson.cautions)
    caution = f'<div class="caution small">{cautions}</div>' if cautions else ""
    return f"""<main class="lesson">
<header class="wide"><h1>{html.escape(lesson.title)}</h1>
<div class="scene-words">{scene}</div></header>
<section class="panel" id="drawing" aria-label="Drawing and control">
<p class="task">{html.escape(lesson.task)}</p></section>
<div class="aside"><section class="panel" id="question" aria-label="Prediction"></section>
<section class="panel" id="numbers" aria-label="Numbers" hidden></section></div>
<section class="panel" id="answer" aria-label="Answer" hidden></section>
<section class="panel wide" id="ledger" aria-label="Ledger" hidden></section>
<section class="panel wide" id="teacher" aria-label="For the teacher"></section>
<footer class="wide">{caution}
<p class="small quiet">An invented scene. Computed in this page by simgait; nothing is fetched and
nothing is sent.</p></footer>
</main>"""
