"""The reference page of arms, and the generated parts of the guide's page on them."""

from __future__ import annotations

from functools import cache

from making.text import page, plain, shown, table
from simgait.arm.entries import arm_entry
from simgait.arm.judging import LIMITS
from simgait.arm.names import (
    DEVICE,
    LENGTH,
    MARGINS,
    OWN_CAUTIONS,
    POSITION,
    REMEDIES,
    TIRING,
    ArmQuantity,
)
from simgait.arm.result import ArmResult
from simgait.arm.running import work_arm
from simgait.case.arm_case import ArmCase, read_arm_case
from simgait.case.arm_entries import ALONE, ARM_LISTS, ARM_TABLES
from simgait.case.checking import choices_of
from simgait.case.entries import number_range
from simgait.library import models_folder
from simgait.library.arms import arm_figures

UNITS = (
    ("_moment_nm", "N m"), ("_nm", "N m"), ("_mm", "mm"), ("_kg", "kg"), ("_deg", "degrees"),
    ("_n", "N"),
)  # fmt: skip
SHOULDER, ABOVE, FOREARM = "shoulder-level", "above-elbow", "forearm-level"


@cache
def case_of(name: str) -> ArmCase:
    """Return a case of models/cases/arms."""
    return read_arm_case(models_folder() / "cases" / "arms" / f"{name}.toml")


@cache
def result_of(name: str) -> ArmResult:
    """Return what comes out for it."""
    return work_arm(case_of(name))


def entry(quantity: ArmQuantity) -> str:
    """Return a quantity as an entry of a definition list."""
    unit = quantity.unit if quantity.unit != "1" else "shares"
    return f"`{quantity.name}`\n: {quantity.definition} In {unit}.\n\n  *{quantity.sentence}*\n"


def section(title: str, intro: str, quantities: tuple[ArmQuantity, ...]) -> str:
    """Return a heading with its quantities."""
    return f"## {title}\n\n{intro}\n\n" + "\n".join(entry(each) for each in quantities)


def unit_of(key: str) -> str:
    """Return the unit that a key's name ends in, or a share."""
    return next((unit for ending, unit in UNITS if key.endswith(ending)), "share")


def key_rows(name: str) -> list[tuple[str, str, str, str]]:
    """Return the keys of one table of a case, with unit, range, and whether they are needed."""
    model, rows = ARM_TABLES[name], []
    for key, field in model.model_fields.items():
        limits = number_range(model, key)
        words = ", ".join(f"`{word}`" for word in choices_of(model, key))
        span = f"{plain(limits[0])} to {plain(limits[1])}" if limits else words
        need = "must be there" if field.is_required() else "may be left out"
        rows.append((f"`{key}`", unit_of(key) if limits else "", span, need))
    for key, (low, high, most, spread) in ARM_LISTS.get(name, {}).items():
        form = "list, or from, to, step" if spread else "list"
        form = "number or list" if f"{name}.{key}" in ALONE else form
        span = f"{form} of up to {most}: {plain(low)} to {plain(high)}"
        rows.append((f"`{key}`", unit_of(key), span, "may be left out"))
    return rows


def keys_part() -> str:
    """Return one table for each table of an arm's case file."""
    parts = []
    for name, model in ARM_TABLES.items():
        words = (model.__doc__ or "").strip().splitlines()[0].replace("``", "`")
        heads = ("key", "unit", "allowed", "needed")
        parts.append(f"### [{name}]\n\n{words}\n\n" + table(heads, key_rows(name)))
    return "\n".join(parts)


def figures_part() -> str:
    """Return the figures that fill what an arm's case leaves out."""
    rows = [
        (f"`{name}`", plain(figure.number), f"{figure.grade.value}, {figure.source}", figure.place)
        for name, figure in arm_figures().items()
    ]
    return table(("figure", "value", "grade, source", "place"), rows)


def reference_page() -> str:
    """Return the page of all names of an arm's case and its answer."""
    return page(
        "Arms: keys and quantities",
        "What an arm's case file holds, and what `simgait arm CASE --json` gives. Why it is "
        "computed so: [arms](../guide/arms.md).",
        "## Case file\n\n" + keys_part(),
        section("Positions", "Under `positions`, one for each guide and loop; empty at forearm "
                "level. `pull_n` and `lowering_pull_n` beside them are the pull at the harness at "
                "each of `flexion_deg`. `recommended` is one of them, or null.", POSITION),
        section("Margins", "Under `margins_percent` of the recommended position: what is left of "
                "each limit.", MARGINS),
        "## What binds\n\nUnder `binding` where nothing is feasible:\n\n"
        + table(("limit", "what exceeds what"), [(f"`{k}`", v) for k, v in LIMITS.items()]),
        "## Remedies\n\nUnder `remedies` where nothing is feasible, or nothing without tiring: "
        "what a step changes at the position that is nearest to fitting, and the least change that "
        "makes some position fit (null: it cannot alone).\n\n"
        + table(("remedy", "in words"), [(f"`{k}`", v) for k, v in REMEDIES.items()]),
        section("Lengths", "Under `lengths`, one for each change; `recommended_length` is one of "
                "them, or null without `max_shoulder_moment_nm`.", LENGTH),
        section("Cable to the device", "Under `device`, with `travel_mm`, `pull_n` and "
                "`return_pull_n` along the way.", DEVICE),
        "## Figures that fill a case\n\n" + figures_part(),
        "## Cautions\n\n" + "\n".join(f"* {each}" for each in (*OWN_CAUTIONS, TIRING)),
    )  # fmt: skip


def positions_part() -> str:
    """Return some positions of the above-elbow case, the recommended one among them."""
    answer = arm_entry(result_of(ABOVE))
    best = answer["recommended"]
    wanted = {best["place"], *range(0, len(answer["positions"]), 10)}
    rows = []
    for place in sorted(wanted):
        row = answer["positions"][place]
        flags = ("feasible", "fatigue_free", "opens_while_lifting")
        rows.append(
            (
                f"**{row['loop_mm']:g}**" if place == best["place"] else f"{row['loop_mm']:g}",
                *(shown(row[key], 1) for key in
                  ("peak_pull_n", "pull_at_90_n", "excursion_mm", "device_excursion_left_mm")),
                *("yes" if row[flag] else "no" for flag in flags),
            )
        )  # fmt: skip
    heads = (
        "loop, mm",
        "peak pull, N",
        "pull at 90 degrees, N",
        "excursion, mm",
        "left for the device, mm",
        "feasible",
        "without tiring",
        "opens while lifting",
    )
    share = 100.0 * best["stays_feasible_share"]
    return table(heads, rows) + (
        f"\nThe loop at {best['loop_mm']:g} mm is recommended. With the errors of measurement "
        f"drawn, it stays feasible in {share:.0f} % of the draws: the travel left at the mouth is "
        "near its limit, and a fitter who knows that measures the excursion twice.\n"
    )  # fmt: skip


def length_part() -> str:
    """Return what 38 mm less forearm do to the shoulder-level case."""
    case, result = case_of(SHOULDER), result_of(SHOULDER)
    by_change = {round(1000.0 * row.change): row for row in result.lengths}
    given, less = by_change[0], by_change[-38]
    rows = [
        (name, shown(a, digits), shown(b, digits), f"{100.0 * (b / a - 1.0):+.0f} %")
        for name, a, b, digits in (
            ("moment about the shoulder, N m", given.shoulder_moment, less.shoulder_moment, 2),
            ("moment about the elbow, N m", given.elbow_moment, less.elbow_moment, 2),
            ("inertia about the shoulder, kg m2", given.inertia, less.inertia, 3),
            ("force at the socket's brim, N", given.brim_force or 0, less.brim_force or 0, 1),
            ("peak pull at the recommended loop, N", given.peak_pull or 0, less.peak_pull or 0, 1),
            ("slowest free swing, s", given.slowest_swing, less.slowest_swing, 2),
            ("reach, mm", 1000.0 * given.reach, 1000.0 * less.reach, 0),
        )
    ]
    capacity = case.harness.max_shoulder_moment or 0.0
    longest = -1000.0 * (result.longest_change or 0.0)
    return (
        table(("", "as given", "38 mm shorter", "change"), rows, right=3)
        + f"\nThis wearer's shoulder was measured (in the invented case) to hold {capacity:g} N m. "
        f"As given the arm asks for more. {longest:.0f} mm less are just enough; of the lengths "
        "listed, 38 mm less is the one that keeps within it and loses least reach. Mouth and "
        f"midline are {'kept' if less.mouth and less.midline else 'not both kept'}.\n"
    )


def device_part() -> str:
    """Return what the forearm-level case's cable asks for."""
    row = result_of(FOREARM).device
    if row is None:
        raise ValueError("the case has no device")
    return table(
        ("what", "value"),
        [
            ("pull at the hook, end of its travel", f"{row.device_force[-1]:.0f} N"),
            ("pull at the harness for that", f"{row.peak_pull:.1f} N"),
            ("pull at the harness while it lets back", f"{row.return_pull[-1]:.1f} N"),
            ("efficiency", f"{row.efficiency:.2f} (usually at least {row.usual_minimum:.2f})"),
            ("lost in the housing in a cycle", f"{1000.0 * row.lost:.0f} N mm"),
            ("within the pull that does not tire", "yes" if row.fatigue_free else "no"),
        ],
    )


def guide_parts() -> dict[str, str]:
    """Return the generated parts of the guide's page on arms."""
    return {
        "cautions": "\n".join(f"**{each}**" for each in OWN_CAUTIONS),
        "positions": positions_part(),
        "shortening": length_part(),
        "device": device_part(),
    }
