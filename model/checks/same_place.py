"""Nothing may occupy the same place as anything else."""

from __future__ import annotations

from model.checks.finding import said
from model.kernel import placed
from model.meshes import Floats
from model.overlap import common_volume, flat_there
from model.piece import CLASH, Part, Piece
from plans.problems import Place, Problem


def check(piece: Piece) -> list[Problem]:
    """Pairs of parts that share a volume, the fast test first and the exact one where curves come into it."""
    found = []
    for (one, other), both in piece.clashes.items():
        a, b = piece.parts[one], piece.parts[other]
        exact = flat_there(a.mesh, b.mesh, both.box)
        volume = both.volume if exact else common_volume(placed(a.sharp, a.at), placed(b.sharp, b.at))
        if volume > CLASH:
            found.append(_problem(piece, a, b, volume, both.box))
    return found


def _problem(piece: Piece, a: Part, b: Part, volume: float, box: Floats) -> Problem:
    return Problem(
        "same-place",
        "error",
        f"{a.name} and {b.name} are in the same place, {_where(piece, box)}",
        _place(piece, a, b),
        "move one of them, cut one to the other, or say the joint between them",
        (a.name, b.name),
        f"{volume:.0f} mm3 shared",
        "nothing shared",
    )


def _where(piece: Piece, box: Floats) -> str:
    """The middle of what they share, as one would measure it in the piece."""
    x, y, z = (float(middle) for middle in box.mean(axis=0))
    words = [f"{said(piece, z)} above the floor"]
    for value, lower, upper in ((x, "left", "right"), (y, "front", "back")):
        if abs(value) >= 1.0:
            side = "towards the " + (lower if value < 0 else upper)
            words.append(f"{said(piece, abs(value))} from the centre {side}")
    return ", ".join(words)


def _place(piece: Piece, a: Part, b: Part) -> Place:
    """The joint that joins them, if there is one; else where the second one is placed."""
    for joint in piece.joints:
        if {joint.a, joint.b} == {a.name, b.name}:
            return piece.design.joint_place(joint.number)
    return piece.design.place("parts", b.kind, "where")
