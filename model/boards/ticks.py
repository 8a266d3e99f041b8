"""Lengths as whole numbers, so that sums are exact: a tick is a nanometre, and 1/64 in is 396 875 of them."""

from __future__ import annotations

from dataclasses import dataclass

from model.boards.pieces import Board, Rules

TICKS_IN_MM = 1_000_000

Box = tuple[int, int, int, int]  # x0, y0, x1, y1


def ticks(mm: float) -> int:
    """Whole ticks nearest to a length in mm."""
    return round(mm * TICKS_IN_MM)


def millimetres(length: int) -> float:
    """A length in ticks as mm."""
    return length / TICKS_IN_MM


@dataclass(frozen=True)
class Face:
    """A board's face in ticks. Every extent is *grown*: one kerf is added at its far end.

    A part of w on a board of W with kerf k packs exactly as w + k on W + k without one, so all packing is
    done on grown sizes. `clear` is the board inside its trims, `defects` what must not come into a part.
    """

    kerf: int
    whole: Box  # not grown
    clear: Box
    defects: tuple[Box, ...]


def face_of(board: Board, rules: Rules) -> Face:
    """The face of a board. A trim narrower than the saw cut takes the saw cut."""
    kerf = ticks(rules.kerf)
    length, width = ticks(board.length), ticks(board.width)
    end = max(ticks(rules.end_trim), kerf) if rules.end_trim else 0
    edge = max(ticks(rules.edge_trim), kerf) if rules.edge_trim and width else 0
    clear = (end, edge, max(length - end, end) + kerf, max(width - edge, edge) + kerf)
    found = [_defect(defect, kerf, width, clear) for defect in board.defects]
    return Face(kerf, (0, 0, length, width), clear, tuple(sorted(box for box in found if box)))


def _defect(defect: tuple[float, ...], kerf: int, width: int, clear: Box) -> Box | None:
    """A defect in grown ticks: the saw cut before it and the one after it may both lie inside it."""
    if len(defect) == 2:
        x0, y0, x1, y1 = ticks(defect[0]), clear[1] - kerf, ticks(defect[1]), width + 2 * kerf
    else:
        x0, y0, x1, y1 = (ticks(value) for value in defect)
    low = (max(x0 + kerf, clear[0]), max(y0 + kerf, clear[1]))
    # wide enough for two saw cuts, so that both can be made whatever the defect
    least = max(kerf, 1)
    high = (min(max(x1, low[0] + least), clear[2]), min(max(y1, low[1] + least), clear[3]))
    # up to the end of the clear board if no part has room behind it
    x1, y1 = (clear[i + 2] if clear[i + 2] - high[i] <= kerf else high[i] for i in (0, 1))
    return (low[0], low[1], x1, y1) if low[0] < x1 and low[1] < y1 else None
