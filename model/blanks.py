"""Rough blanks: what is sawn from the board for each part, two tapered parts head to foot where that saves wood."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import numpy.typing as npt
from scipy.spatial import ConvexHull

from model.piece import Part
from plans.sides import AXIS_NUMBER
from plans.spec import Saw
from plans.units import System, UnitSystem

# rough sizes are rounded up to a step one saws to (common practice)
STEPS: dict[System, UnitSystem] = {
    "inch": UnitSystem("inch", Fraction(1, 4)),
    "mm": UnitSystem("mm", Fraction(5)),
}
WORTH = 6.0  # mm: a pair of blanks in one that saves less is not worth the care

Chain = npt.NDArray[np.float64]  # N x 2: along the grain and across it


@dataclass(frozen=True)
class Blank:
    """One rough size (mm) sawn from a board: `count` of them, each of which `gives` so many parts.

    `slant`: where two parts lie head to foot, by how much the cut between them runs across the blank, end to end.
    """

    length: float
    width: float
    count: int
    gives: int = 1
    slant: float = 0.0


def blanks(part: Part, quantity: int, length: float, width: float, saw: Saw, system: System) -> tuple[Blank, ...]:
    """Blanks for `quantity` parts alike, whose own blank is `length` x `width`: pairs first, then an odd one."""
    pair = None if quantity < 2 else _head_to_foot(part, saw.kerf)
    if pair is not None:
        across, slant = pair
        wide = STEPS[system].ceil(across + 2 * saw.edge_allowance)
        # by the taper itself, not only by one rounding up where there were two
        if across + WORTH <= 2 * part.over_all[1] + saw.kerf and wide + WORTH <= 2 * width + saw.kerf:
            pairs = Blank(length, wide, quantity // 2, 2, slant)
            return (pairs, Blank(length, width, 1)) if quantity % 2 else (pairs,)
    return (Blank(length, width, quantity),)


def _head_to_foot(part: Part, kerf: float) -> tuple[float, float] | None:
    """Width over all of two tapered parts side by side, one turned end for end, the saw cut between them; the slant.

    None where the part is not tapered. Both lie on their faces; the cut between them is straight, since the outline
    of the pair is taken as its convex hull.
    """
    if not any(f.operation is not None and f.operation.name == "taper" for f in part.features):
        return None
    points = np.asarray(part.own_mesh.corners).reshape(-1, 3)
    wide = AXIS_NUMBER[part.spec.wide]
    outline = points[:, [AXIS_NUMBER[part.spec.runs], wide]]
    hull = outline[ConvexHull(outline).vertices]
    widths = [_pair(side, kerf) for side in (hull, hull * (1.0, -1.0))]
    return min(widths)


def _pair(hull: Chain, kerf: float) -> tuple[float, float]:
    """With the upper edges of both parts towards each other."""
    start, end = float(hull[:, 0].min()), float(hull[:, 0].max())
    upper = _upper(hull)

    def high(along: Chain) -> Chain:
        return np.interp(along, upper[:, 0], upper[:, 1])

    places = np.concatenate([upper[:, 0], start + end - upper[:, 0]])
    across = float((high(places) + high(start + end - places)).max()) - 2 * float(hull[:, 1].min()) + kerf
    middle = np.array([(start + end) / 2])
    slope = (high(middle + 1.0) - high(middle - 1.0)) / 2.0
    return across, abs(float(slope[0])) * (end - start)


def _upper(hull: Chain) -> Chain:
    """The upper edge of a convex outline, from its first end to its last."""
    highest: dict[float, float] = {}
    for along, across in hull.round(6):  # float noise would set two corners of one end apart
        highest[along] = max(across, highest.get(along, across))
    chain: list[Chain] = []
    for point in (np.array(pair) for pair in sorted(highest.items())):
        while len(chain) > 1 and _turns_up(chain[-2], chain[-1], point):
            chain.pop()
        chain.append(point)
    return np.array(chain)


def _turns_up(a: Chain, b: Chain, c: Chain) -> bool:
    return bool((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) >= 0)
