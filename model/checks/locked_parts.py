"""The piece must go together: parts that lock each other cannot be closed one at a time."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from model.stages import Stage
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Groups from which no part, and no group of parts, comes off along a straight path."""
    if piece.clashes:
        return []  # told as `same-place`; what lies in each other has no way in
    return [_problem(piece, stage) for stage in piece.stages for stage in stage.every if _locked(stage)]


def _locked(stage: Stage) -> bool:
    """A stage that puts everything together at once, nothing with a way of its own."""
    return not stage.base and all(not move.path for move in stage.moves)


def _problem(piece: Piece, stage: Stage) -> Problem:
    names = stage.parts
    inside = [joint.number for joint in piece.joints if {joint.a, joint.b} <= set(names)]
    place = piece.design.joint_place(inside[-1]) if inside else piece.design.place("parts", piece.parts[names[-1]].kind)
    pair = len(names) == 2
    told = (
        f"{names[0]} and {names[1]} cannot be put together: nothing lets the one into the other"
        if pair
        else f"these {len(names)} cannot be closed one at a time: {', '.join(names)}"
    )
    return finding(
        "locked-parts",
        "error" if pair else "warning",
        told,
        place,
        "turn one joint so that it closes the same way as the others, open a mortise into a slot, or join one dry",
        names,
        "no straight way in",
        "a part, or a group, that goes in last along a straight line",
    )
