"""Pictorial views: lines over a flat tint, with guide lines where parts are drawn apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

import numpy as np

from model.cache import kept
from model.frames import Matrix, Vector, axis_vector, inverse, location, matrix_of, placing
from model.kernel import placed
from model.loose_bodies import LooseSolid, loose_solids
from model.meshes import mesh_of
from model.piece import Part, Piece
from model.set_ups import Setting
from publish.cover import cover_picture
from publish.drawing.box import Box, Point
from publish.drawing.placed import PlacedView
from publish.drawing.records import Circle, Line, Record, image_from_array, polyline
from publish.drawing.style import BLACK, HOUSE, WHITE, Colour, HouseStyle
from publish.drawing.view import View, axes_of
from publish.explode import moved_mesh
from publish.looks import METAL, PLAIN_WOOD, look_of, plain, tint_of
from publish.project import view
from publish.shade import Picture, scene_box, tint

if TYPE_CHECKING:
    import cadquery as cq

# from the viewer's right front, a little above: three sides seen, the front most
TOWARDS = (0.52, -1.0, 0.62)
RIGHT = (1.0, 0.52, 0.0)
PIXELS = 1300  # along the longer side of a picture
SMALL_PIXELS = 500  # of a single part
COVER_PIXELS = 900  # across the piece on the cover
ARROW_HEAD, ARROW_SHAFT, ARROW_WING = 3.0, 1.3, 3.2  # mm on paper
RINGED, RING = 2.5, 1.6  # mm on paper: cuts smaller than this get a ring of that radius
OPEN = 1.0  # mm: a joint drawn further open shows what is loose in it
SET_IN = {"dowel", "biscuit", "loose tenon", "spline"}  # before the joint is closed; the others are driven after it
QUIET: Colour = (0.93, 0.93, 0.925)


Fitted = Literal["all", "before the last", "none"]
Arrow = tuple[Point, Point]  # from, to: view mm
Spot = tuple[Point, float]  # where in the view, and how large, mm


@dataclass(frozen=True)
class Cut:
    """A cut that a picture marks: a point on it, the settings it is made with, and whether it is seen from here."""

    at: Point
    settings: tuple[Setting, ...]
    seen: bool = True


@dataclass(frozen=True)
class Pictorial:
    """A picture of some parts: their lines, the tint under them, and guide lines in view mm."""

    lines: View
    tint: Picture
    names: tuple[str, ...]  # in the order of the tint's part numbers; fittings have the numbers after them
    guides: tuple[tuple[Point, Point], ...] = ()
    arrows: tuple[Arrow, ...] = ()  # the ways in
    clamps: tuple[Arrow, ...] = ()
    said: str = ""  # of the pose
    hatched: bool = False  # glue faces are seen
    shifts: Mapping[str, Vector] = field(default_factory=dict)  # how far each part is from its place, mm
    spots: tuple[Spot, ...] = ()  # cuts, that those too small to be made out may be ringed
    cuts: tuple[Cut, ...] = ()  # what is marked, those of one setting together

    @property
    def box(self) -> Box:
        """What the picture covers, its arrows too, view mm."""
        own = self.tint.box
        points = [point for arrow in (*self.arrows, *self.clamps) for point in arrow]
        x, y = [own.left, own.right, *(x for x, _ in points)], [own.bottom, own.top, *(y for _, y in points)]
        return Box(min(x), min(y), max(x), max(y))


def cover(piece: Piece) -> Picture:
    """The finished piece in its wood, as a buyer first sees it."""
    parts = list(piece.parts.values())
    fittings = [mesh_of(solid) for solid in _fittings(piece, list(piece.parts), {})]
    meshes = [part.eased_mesh for part in parts] + fittings
    frames = [_along_the_grain(part) for part in parts] + [np.eye(4)] * len(fittings)
    tints = [tint_of(p.spec) for p in parts] + [METAL] * len(fittings)
    looks = [look_of(part.spec) for part in parts] + [plain] * len(fittings)
    width = scene_box(meshes, axes_of(TOWARDS, RIGHT)).width
    return kept(
        "cover",
        lambda: (
            meshes,
            tints,
            frames,
            [(p.spec.made_of, p.spec.material is None, p.spec.sheet is None) for p in parts],
        ),
        lambda: cover_picture(meshes, tints, frames, looks, TOWARDS, RIGHT, COVER_PIXELS / width),
    )


def _along_the_grain(part: Part) -> Matrix:
    """From the piece to a frame of the part with x along its grain."""
    runs, thick = axis_vector(part.spec.runs), axis_vector(part.spec.thick)
    turned = placing(np.array([runs, np.cross(thick, runs), thick]), np.zeros(3))
    return turned @ inverse(matrix_of(part.at))


def alone(part: Part, towards: Vector, right: Vector) -> Pictorial:
    """One part by itself, sharp, in its standing frame."""
    lines = view([part.sharp], towards, right)
    box = lines.box.grown(1.0)
    finer = SMALL_PIXELS / max(box.width, box.height)
    picture = tint([mesh_of(part.sharp)], [tint_of(part.spec)], towards, right, finer, box)
    return Pictorial(lines, picture, (part.name,))


def pictorial(
    piece: Piece,
    names: Sequence[str],
    shifts: Mapping[str, Vector],
    quiet: frozenset[str] = frozenset(),
    eased: bool = False,
    links: Sequence[tuple[str, str, tuple[float, float, float]]] = (),
    fitted: Fitted = "all",
    towards: Sequence[float] = TOWARDS,
    right: Sequence[float] = RIGHT,
) -> Pictorial:
    """Parts of the piece as they stand, each moved by its shift; those in `quiet` stay grey.

    links: (part, part, point where they meet, in the piece), for guide lines between parts drawn apart.
    Between these, loose pieces of joints are seen standing in the part that takes the other.
    """
    nothing = np.zeros(3)
    parts = [piece.parts[name] for name in names]
    shapes: list[cq.Shape] = []
    meshes = []
    for name, part in zip(names, parts, strict=True):
        shift = shifts.get(name, nothing)
        solid = part.eased if eased else part.sharp
        shapes.append(placed(solid, part.at, location(placing(np.eye(3), shift))))
        meshes.append(moved_mesh(part.eased_mesh if eased else part.mesh, shift))
    colours = [QUIET if name in quiet else tint_of(part.spec) for name, part in zip(names, parts, strict=True)]
    fittings = _fittings(piece, names, shifts, fitted)
    shapes += fittings
    meshes += [mesh_of(fitting) for fitting in fittings]
    colours += [METAL] * len(fittings)
    for one, way in _loose(piece, set(names), shifts):
        shapes.append(placed(one.solid, location(placing(np.eye(3), way))))
        meshes.append(moved_mesh(one.mesh, way))
        colours.append(PLAIN_WOOD)
    lines = view(shapes, towards, right, smooth=eased)
    box = lines.box.grown(2.0)
    picture = tint(meshes, colours, towards, right, PIXELS / max(box.width, box.height), box)
    guides = [
        run
        for a, b, point in links
        for run in guide_runs(picture, point, shifts.get(a, nothing), shifts.get(b, nothing))
    ]
    return Pictorial(lines, picture, tuple(names), tuple(guides))


def _loose(piece: Piece, names: set[str], shifts: Mapping[str, Vector]) -> Iterator[tuple[LooseSolid, Vector]]:
    """What is set into one part before a joint is closed, where it is drawn open; and how far that part is moved."""
    nothing = np.zeros(3)
    for joint in piece.joints:
        if {joint.a, joint.b} <= names:
            ways = [shifts.get(name, nothing) for name in (joint.a, joint.b)]
            if float(np.linalg.norm(ways[0] - ways[1])) > OPEN:
                yield from ((one, ways[1]) for one in loose_solids(joint) if one.what in SET_IN)


def _fittings(
    piece: Piece, names: Sequence[str], shifts: Mapping[str, Vector], fitted: Fitted = "all"
) -> list[cq.Shape]:
    """What is fitted to the parts shown and can be seen, each moved with the part it is fixed to.

    What is fitted last is there only where `all` is.
    """
    found = []
    for fixing in piece.fixings:
        there = fitted == "all" or (fitted == "before the last" and not fixing.last)
        if fixing.shown and there and {fixing.through, fixing.into} <= set(names):
            away = location(placing(np.eye(3), shifts.get(fixing.through, np.zeros(3))))
            found += [placed(solid, away) for solid in fixing.solids()]
    return found


def guide_runs(picture: Picture, point: Sequence[float], first: Vector, second: Vector) -> list[tuple[Point, Point]]:
    """The stretches of the line between the two places of one point that no part hides."""
    start, end = np.array(point) + first, np.array(point) + second
    length = float(np.linalg.norm(end - start))
    if length < 1.0:
        return []
    axes = picture.axes
    count = max(2, int(length))
    places = [start + (end - start) * i / count for i in range(count + 1)]
    free = [_seen(picture, axes.at(place), axes.depth(place)) for place in places]
    runs: list[tuple[Point, Point]] = []
    begin: int | None = None
    for i, is_free in enumerate([*free, False]):
        if is_free and begin is None:
            begin = i
        elif not is_free and begin is not None:
            if i - 1 - begin >= 3:
                runs.append((axes.at(places[begin]), axes.at(places[i - 1])))
            begin = None
    return runs


def _seen(picture: Picture, at: Point, depth: float) -> bool:
    column, row = picture.grid.pixels(np.array([at[0]]), np.array([at[1]]))
    c, r = round(float(column[0])), round(float(row[0]))
    if not (0 <= r < picture.depth.shape[0] and 0 <= c < picture.depth.shape[1]):
        return True
    return bool(picture.depth[r, c] <= depth + 0.5)


def set_pictorial(
    picture: Pictorial, area: Box, style: HouseStyle = HOUSE, largest: float = 1.0
) -> tuple[list[Record], PlacedView]:
    """The picture as large as `area` takes (never above `largest` to the real size), in its middle."""
    box = picture.box
    scale = min(area.width / box.width, area.height / box.height, largest)
    x = area.centre[0] - scale * (box.left + box.right) / 2
    y = area.centre[1] - scale * (box.bottom + box.top) / 2
    placed = PlacedView("picture", picture.lines, x, y, scale)
    image = picture.tint.box
    left, bottom = placed.at((image.left, image.bottom))
    records: list[Record] = [image_from_array(picture.tint.rgb, left, bottom, image.width * scale)]
    for a, b in picture.guides:
        records.append(Line(*placed.at(a), *placed.at(b), style.pens.explosion))
    records += placed.records(style.pens, pictorial=True)
    records += [_block_arrow(placed.at(a), placed.at(b), WHITE, style) for a, b in picture.arrows]
    records += [_block_arrow(placed.at(a), placed.at(b), BLACK, style) for a, b in picture.clamps]
    records += [Circle(*at, RING, style.pens.visible) for at in ringed(picture, placed)]
    return records, placed


def ringed(picture: Pictorial, placed: PlacedView) -> list[Point]:
    """Where on paper a ring stands round a cut that is too small to be made out."""
    return list(dict.fromkeys(placed.at(at) for at, large in picture.spots if large * placed.scale < RINGED))


def _block_arrow(start: Point, tip: Point, fill: Colour, style: HouseStyle) -> Record:
    """A broad arrow that reads on any tint: its shaft, then its head."""
    run = np.array(tip) - np.array(start)
    far = float(np.hypot(*run)) or 1.0
    along, across = run / far, np.array([-run[1], run[0]]) / far
    head, half, wing = min(ARROW_HEAD, 0.6 * far), ARROW_SHAFT / 2, ARROW_WING / 2
    neck = np.array(tip) - along * head
    outline = [start + across * half, neck + across * half, neck + across * wing, np.array(tip)]
    outline += [neck - across * wing, neck - across * half, start - across * half]
    return polyline([(float(x), float(y)) for x, y in outline], style.pens.pictorial, fill, closed=True)


__all__ = ["Pictorial", "pictorial", "set_pictorial"]
