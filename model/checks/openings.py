"""What opens must not run into anything, neither on its way nor when it is open."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq

from model.checks.finding import how_far
from model.frames import location
from model.kernel import placed
from model.meshes import Mesh
from model.opening import Opened, opening, turns_about
from model.overlap import common_volume, overlap_volume
from model.piece import AssemblyMade, Piece
from plans.problems import Problem

ALLOWED = 0.5  # mm3, as between parts that stand still


@dataclass(frozen=True)
class _Thing:
    """A part, or a piece of hardware, where it is."""

    name: str
    part: str
    mesh: Mesh
    solid: cq.Shape


def check(piece: Piece) -> list[Problem]:
    """The worst clash of every assembly that opens: with parts outside of it, and with what is fitted to those."""
    found = []
    for made in piece.assemblies:
        opens = piece.design.spec.assemblies[made.kind].opens
        if opens is not None and opens.angle is not None and turns_about(piece, made, opens) is None:
            found.append(_unhung(piece, made))
        if opens is None:
            continue
        inside = set(made.parts)
        movers, still = _things(piece, inside), _things(piece, set(piece.parts) - inside)
        worst: tuple[float, Opened, _Thing, _Thing] | None = None
        for state in opening(piece, made):
            for volume, mover, other in _clashes(state, movers, still):
                if worst is None or volume > worst[0]:
                    worst = (volume, state, mover, other)
        if worst is not None:
            found.append(_problem(piece, *worst))
    return found


def _things(piece: Piece, names: set[str]) -> list[_Thing]:
    """Some parts, shut, and what is fitted to no other; what joins them to the rest, as a hinge does, is left out."""
    parts = [part for name, part in piece.parts.items() if name in names]
    fitted = [fixing for fixing in piece.fixings if {fixing.through, fixing.into} <= names]
    return [_Thing(part.name, part.name, part.mesh, placed(part.sharp, part.at)) for part in parts] + [
        _Thing(f"the {fixing.kind} on {fixing.through}", fixing.through, mesh, solid)
        for fixing in fitted
        for solid, mesh in zip(fixing.solids(), fixing.meshes(), strict=True)
    ]


def _clashes(state: Opened, movers: list[_Thing], still: list[_Thing]) -> list[tuple[float, _Thing, _Thing]]:
    """Volume (mm3) that moved and unmoved things share; the fast test first, then the exact one."""
    place = location(state.motion)
    moved = [(mover, mover.mesh.moved(state.motion)) for mover in movers]
    met = [(a, b) for a, mesh in moved for b in still if overlap_volume(mesh, b.mesh) > ALLOWED]
    exact = [(common_volume(placed(a.solid, place), b.solid), a, b) for a, b in met]
    return [clash for clash in exact if clash[0] > ALLOWED]


def _unhung(piece: Piece, made: AssemblyMade) -> Problem:
    return Problem(
        "blocked-opening",
        "error",
        f"{made.name} swings, and hangs on no hinge",
        piece.design.place("assemblies", made.kind, "opens"),
        "see that it meets what its hinges go on, or say in `about` what it turns about",
        made.parts,
    )


def _problem(piece: Piece, volume: float, state: Opened, mover: _Thing, other: _Thing) -> Problem:
    made = state.assembly
    return Problem(
        "blocked-opening",
        "error",
        f"{made.name}, {how_far(piece, state)}, has {mover.name} in the same place as {other.name}",
        piece.design.place("assemblies", made.kind, "opens"),
        "leave a wider gap, move what is in the way, or open it less far",
        (mover.part, other.part),
        f"{volume:.0f} mm3 shared",
        "nothing shared",
    )
