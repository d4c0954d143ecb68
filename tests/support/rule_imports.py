"""Which room may import which: downwards only."""

import ast
from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath

from house_tree import docstrings

# Ground floor first. A room may import rooms below it, and rooms of its own floor unless the
# floor is in APART; no two rooms may import each other, directly or round about.
FLOORS: tuple[frozenset[str], ...] = (
    frozenset({"errors", "units", "symbols", "sources", "arrays", "files"}),
    frozenset({"physics", "levers"}),
    frozenset({"engines"}),
    frozenset({"people", "parts", "alignment", "wearer"}),
    frozenset({"library", "case"}),
    frozenset({"limb"}),
    frozenset({"standing", "stance", "arm"}),
    frozenset({"tipping"}),
    frozenset({"studies"}),
    frozenset({"advice", "record", "transfer"}),
    frozenset({"pictures", "page", "lessons", "report"}),
    frozenset({"command"}),
)
APART = frozenset({"standing", "stance", "arm"})
DOORS = frozenset({"__init__", "__main__"})  # of the package: may name any room

# A library that only these rooms import, wherever in the file the import stands.
HOMES: dict[str, frozenset[str]] = {
    "matplotlib": frozenset({"pictures"}),
    "numba": frozenset({"engines"}),
    "pymunk": frozenset({"engines"}),
    "pydantic": frozenset({"library", "case"}),
    "click": frozenset({"command"}),
    "distributed": frozenset({"studies"}),
}
READERS_OF_MODELS = frozenset({"library", "case"})


def room_of(path: str) -> str:
    """Return the room of a file given as "simgait/room.py" or "simgait/room/file.py"."""
    return PurePosixPath(path).parts[1].removesuffix(".py")


def floor_of(room: str) -> int | None:
    """Return the number of the floor a room is on; None for a room that nobody placed."""
    found = [level for level, rooms in enumerate(FLOORS) if room in rooms]
    return found[0] if found else None


def imported(path: str, text: str) -> Iterator[tuple[int, str]]:
    """Yield line and full dotted name of everything a file imports, relative imports resolved."""
    here = PurePosixPath(path).parts[:-1]
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = here[: len(here) - node.level + 1] if node.level else ()
            module = ".".join((*base, *(node.module.split(".") if node.module else ())))
            yield from ((node.lineno, f"{module}.{alias.name}") for alias in node.names)


def rooms_imported(path: str, text: str) -> Iterator[tuple[int, str]]:
    """Yield line and room for every import of this package."""
    for line, dotted in imported(path, text):
        parts = dotted.split(".")
        if parts[0] == "simgait":
            yield line, parts[1] if len(parts) > 1 else ""


def direction_faults(path: str, text: str) -> list[str]:
    """Return what is wrong with the directions of a file's imports."""
    room = room_of(path)
    if room in DOORS:
        return []
    here = floor_of(room)
    if here is None:
        return [f"{path}: the room {room} is on no floor; place it in FLOORS"]
    faults = []
    for line, other in rooms_imported(path, text):
        there = floor_of(other)
        if other == room:
            continue
        if there is None:
            faults.append(f"{path}:{line}: imports {other or 'simgait'!r}, which is not a room")
        elif there > here:
            faults.append(f"{path}:{line}: {room} imports {other}, which is above it")
        elif there == here and room in APART:
            faults.append(f"{path}:{line}: {room} imports {other}; these stand side by side")
    return faults


def circle(files: Iterable[tuple[str, str]]) -> list[str]:
    """Return rooms that import each other in a circle; none if there is no circle."""
    leads: dict[str, set[str]] = {}
    for path, text in files:
        room = room_of(path)
        if room not in DOORS:
            others = {other for _, other in rooms_imported(path, text)} - {room}
            leads.setdefault(room, set()).update(others)
    while free := {room for room, others in leads.items() if not others & leads.keys()}:
        leads = {room: others for room, others in leads.items() if room not in free}
    return sorted(leads)


def home_faults(path: str, text: str) -> list[str]:
    """Return imports of libraries that have their home in another room."""
    room = room_of(path)
    return [
        f"{path}:{line}: {library} is imported only in {', '.join(sorted(HOMES[library]))}"
        for line, dotted in imported(path, text)
        if (library := dotted.split(".")[0]) in HOMES and room not in HOMES[library]
    ]


def models_faults(path: str, text: str) -> list[str]:
    """Return places outside the readers where a path into models/ is built."""
    if room_of(path) in READERS_OF_MODELS:
        return []
    tree = ast.parse(text)
    spoken = docstrings(tree)
    texts = (node for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return [
        f"{path}:{node.lineno}: only library and case open models/"
        for node in texts
        if isinstance(node.value, str)
        and node not in spoken
        and (node.value == "models" or node.value.startswith("models/"))
    ]
