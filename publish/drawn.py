"""Everything that is drawn once and shown in every edition: views and pictures do not depend on the unit system."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from model.piece import Piece
from model.stages import Stage
from publish.drawing.arrange import PartViews
from publish.explode import exploded
from publish.part_views import DrawnPart, draw
from publish.pictures import Pictorial, cover, pictorial
from publish.project import view
from publish.shade import Picture
from publish.stage_pictures import stage_picture

Progress = Callable[[str], None]


@dataclass(frozen=True)
class Drawn:
    """Views of the parts by mark, and pictures of the piece whole, apart and stage by stage."""

    parts: dict[str, DrawnPart]
    overall: PartViews
    cover: Picture
    whole: Pictorial
    bare: Pictorial  # the whole without what is fitted last
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
        pictorial(piece, names, {}, finished=False)
        if any(f.last for f in piece.fixings)
        else pictorial(piece, names, {}),
        pictorial(piece, names, exploded(piece, stages), links=links),
        tuple(stage_picture(piece, stage, links) for stage in stages),
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
