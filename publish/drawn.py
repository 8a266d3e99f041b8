"""Everything that is drawn once and shown in every edition: views and pictures do not depend on the unit system."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from model.piece import Piece
from model.sequence import Stage
from publish.drawing.arrange import PartViews
from publish.explode import exploded, shifts_of_stage
from publish.part_views import DrawnPart, draw
from publish.pictures import Pictorial, cover, pictorial
from publish.project import view
from publish.shade import Picture

Progress = Callable[[str], None]


@dataclass(frozen=True)
class Drawn:
    """Views of the parts by mark, and pictures of the piece whole, apart and stage by stage."""

    parts: dict[str, DrawnPart]
    overall: PartViews
    cover: Picture
    whole: Pictorial
    apart: Pictorial
    stages: tuple[Pictorial, ...]


def draw_all(piece: Piece, stages: tuple[Stage, ...], progress: Progress = lambda _: None) -> Drawn:
    """Make every view and picture of a piece."""
    parts = {}
    for item in piece.items:
        progress(f"drawing {item.name}")
        parts[item.mark] = draw(piece.parts[item.shown])
    progress("drawing the whole")
    names = tuple(piece.parts)
    links = _links(piece)
    return Drawn(
        parts,
        _overall(piece),
        cover(piece),
        pictorial(piece, names, {}),
        pictorial(piece, names, exploded(piece, stages), links=links),
        tuple(_stage(piece, stage, links) for stage in stages),
    )


def _overall(piece: Piece) -> PartViews:
    shapes = [part.sharp.moved(part.at) for part in piece.parts.values()]
    return PartViews(
        face=view(shapes, (0, -1, 0), (1, 0, 0)),
        edge=view(shapes, (0, 0, 1), (1, 0, 0)),
        end=view(shapes, (1, 0, 0), (0, 1, 0)),
        edge_from="above",
        end_from="right",
    )


def _links(piece: Piece) -> list[tuple[str, str, tuple[float, float, float]]]:
    joints = [(joint.a, joint.b, joint.point) for joint in piece.joints]
    return joints + [(f.through, f.into, f.points[len(f.points) // 2]) for f in piece.fixings]


def _stage(piece: Piece, stage: Stage, links: list[tuple[str, str, tuple[float, float, float]]]) -> Pictorial:
    """What is there stays quiet; what is added is tinted. Loose parts joined for the first time are all new."""
    moved = {name for move in stage.moves for name in move.parts}
    new = moved if _stands(piece, stage) else set(stage.parts)
    here = set(stage.parts)
    shown = [link for link in links if link[0] in here and link[1] in here]
    quiet = frozenset(here - new)
    shifts = shifts_of_stage(piece, stage)
    return pictorial(piece, stage.parts, shifts, quiet, links=shown, finished=False)


def _stands(piece: Piece, stage: Stage) -> bool:
    """Whether the base was put together in an earlier stage (one part alone, or a heap, was not)."""
    base = set(stage.base)
    pairs = [{j.a, j.b} for j in piece.joints] + [{f.through, f.into} for f in piece.fixings]
    linked = {name for pair in pairs if pair <= base and len(pair) > 1 for name in pair}
    return len(base) > 1 and linked == base
