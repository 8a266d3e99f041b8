"""What the places of balloons cost together, one against all others at a time."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from publish.drawing.box import Box, Point, Segment
from publish.drawing.search import CLASH_COST
from publish.drawing.segments import Floats, cross, far_from, grown, meet, run_through, stacked

CLEAR = 1.2  # mm between balloons
NEAR_ANCHOR = 1.5  # mm from a leader to the spot another one ends on
NEAR_COST = 40.0


class BalloonCosts:
    """The candidates of every balloon, one list a balloon: their boxes, leaders and the spots these end on."""

    def __init__(self, candidates: Sequence[Sequence[tuple[Box, Segment, Point]]]):
        every = [one for some in candidates for one in some]
        self._start = np.concatenate([[0], np.cumsum([len(some) for some in candidates], dtype=np.int64)])
        self._box = grown(stacked([box for box, _, _ in every]), CLEAR / 2)
        self._leader = stacked([leader for _, leader, _ in every])
        self._anchor: Floats = np.array([anchor for _, _, anchor in every], dtype=np.float64).reshape(-1, 2).T

    def column(self, i: int, c: int) -> Floats:
        """What each candidate of all costs together with candidate `c` of balloon `i`; nothing those of `i` itself."""
        k = int(self._start[i]) + c
        box, leader, anchor = self._box[:, k, None], self._leader[:, k, None], self._anchor[:, k, None]
        clash = meet(self._box, box) | cross(self._leader, leader)
        clash |= run_through(self._leader, box) | run_through(leader, self._box)
        near = (far_from(anchor, self._leader) < NEAR_ANCHOR).astype(np.float64)
        near += far_from(self._anchor, leader) < NEAR_ANCHOR
        costs: Floats = CLASH_COST * clash + NEAR_COST * near
        costs[self._start[i] : self._start[i + 1]] = 0.0
        return costs
