"""What can be asked of a stance film, and within which limits."""

from dataclasses import dataclass

from simgait.errors import RangeError, require
from simgait.pictures.curves import PANELS, Panel

__all__ = ["CURVES", "LAYOUTS", "MOST_RUNS", "NARROW", "SLOWS", "TOGETHER", "WIDTHS", "FilmWish"]

LAYOUTS = ("side-by-side", "overlaid")
TOGETHER = ("hips", "ankles")
CURVES: dict[str, Panel] = dict(
    zip(("knee-moment", "socket-moment", "vertical-force", "pressure"), PANELS, strict=True)
)
WIDTHS = (480, 1600)  # [pixel] of a film
NARROW = 720  # [pixel] below this the curves stand under the limbs, and two limbs in a row
SLOWS = (1.0, 20.0)  # times slower than life
MOST_RUNS = {"side-by-side": 6, "overlaid": 3}  # more could not be told apart


@dataclass(frozen=True, kw_only=True)
class FilmWish:
    """A film as asked for.

    layout: one of LAYOUTS; together: one of TOGETHER, what overlaid limbs share; slow: how many
    times slower than life, None for what makes the film last some six seconds; curves: names in
    CURVES, in the order in which they stand; width: of the film [pixel].

    >>> FilmWish(layout="overlaid", together="hips", slow=8.0, curves=("knee-moment",),
    ...          width=960).slow
    8.0
    """

    layout: str
    together: str
    slow: float | None
    curves: tuple[str, ...]
    width: int

    def __post_init__(self) -> None:
        for value, allowed in (
            ((self.layout,), LAYOUTS),
            ((self.together,), TOGETHER),
            (self.curves, CURVES),
        ):
            for name in value:
                if name not in allowed:
                    raise RangeError(f"FilmWish: '{name}'; allowed: {', '.join(allowed)}")
        require(WIDTHS[0], self.width, WIDTHS[1], "FilmWish.width [pixel]")
        if self.slow is not None:
            require(SLOWS[0], self.slow, SLOWS[1], "FilmWish.slow")

    @property
    def panels(self) -> tuple[Panel, ...]:
        """The panels of curves that were asked for."""
        return tuple(CURVES[name] for name in self.curves)

    @property
    def overlaid(self) -> bool:
        """Whether the limbs are drawn over each other."""
        return self.layout == "overlaid"
