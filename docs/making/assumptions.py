"""The guide's page of assumptions: what the model takes for granted, with its grade."""

from __future__ import annotations

from making.assumed_numbers import BODY, DEFINED, MOVING, READING, SOLE, WEARER, Row
from making.text import page, table

STRUCTURE: tuple[Row, ...] = (
    ("Plane", "everything happens in the sagittal plane; no width, no toe-out, no trunk sway", ""),
    (
        "Strategy",
        "whatever the alignment, the wearer keeps the same reference curves, stiffnesses and "
        "support; real wearers adapt, at once in part and over days further",
        "kobayashi-2014: wearers were seen to make up for angles",
    ),
    (
        "Strategy, second assumption",
        "a wearer who adapts moves the references of hip and knee, by a constant and a linear part "
        "in time, as little as holds walking speed and shank; stiffnesses, support and timing stay",
        "kobayashi-2014: see the [page on adapting](adapting.md)",
    ),
    ("Body", "head, arms, trunk and the other leg are one point mass at the hip", ""),
    (
        "Residual limb",
        "the upper part of the natural shank; its mass is spread so that the whole shank keeps "
        "mass, centre and inertia of the table; what surgery reshapes is left out",
        "derived",
    ),
    (
        "Socket",
        "the limb turns in it about the middle of the enclosed length, with one spring and "
        "damper; it neither slides along nor across it",
        "lilja-1993 and poi-2016-socket: real limbs do both",
    ),
    ("Foot", "rigid at the ankle: all give is in the sole's elements", ""),
    (
        "Foot and shoe",
        "springs in series, losses shared by compliance, masses added; no slip between them",
        "derived",
    ),
    ("Floor", "level, rigid, one coefficient of friction", ""),
    (
        "Other limb",
        "forces on the hip: given curves while it leaves, a strut and a given curve once it "
        "lands, at given times",
        "assumed",
    ),
    (
        "Trunk and swinging leg",
        "one damper that holds the walking speed of the hip; it stands for both",
        "assumed",
    ),
    (
        "Knee moment",
        "that of the muscles about a pin joint, turned round: external, net; ligaments and the "
        "knee's own friction are in it",
        DEFINED,
    ),
)


def assumptions_page() -> str:
    """Return the page of assumptions."""
    heads = ("what", "value", "grade", "where")
    structure = table(
        ("what", "is taken as", "grade, and what is known against it"),
        [(what, taken, known or "assumed") for what, taken, known in STRUCTURE],
    )
    return page(
        "Assumptions",
        "What the model takes for granted. Numbers are read from the program when this page is "
        "made. Figures of single parts, people and wearers are on the pages of the "
        "[parts](../reference/feet.md) and the [wearers](../reference/wearers.md); what the "
        "grades mean is said in [how figures are "
        "compared](../agreement/how-figures-are-compared.md).",
        f"## Structure\n\n{structure}",
        f"## Sole, bench and floor\n\n{table(heads, SOLE)}",
        f"## Body and bench alignment\n\n{table(heads, BODY)}",
        f"## Wearer\n\n{table(heads, WEARER)}",
        f"## Arms that move\n\n{table(heads, MOVING)}",
        f"## Endings and readings\n\n{table(heads, READING)}",
    )
