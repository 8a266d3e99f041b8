"""The order of cutting: from parts lying on a board to numbered cuts, each from edge to edge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from model.boards.pieces import Board, Cut, CutDirection, LaidBoard, Offcut, Placed, Rules
from model.boards.ticks import Box, Face, face_of, millimetres, ticks

AXIS: dict[CutDirection, int] = {"crosscut": 0, "rip": 1}
OTHER: dict[CutDirection, CutDirection] = {"crosscut": "rip", "rip": "crosscut"}


@dataclass(frozen=True)
class Rect:
    """A part on a face, in grown ticks."""

    mark: str
    box: Box
    turned: bool = False


Thing = tuple[Box, Rect | None]  # None: a defect


class NotEdgeToEdge(Exception):
    """The parts cannot be cut apart by cuts from edge to edge."""


@dataclass
class _Sawing:
    """The cuts and rests found so far. A cut is (stage, direction, at, piece on the saw), pieces not grown."""

    face: Face
    cuts: list[tuple[int, CutDirection, int, Box]] = field(default_factory=list)
    rests: list[tuple[Box, bool]] = field(default_factory=list)  # box, clear of defects

    def is_wood(self, box: Box) -> bool:
        """Whether anything is left of a piece once it is sawn; a board with no width is a length."""
        return box[0] < box[2] and (box[1] < box[3] or self.face.whole[3] == 0)

    def rest(self, box: Box, clear: bool) -> None:
        if self.is_wood(box):
            self.rests.append((box, clear))

    def ungrown(self, box: Box) -> Box:
        return (box[0], box[1], box[2] - self.face.kerf, box[3] - self.face.kerf)

    def stages(self) -> int:
        return max((cut[0] for cut in self.cuts), default=0)


def laid_board(board: Board, rects: Sequence[Rect], rules: Rules, first: Sequence[CutDirection]) -> LaidBoard:
    """A board with its parts, cuts and offcuts.

    `first`: the directions cutting may begin with, the liked one first; the one with fewest stages is taken.
    Raises NotEdgeToEdge if the parts cannot be sawn apart.
    """
    face = face_of(board, rules)
    things: list[Thing] = [*((rect.box, rect) for rect in rects), *((defect, None) for defect in face.defects)]
    best = min((_sawn(face, things, direction) for direction in first), key=_Sawing.stages)
    if best.stages() > rules.stages:  # what is cut out may have to come off the other way first
        best = min((_sawn(face, things, direction) for direction in AXIS), key=_Sawing.stages)
    placed = tuple(sorted((_placed(rect, face.kerf) for rect in rects), key=lambda p: (p.x, p.y, p.mark)))
    return LaidBoard(board, placed, _numbered(best), _offcuts(best, board, rules))


def _sawn(face: Face, things: list[Thing], first: CutDirection) -> _Sawing:
    """A board sawn apart, the first cuts after trimming in one direction."""
    sawing = _Sawing(face)
    _trim(sawing)
    _part(sawing, face.clear, things, first, 1)
    return sawing


def _trim(sawing: _Sawing) -> None:
    """Square the ends, then the edges."""
    kerf = sawing.face.kerf
    left, low, right, high = sawing.face.clear
    right, high = right - kerf, high - kerf
    x0, y0, x1, y1 = sawing.face.whole
    if left:
        sawing.cuts += [(0, "crosscut", left - kerf, (x0, y0, x1, y1)), (0, "crosscut", right, (left, y0, x1, y1))]
        sawing.rest((x0, y0, left - kerf, y1), False)
        sawing.rest((right + kerf, y0, x1, y1), False)
    if low:
        sawing.cuts += [(0, "rip", low - kerf, (left, y0, right, y1)), (0, "rip", high, (left, low, right, y1))]
        sawing.rest((left, y0, right, low - kerf), False)
        sawing.rest((left, high + kerf, right, y1), False)


def _part(sawing: _Sawing, region: Box, things: list[Thing], direction: CutDirection, stage: int) -> None:
    """Cut a region wherever a cut in `direction` meets no part, then its slices the other way."""
    if _finished(sawing, region, things):
        return
    slices = _slices(region, things, direction, sawing.face.kerf)
    if len(slices) > 1 or slices[0][1] < region[AXIS[direction] + 2]:
        _cut_slices(sawing, region, slices, direction, stage)
        stage += 1
    elif len(_slices(region, things, OTHER[direction], sawing.face.kerf)) == 1 and not _trims(sawing, region, things):
        if any(rect for _, rect in things):
            raise NotEdgeToEdge(region)
        sawing.rest(sawing.ungrown(region), False)
        return
    for start, end, inside in slices:
        if start < end:
            _part(sawing, _sliced(region, direction, start, end), inside, OTHER[direction], stage)


def _finished(sawing: _Sawing, region: Box, things: list[Thing]) -> bool:
    """Whether the region is a part, an offcut or waste already."""
    if not things:
        sawing.rest(sawing.ungrown(region), True)
    elif not any(rect for _, rect in things) and not sawing.is_wood(sawing.ungrown(region)):
        pass  # a defect as wide as the saw cut: it is sawdust, and nothing is left to saw
    elif len(things) == 1 and things[0][1] is None and _fills(things[0][0], region, sawing.face.kerf):
        sawing.rest(sawing.ungrown(region), False)
    else:
        return len(things) == 1 and things[0][0] == region
    return True


def _fills(defect: Box, region: Box, kerf: int) -> bool:
    """Whether nothing of the region lies clear of the defect."""
    low = all(defect[i] - region[i] <= kerf for i in (0, 1))
    return low and all(region[i] - defect[i] <= 0 for i in (2, 3))


def _trims(sawing: _Sawing, region: Box, things: list[Thing]) -> bool:
    """Whether the other direction has a sliver to cut off."""
    return any(
        _slices(region, things, direction, sawing.face.kerf)[0][1] < region[AXIS[direction] + 2] for direction in AXIS
    )


def _slices(region: Box, things: list[Thing], direction: CutDirection, kerf: int) -> list[tuple[int, int, list[Thing]]]:
    """The region in slices (start, end, things in it) that no thing reaches out of; grown, in order."""
    axis = AXIS[direction]
    start, last = region[axis], region[axis + 2]
    slices: list[tuple[int, int, list[Thing]]] = []
    for thing in sorted(things, key=lambda t: (t[0][axis], t[0][axis + 2])):
        low, high = thing[0][axis], thing[0][axis + 2]
        end = slices[-1][1] if slices else start
        if slices and low < end:
            slices[-1] = (slices[-1][0], max(end, high), [*slices[-1][2], thing])
        elif low - end > kerf:
            slices += [(end, low, []), (low, high, [thing])]
        else:  # the gap is no wider than the saw cut: it goes with the thing (a defect, as parts lie close)
            slices.append((end, high, [thing]))
    end = slices[-1][1] if slices else start
    if last - end > kerf:
        slices.append((end, last, []))
    return slices


def _cut_slices(
    sawing: _Sawing, region: Box, slices: list[tuple[int, int, list[Thing]]], direction: CutDirection, stage: int
) -> None:
    """A cut at the end of each slice that does not end where the region does."""
    axis = AXIS[direction]
    for start, end, _ in slices:
        if end < region[axis + 2]:
            on_saw = sawing.ungrown(_sliced(region, direction, start, region[axis + 2]))
            sawing.cuts.append((stage, direction, end - sawing.face.kerf, on_saw))


def _sliced(region: Box, direction: CutDirection, start: int, end: int) -> Box:
    x0, y0, x1, y1 = region
    return (start, y0, end, y1) if direction == "crosscut" else (x0, start, x1, end)


def _numbered(sawing: _Sawing) -> tuple[Cut, ...]:
    """Stage after stage, so that one setting of the saw serves them all; within a stage as found."""
    ordered = sorted(sawing.cuts, key=lambda cut: cut[0])
    return tuple(
        Cut(number, direction, millimetres(at), *_extent(piece), stage)
        for number, (stage, direction, at, piece) in enumerate(ordered, 1)
    )


def _offcuts(sawing: _Sawing, board: Board, rules: Rules) -> tuple[Offcut, ...]:
    least_length = ticks(rules.least_offcut_length)
    least_width = min(ticks(rules.least_offcut_width), ticks(board.width))
    return tuple(
        Offcut(*_extent(box), clear and box[2] - box[0] >= least_length and box[3] - box[1] >= least_width)
        for box, clear in sorted(sawing.rests)
    )


def _placed(rect: Rect, kerf: int) -> Placed:
    x0, y0, x1, y1 = rect.box
    return Placed(rect.mark, *_extent((x0, y0, x1 - kerf, y1 - kerf)), rect.turned)


def _extent(box: Box) -> tuple[float, float, float, float]:
    x0, y0, x1, y1 = box
    return millimetres(x0), millimetres(y0), millimetres(x1 - x0), millimetres(y1 - y0)
