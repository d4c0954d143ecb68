"""Make every generated page and picture of the documentation again.

    python docs/generate.py [PART-OF-A-PATH ...]

With words, only pages and pictures whose path holds one of them are made.  The tests compare the
committed pages with fresh ones, so a page that is out of date does not pass.
"""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "docs"), str(ROOT / "tests" / "support")]

from making import (  # noqa: E402
    accuracy,
    adapting,
    advice,
    agreement_page,
    arm_motion,
    arms,
    arms_gallery,
    assumptions,
    bench,
    case_file,
    films,
    frames,
    gallery,
    guide_parts,
    lessons,
    levers,
    parts,
    record,
    reference,
    second_engine,
    standing,
    study,
    tipping,
    transfer,
    wearers,
)
from making.listing import DOCS, Page, Picture  # noqa: E402

from simgait.files import write_whole  # noqa: E402

LOOSE = 0.01  # numbers that depend on rounding may differ by 1 %
LOOSER = 0.10  # errors of the integration may differ by 10 %

PAGES: tuple[Page, ...] = (
    Page(path="reference/measures.md", make=reference.measures_page),
    Page(path="reference/sources.md", make=reference.sources_page),
    Page(path="reference/cli.md", make=reference.cli_page),
    Page(path="reference/feet.md", make=parts.feet_page, band=LOOSE),
    Page(path="reference/wearers.md", make=wearers.wearers_page),
    Page(path="reference/accuracy.md", make=accuracy.accuracy_page, band=LOOSER),
    Page(path="reference/second-engine.md", make=second_engine.second_engine_page, band=LOOSER),
    Page(path="reference/standing.md", make=standing.reference_page),
    Page(path="agreement/stance.md", make=agreement_page.agreement_page, band=LOOSE),
    Page(path="agreement/standing.md", make=agreement_page.standing_page, band=LOOSE),
    Page(path="agreement/levers.md", make=agreement_page.levers_page),
    Page(path="guide/levers.md", make=levers.guide_parts),
    Page(path="guide/lessons.md", make=lessons.guide_parts),
    Page(path="guide/arm-motion.md", make=arm_motion.guide_parts, band=LOOSE),
    Page(path="agreement/arms.md", make=agreement_page.arms_page, band=LOOSE),
    Page(path="reference/arms.md", make=arms.reference_page),
    Page(path="guide/arms.md", make=arms.guide_parts, band=LOOSE),
    Page(path="guide/assumptions.md", make=assumptions.assumptions_page),
    Page(path="guide/model.md", make=guide_parts.model_parts, band=LOOSE),
    Page(path="guide/wearer.md", make=guide_parts.wearer_parts),
    Page(path="guide/adapting.md", make=adapting.guide_parts, band=LOOSER),
    Page(path="guide/case-file.md", make=case_file.parts),
    Page(path="guide/teaching.md", make=guide_parts.teaching_parts, band=LOOSE),
    Page(path="guide/standing.md", make=standing.guide_parts),
    Page(path="guide/transfer.md", make=transfer.guide_parts, band=LOOSE),
    Page(path="guide/advice.md", make=advice.guide_parts, band=LOOSE),
    *gallery.pages(),
    Page(path="gallery/standing.md", make=standing.gallery_page, band=LOOSE),
    Page(path=f"gallery/{study.STUDY}.md", make=study.gallery_page, band=LOOSE),
    Page(path="gallery/arms.md", make=arms_gallery.gallery_page, band=LOOSE),
    Page(path="reference/tipping.md", make=tipping.reference_page),
    Page(path="gallery/tipping.md", make=tipping.gallery_page, band=LOOSE),
)
PICTURES: tuple[Picture, ...] = (
    Picture(path="guide/frames.png", draw=frames.draw_frames),
    Picture(path="reference/feet-bench.png", draw=bench.draw_bench),
    *(Picture(path=path, draw=draw) for path, draw in wearers.pictures()),
    Picture(path="reference/second-engine.png", draw=second_engine.draw_both),
    *gallery.pictures(),
    *(
        Picture(path=f"gallery/standing-{name}.png", draw=partial(standing.draw, name))
        for name in standing.SHOWN_CASES
    ),
    Picture(path="gallery/tipping-everyday.png", draw=tipping.draw),
    Picture(path=f"gallery/{study.STUDY}.png", draw=study.draw),
    *(
        Picture(path=f"gallery/arms-{name}.png", draw=partial(arms_gallery.draw, name))
        for name in arms_gallery.CASES
    ),
    Picture(path="gallery/arms-lift.gif", draw=arms_gallery.draw_film),
    Picture(path="guide/films-beside.gif", draw=films.draw_beside, most_kb=1024),
    Picture(path="guide/films-overlaid.gif", draw=films.draw_overlaid, most_kb=1024),
    Picture(path="guide/record.png", draw=record.draw),
)


def write_page(page: Page) -> None:
    """Write a page as it should be now."""
    text = page.fresh()
    with write_whole(page.file) as partial_file:
        partial_file.write_text(text, encoding="utf-8")


def main(words: list[str]) -> None:
    """Make the pages and pictures whose path holds one of the words; all, if there are none.

    Raises:
        ValueError: a picture is larger than it may be.
    """
    jobs = [(page.path, partial(write_page, page)) for page in PAGES]
    jobs += [(picture.path, partial(picture.draw, picture.file)) for picture in PICTURES]
    for path, make in jobs:
        if not words or any(word in path for word in words):
            make()
            print(f"docs/{path}: {(DOCS / path).stat().st_size / 1024:.0f} kB")
    heavy = [
        picture.path
        for picture in PICTURES
        if picture.file.is_file() and picture.file.stat().st_size > 1024 * picture.most_kb
    ]
    if heavy:
        raise ValueError(f"larger than they may be: {', '.join(heavy)}")


if __name__ == "__main__":
    main(sys.argv[1:])
