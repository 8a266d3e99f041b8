"""The scales a drawing may have, and choosing one.

1:2, 1:5, 1:10, 1:20 and 2:1 are ISO 5455's; 1:2.5, 1:3, 1:4, 1:6, 1:8, 1:12 and 1:15 are common in furniture drawing,
and keep a leg or a mortise at a size that can be read (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Scale:
    """`paper` mm on the sheet for `real` mm of the piece."""

    paper: float
    real: float

    @property
    def factor(self) -> float:
        """Paper mm for one mm of the piece."""
        return self.paper / self.real

    @property
    def name(self) -> str:
        """As a title block says it: "1 : 2.5"."""
        return f"{self.paper:g} : {self.real:g}"


STANDARD: tuple[Scale, ...] = (
    Scale(2, 1),
    *(Scale(1, real) for real in (1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20)),
)
"""Largest first."""


def scales_that_fit(
    width: float, height: float, room: tuple[float, float], margin: tuple[float, float] = (0.0, 0.0)
) -> Iterator[Scale]:
    """The standard scales, largest first, at which `width` x `height` mm of the piece, with `margin` mm of paper beside
    and above it in all, goes into `room` (width, height in paper mm).
    """
    for scale in STANDARD:
        wide, high = width * scale.factor + margin[0], height * scale.factor + margin[1]
        if wide <= room[0] + 1e-9 and high <= room[1] + 1e-9:
            yield scale


def largest_that_fits(
    width: float, height: float, room: tuple[float, float], margin: tuple[float, float] = (0.0, 0.0)
) -> Scale | None:
    """The first of `scales_that_fit`; None when even the smallest is too large."""
    return next(scales_that_fit(width, height, room, margin), None)
