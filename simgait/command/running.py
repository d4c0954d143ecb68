"""What all verbs share: refusals as messages, JSON, output folders."""

from __future__ import annotations

import json
import math
import os
import sys
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from simgait.errors import CaseError, Fault, SimgaitError, one_line

REFUSED = 2  # exit code of everything refused at the door
INTERRUPTED = 130  # exit code when the person stops the run, as shells count it


class Verbs(click.Group):
    """A group whose refusals are messages with exit code 2, never a traceback.

    A run that the person stops (ctrl-C) ends without a word and with exit code 130.
    """

    def invoke(self, ctx: click.Context) -> Any:
        """Run the verb; turn what simgait refuses into lines on standard error."""
        try:
            return super().invoke(ctx)
        except SimgaitError as refusal:
            for line in str(refusal).splitlines():
                click.echo(one_line(line), err=True)
        except KeyboardInterrupt:
            ctx.exit(INTERRUPTED)
        except BrokenPipeError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        except OSError as trouble:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            click.echo(f"cannot write the answer: {trouble.strerror}", err=True)
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
    with refused_if_unwritable(path):
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            pass
    return folder


def refused_option(
    option: str, value: str, problem: str, allowed: str, nearest: str | None = None
) -> CaseError:
    """Return the refusal of an option's value."""
    return CaseError(
        [
            Fault(
                file=option,
                field="",
                value=one_line(value),
                allowed=allowed,
                nearest=nearest,
                problem=problem,
            )
        ]
    )


@contextmanager
def refused_if_unwritable(path: str | Path) -> Iterator[None]:
    """Turn trouble with the file system into a refusal that names `path`.

    Raises:
        CaseError: the block could not make or write what it wanted.
    """
    try:
        yield
    except OSError as trouble:
        fault = Fault(
            file="--out",
            field="",
            value="",
            allowed="a place that can be written",
            nearest=None,
            problem=f"{one_line(str(path))} cannot be written: {trouble.strerror or trouble}",
        )
        raise CaseError([fault]) from trouble


def overrides_of(settings: tuple[str, ...]) -> tuple[dict[str, str], list[Fault]]:
    """Return ``--set KEY=VALUE`` settings as a mapping, and the faults of those that are none.

    >>> overrides_of(("alignment.foot_forward_mm=10",))
    ({'alignment.foot_forward_mm': '10'}, [])
    """
    faults, found = [], {}
    for setting in settings:
        key, sign, value = setting.partition("=")
        if sign and key.strip():
            found[key.strip()] = value.strip()
            continue
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
    return found, faults
