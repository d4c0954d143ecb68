"""Writing a file so that nobody ever meets half of it."""

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["write_whole"]


@contextmanager
def write_whole(path: str | os.PathLike[str]) -> Iterator[Path]:
    """Yield a temporary path beside `path`; it takes the final name only if the block succeeds.

    The temporary name keeps the suffix of `path`, so that writers which choose a format by
    suffix choose the right one. If the block raises, the temporary file is removed, an older
    file at `path` stays as it was, and the exception goes on.

    Parameters
    ----------
    path : final name of the file [-]; its folder must exist.

    Raises
    ------
    OSError : the folder cannot be written or the final name cannot be taken.

    Example
    -------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     with write_whole(Path(folder) / "note.txt") as partial:
    ...         _ = partial.write_text("whole")
    ...     (Path(folder) / "note.txt").read_text()
    'whole'
    """
    final = Path(path)
    partial = final.with_name(f".{final.stem}.{secrets.token_hex(4)}.part{final.suffix}")
    try:
        yield partial
        os.replace(partial, final)
    finally:
        partial.unlink(missing_ok=True)
