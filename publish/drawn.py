"""Everything that is drawn once and shown in every edition: views and pictures do not depend on the unit system."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from model.kernel import placed
from model.piece import Piece
from model.steps import plan_of, works_of
from model.works import WORKS
from publish.drawing.arrange import PartViews
from publish.exploded_views import ExplodedView, exploded_views
from publish.joint_pictures import JointPicture, joint_pictures
from publish.part_views import DrawnPart, draw
from publish.pictures import Pictorial, cover, pictorial
from publish.project import view
from publish.section_views import SectionView, section_views
from publish.shade import Picture
from publish.stage_pictures import stage_picture
from publish.work_pictures import worked

Progress = Callable[[str], None]


@dataclass(frozen=True)
class Drawn:
    """Views of the parts by mark, and pictures of the piece whole, apart and stage by stage."""

    parts: dict[str, DrawnPart]
    overall: PartViews
    cover: Picture
    whole: Pictorial
    bare: Pictorial  # the whole without what is fitted last
    dry: Pictorial  # without any hardware
    levelled: Pictorial  # as it stands when its feet are levelled
    apart: tuple[ExplodedView, ...]  # the piece, then its sub-assemblies
    joints: tuple[JointPicture, ...]
    sections: tuple[SectionView, ...]
    stages: tuple[Pictorial, ...]
    worked: dict[tuple[str, str], Pictorial]  # by mark and kind of work: the part with what the work makes marked


def draw_all(piece: Piece, progress: Progress = lambda _: None) -> Drawn:
    """Make every view and picture of a piece."""
    parts = {}
    for item in piece.items:
        progress(f"drawing {item.name}")
        parts[item.mark] = draw(piece.parts[item.shown])
    progress("drawing the whole")
    names = tuple(piece.parts)
    links = _links(piece)
    whole = pictorial(piece, names, {})
    return Drawn(
        parts,
        _overall(piece),
        cover(piece),
        whole,
        pictorial(piece, names, {}, fitted="before the last") if any(f.last for f in piece.fixings) else whole,
        pictorial(piece, names, {}, fitted="none") if any(f.shown for f in piece.fixings) else whole,
        _levelled(piece) or whole,
        exploded_views(piece, links),
        joint_pictures(piece),
        section_views(piece),
        tuple(stage_picture(piece, stage, links) for stage in piece.stages),
        _worked(piece, parts),
    )


def _levelled(piece: Piece) -> Pictorial | None:
    """What stands when the feet are levelled; nothing where that is the whole piece, or is not done."""
    there: set[str] = set()
    for step in plan_of(piece).steps:
        if step.kind == "level":
            names = [name for name in piece.parts if name in there]
            return pictorial(piece, names, {}, fitted="before the last") if len(names) < len(piece.parts) else None
        here = set(step.stage.parts) if step.stage is not None else set()
        there = here if len(here) > len(there) else there
    return None


def _worked(piece: Piece, parts: dict[str, DrawnPart]) -> dict[tuple[str, str], Pictorial]:
    found = {}
    for item in piece.items:
        done = works_of(piece, item)
        for work in WORKS:
            if done & set(work.operations) and work.kind != "glue up":
                picture = parts[item.mark].picture
                found[item.mark, work.kind] = worked(piece.parts[item.shown], work.operations, picture)
    return found


def _overall(piece: Piece) -> PartViews:
    shapes = [placed(part.sharp, part.at) for part in piece.parts.values()]
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
