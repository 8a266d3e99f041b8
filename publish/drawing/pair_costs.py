"""What every place on a sheet costs together with one of them: overlaps, which may not be, and what is unsightly.

All the candidates of all the wishes are stacked in arrays once; a column is one candidate against all the others.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from publish.drawing.placement import Placement
from publish.drawing.segments import Ints, shortened, stacked

_NESTING_COST = 300.0
_DIMENSION_CROSSED = 40.0
_EXTENSION_ON_DIMENSION = 8.0
_EXTENSIONS_CROSS = 1.0
_LEADER_ON_DIMENSION = 30.0
_LEADER_ON_EXTENSION = 10.0
_SPLIT_GROUP = 18.0
_BROKEN_CHAIN = 10.0

_STROKE, _DIMENSION, _EXTENSION, _LEADER = range(4)
_CROSSED = np.zeros((4, 4))
"""What two lines cost that cross in the open, by what they are."""
for _one, _other, _cost in (
    (_EXTENSION, _DIMENSION, _EXTENSION_ON_DIMENSION),
    (_LEADER, _DIMENSION, _LEADER_ON_DIMENSION),
    (_LEADER, _EXTENSION, _LEADER_ON_EXTENSION),
    (_EXTENSION, _EXTENSION, _EXTENSIONS_CROSS),
):
    _CROSSED[_one, _other] = _CROSSED[_other, _one] = _cost


class _Lines:
    """The lines of all candidates, each candidate's next to each other; dimension lines as a whole besides their parts.

    at: 4 x m; kind and owner (the candidate's number): m; first: where each candidate's lines start, and the end.
    """

    def __init__(self, placements: Sequence[Placement]):
        self.kind: Ints = np.array(
            [
                kind
                for p in placements
                for kind, lines in enumerate((p.strokes, _whole(p), p.extensions, p.leader))
                for _ in lines
            ],
            dtype=np.int64,
        )
        every = [s for p in placements for s in (*p.strokes, *_whole(p), *p.extensions, *p.leader)]
        self.at = stacked(every)
        self.count: Ints = np.array(
            [len(p.strokes) + len(_whole(p)) + len(p.extensions) + len(p.leader) for p in placements], dtype=np.int64
        )
        self.owner: Ints = np.repeat(np.arange(len(placements)), self.count)
        self.first: Ints = np.concatenate([[0], np.cumsum(self.count)])
        self.shorter = shortened(self.at)


def _whole(p: Placement) -> tuple[Segment, ...]:
    return () if p.dimension is None else (p.dimension,)
