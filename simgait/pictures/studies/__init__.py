"""Pictures of studies: tables and indices that are ready become ink; nothing is computed.

Every picture carries the study's title, its runs, seed and endings, the model's version and the
cautions.  `study` is what `simgait.studies.report.stock_of` tells of a folder.

A heat map needs cells (`simgait.studies.cells.cells_of`), a front the rows of
`simgait.studies.front.trade_off`, a tornado the indices of `simgait.studies.sensitivity`, and the
differences those of `simgait.studies.differences.paired_differences`.
"""

from simgait.pictures.studies.changes import draw_differences
from simgait.pictures.studies.front import draw_front
from simgait.pictures.studies.heat import draw_heat_map, draw_small_multiples
from simgait.pictures.studies.tornado import draw_screening, draw_tornado

__all__ = [
    "draw_differences",
    "draw_front",
    "draw_heat_map",
    "draw_screening",
    "draw_small_multiples",
    "draw_tornado",
]
