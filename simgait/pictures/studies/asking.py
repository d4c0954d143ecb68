"""What is asked of tables before they are drawn."""

from collections.abc import Sequence

import pandas as pd

__all__ = ["require_rows"]


def require_rows(table: pd.DataFrame, columns: Sequence[str], what: str) -> None:
    """Refuse a table that lacks rows or columns.

    what: what the table should hold, for the message.

    Raises
    ------
    ValueError : there are no rows, or a column is missing.

    >>> require_rows(pd.DataFrame({"a": []}), ["a"], "cells")
    Traceback (most recent call last):
    ValueError: no cells to draw: the table is empty
    """
    if not len(table):
        raise ValueError(f"no {what} to draw: the table is empty")
    missing = [name for name in columns if name not in table.columns]
    if missing:
        raise ValueError(
            f"the table of {what} has no column {', '.join(missing)}; "
            f"it has: {', '.join(map(str, table.columns[:20]))}"
        )
