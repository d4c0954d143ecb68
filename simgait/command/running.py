"""What all verbs share: refusals as messages, JSON, output folders."""

from __future__ import annotations

import json
import math
import os
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from simgait.errors import CaseError, Fault, SimgaitError, one_line

REFUSED = 2  # exit code of everything refused at the door


class Verbs(click.Group):
    """A group whose refusals are messages with exit code 2, never a traceback."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the verb; turn what simgait refuses into lines on standard error."""
        try:
            return super().invoke(ctx)
        except SimgaitError as refusal:
            for line in str(refusal).splitlines():
                click.echo(one_line(line), err=True)
        except BrokenPipeError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        ctx.exit(REFUSED)


def plain(value: Any) -> Any:
    """Return a value as JSON can say it: NaN and infinities as null, tuples as lists.

    >>> plain({"a": (1.0, float("nan"))})
    {'a': [1.0, None]}
    """
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, Mapping):
        return {str(key): plain(part) for key, part in value.items()}
    if isinstance(value, tuple | list):
        return [plain(part) for part in value]
    return value


def print_json(value: Mapping[str, Any]) -> None:
    """Print one JSON object on standard output."""
    click.echo(json.dumps(plain(value), ensure_ascii=False, allow_nan=False))


def ready_folder(path: str) -> Path:
    """Return an output folder, made if need be, once a file could be written in it.

    Raises:
        CaseError: it cannot be made or written.
    """
    folder = Path(path)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return folder
    except OSError as trouble:
        raise CaseError(
            [
                Fault(
                    file="--out",
                    field="",
                    value="",
                    allowed="a folder that can be written",
                    nearest=None,
                    problem=f"{one_line(path)} cannot be written: {trouble.strerror}",
                )
            ]
        ) from trouble


def overrides_of(settings: tuple[str, ...]) -> dict[str, str]:
    """Return ``--set KEY=VALUE`` settings as a mapping.

    Raises:
        CaseError: one has no key or no =; all such are named at once.
    """
    faults, found = [], {}
    for setting in settings:
        key, sign, value = setting.partition("=")
        if not sign or not key.strip():
            faults.append(
                Fault(
                    file="--set",
                    field="",
                    value=one_line(repr(setting)),
                    allowed="KEY=VALUE, such as alignment.foot_forward_mm=10",
                    nearest=None,
                    problem="is not KEY=VALUE",
                )
            )
        found[key.strip()] = value.strip()
    if faults:
        raise CaseError(faults)
    return found
