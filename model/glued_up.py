"""The boards that a part is glued up from, as they come out of the finished part."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate, pairwise

from model.body import Body
from model.piece import Feature, Operation, Part


@dataclass(frozen=True)
class PartBoard:
    """One board of a part: its number from the left, front or bottom, and its size in the finished part (mm)."""

    number: int
    width: float
    thickness: float
    heart_up: bool | None  # None where the rings are all laid alike


def part_boards(part: Part) -> tuple[PartBoard, ...]:
    """The boards of a part; none where it is of one piece. The outer ones take what joints add to the edges."""
    made = part.spec.glued_up
    if made is None:
        return ()
    edge_to_edge = made.joined == "edge to edge"
    low, high = part.width if edge_to_edge else part.thickness
    stated = part.spec.width if edge_to_edge else part.spec.thickness
    # where it follows from what the part is cut to, what joints add to it cannot be told apart
    start, blank = (low, high - low) if stated is None else (-stated / 2, stated)
    lines = [start + line for line in accumulate(made.reach(blank)[:-1])]
    found = []
    for number, (start, end) in enumerate(pairwise([low, *lines, high]), start=1):
        size = end - start
        width, thickness = part.width[1] - part.width[0], part.thickness[1] - part.thickness[0]
        heart = number % 2 == 1 if made.rings == "alternating" else None
        found.append(PartBoard(number, size if edge_to_edge else width, thickness if edge_to_edge else size, heart))
    return tuple(found)


def glue_lines(part: Part) -> float:
    """Area (mm2) of the joints between the boards of a part."""
    boards = part_boards(part)
    across = part.spec.glued_up is not None and part.spec.glued_up.joined == "edge to edge"
    deep = part.thickness if across else part.width
    return max(0, len(boards) - 1) * (deep[1] - deep[0]) * (part.length[1] - part.length[0])


def glued_up_feature(body: Body) -> list[Feature]:
    """The work of gluing a part up; none where it is of one piece."""
    return [] if body.spec.glued_up is None else [Feature("glued up", "joint", operation=Operation("gluing up"))]
