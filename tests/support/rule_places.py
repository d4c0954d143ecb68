"""Places that belong to one machine, or to where packages come from."""

import re

# Written in pieces, so that this file does not hold what it looks for.
FOLDERS = ("work", "home", "root", "Users", "tmp", "opt", "mnt", "srv", "workspace", "var/tmp")
HOSTS = (
    "pypi" + ".org",
    "python" + "hosted",
    "npm" + "js",
    "conda" + "-forge",
    "anaconda" + ".org",
)
OPTIONS = ("index" + "-url", "find" + "-links", "trusted" + "-host")

PATTERNS: dict[str, re.Pattern[str]] = {
    "a path of one machine": re.compile(r"(?<![\w.:/~*-])/(?:" + "|".join(FOLDERS) + r")/[\w.$]"),
    "a path of one machine (drive)": re.compile(r"(?<!\w)[A-Z]:\\+[A-Z]\w"),
    "a package registry": re.compile("|".join(map(re.escape, (*HOSTS, *OPTIONS)))),
    "an address": re.compile(
        r"(?<![\d.])(?:10|192\.168|172\.(?:1[6-9]|2\d|3[01]))(?:\.\d{1,3}){2,3}(?::\d+|/)"
    ),
    "a file address": re.compile("file" + r":/{2,3}\w"),
}


def place_faults(path: str, content: bytes) -> list[str]:
    """Return the lines of a text file that name such a place; none for a binary file."""
    if b"\0" in content[:8192]:
        return []
    lines = content.decode("utf-8", errors="replace").splitlines()
    return [
        f"{path}:{number}: {what}: {found.group(0)!r}"
        for number, line in enumerate(lines, start=1)
        for what, pattern in PATTERNS.items()
        if (found := pattern.search(line))
    ]
