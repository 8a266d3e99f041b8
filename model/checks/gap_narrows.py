"""What opens must keep clear on its way of what it is clear of when it is shut."""

from __future__ import annotations

from model.checks.finding import at_least, finding, how_far, said
from model.meshes import Mesh
from model.opening import Opened, opening
from model.overlap import overlap_volume
from model.piece import AssemblyMade, Piece
from plans.problems import Problem

CLEAR = 0.8  # mm: 1/32 in, the least a door or drawer is fitted with (common practice)
NOISE = 0.05  # mm
ALLOWED = 0.5  # mm3: what runs into something is told by `blocked-opening`

Pair = tuple[str, str]


def check(piece: Piece) -> list[Problem]:
    """Of every assembly that opens, the place where a gap is least, where it is less than it may be and than shut."""
    found = []
    for made in piece.assemblies:
        states = tuple(opening(piece, made))
        if states:
            found += _judged(piece, made, states)
    return found


def _judged(piece: Piece, made: AssemblyMade, states: tuple[Opened, ...]) -> list[Problem]:
    movers = {name: piece.parts[name].mesh for name in made.parts}
    still = {name: part.mesh for name, part in piece.parts.items() if name not in movers}
    # what touches when shut bears or slides there, and may go on doing so
    wanted = {pair: shut for pair, shut in _gaps(movers, still).items() if shut > NOISE}
    worst: tuple[float, Opened, Pair] | None = None
    for state in states:
        moved = state.meshes()
        for pair, gap in _gaps(moved, still).items():
            less = pair in wanted and gap < wanted[pair] - NOISE and (worst is None or gap < worst[0])
            if less and overlap_volume(moved[pair[0]], still[pair[1]]) <= ALLOWED:
                worst = (gap, state, pair)
    return [] if worst is None else [_problem(piece, *worst)]


def _gaps(movers: dict[str, Mesh], still: dict[str, Mesh]) -> dict[Pair, float]:
    """How far apart every two are (mm), `CLEAR` where it is more."""
    return {
        (mover, name): float(mesh.manifold.min_gap(other.manifold, CLEAR))
        for mover, mesh in movers.items()
        for name, other in still.items()
    }


def _problem(piece: Piece, gap: float, state: Opened, pair: Pair) -> Problem:
    made = state.assembly
    return finding(
        "gap-narrows",
        "warning",
        f"{made.name}, {how_far(piece, state)}, all but scrapes {pair[1]} with {pair[0]}",
        piece.design.place("assemblies", made.kind, "opens"),
        "leave a wider gap there, ease the corner that comes near, or move the line it turns about",
        pair,
        f"{said(piece, gap)} apart",
        f"{at_least(piece, CLEAR)} all the way, or what there is when it is shut",
    )
