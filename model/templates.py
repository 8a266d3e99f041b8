"""Which parts want a full-size template, of which side, and its true shape.

What a saw, a fence or a square sets out by itself wants none: a plain part never has one. A taper, a curve, a
turned profile, a compound end, a row of tails or many holes do, each on the side on which it is seen true.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from model.frames import axis_vector, side_vector
from model.loops import Bounds, Flat, Loop, bounds_of, every_stretch
from model.once import once
from model.outlines import LEVEL, FaceOutline, Lie, faces_towards, section
from model.piece import Callout, Feature, Part, Piece
from plans.sides import OPPOSITE, SIDE_AXIS, Side, third_axis

MANY_HOLES = 5  # on one side
COMPOUND = 1.0  # degrees both angles of a compound end must have; less is a saw setting and no more
LARGER = 1.005  # the far side is drawn where it is larger than the near one by this share
ALIKE = 0.02  # mm; templates that differ by less are one
BORED = {"hole", "fitting hole", "dowel hole"}  # what is bored where it is marked; others are bored through a part
SAWN = {"taper": "taper", "arc": "curve", "curve": "curve", "relieved ends": "shaped ends"}
TURNED = "turned profile"


@dataclass(frozen=True)
class Use:
    """What a template serves: the parts of a mark on the side named of the first of them, and what `turned` serves."""

    mark: str
    side: Side
    left: Side  # the side of them that lies to the page's left
    as_drawn: tuple[str, ...]  # with the template as it lies
    turned_over: tuple[str, ...]  # with the template turned over


@dataclass(frozen=True)
class Template:
    """The true shape of one side of a part, mm, its lower left corner at the origin.

    outline: the rims of the face; deeper: those of what lies below it and beyond its rim (tenon cheeks, rabbets);
    openings: mortises, grooves and the like in it; holes: centre and diameter of each round one.
    """

    part: str  # the part it is of
    side: Side
    reasons: tuple[str, ...]
    outline: tuple[Loop, ...]
    deeper: tuple[Loop, ...]
    openings: tuple[Loop, ...]
    holes: tuple[tuple[Flat, float], ...]
    left: Side  # the side of the part that lies to the page's left
    cut: bool  # a section through the middle of the part, where there is no flat face
    uses: tuple[Use, ...] = ()

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of the parts it serves, each once."""
        return tuple(dict.fromkeys(use.mark for use in self.uses))

    @property
    def end_at_left(self) -> Side | None:
        """The end of the parts that lies to the left; None where it is not the same for all."""
        ends = {use.left for use in self.uses}
        return ends.pop() if len(ends) == 1 else None

    @property
    def loops(self) -> tuple[Loop, ...]:
        """Every closed line but the holes."""
        return (*self.outline, *self.deeper, *self.openings)

    @property
    def bounds(self) -> Bounds:
        """The upright box round it."""
        return bounds_of(loop.bounds() for loop in self.loops)

    @property
    def size(self) -> tuple[float, float]:
        """Its width and height (mm)."""
        left, bottom, right, top = self.bounds
        return right - left, top - bottom


@once
def templates(piece: Piece) -> tuple[Template, ...]:
    """The templates of a piece, in the order of the marks; sides of the same shape share one."""
    found: list[Template] = []
    for item in piece.items:
        part = piece.parts[item.shown]
        for side, reasons in wanted(part).items():
            made = template(part, side, tuple(reasons))
            _add(found, replace(made, uses=(Use(item.mark, made.side, made.left, item.parts, item.mirrored),)))
    return tuple(found)


def _add(found: list[Template], made: Template) -> None:
    """Put a template with those found, or its use to one of them that has its shape as it lies or turned over."""
    (use,) = made.uses
    for number, other in enumerate(found):
        if same_shape(other, made):
            found[number] = replace(other, uses=(*other.uses, use))
            return
        if same_shape(other, turned_over(made)):
            over = replace(use, as_drawn=use.turned_over, turned_over=use.as_drawn)
            found[number] = replace(other, uses=(*other.uses, over))
            return
    found.append(made)


def turned_over(made: Template) -> Template:
    """The same template with its other side up, its ends where they were."""
    height = made.size[1]

    def over(loops: tuple[Loop, ...]) -> tuple[Loop, ...]:
        return tuple(loop.flipped().shifted(0.0, height) for loop in loops)

    return replace(
        made,
        outline=over(made.outline),
        deeper=over(made.deeper),
        openings=over(made.openings),
        holes=tuple(((x, height - y), diameter) for (x, y), diameter in made.holes),
    )


def same_shape(a: Template, b: Template) -> bool:
    """Whether two templates fall on each other, line on line and hole on hole."""
    pairs = ((a.outline, b.outline), (a.deeper, b.deeper), (a.openings, b.openings))
    rows = [(_telling(one), _telling(other)) for one, other in pairs]
    rows.append((_hole_rows(a), _hole_rows(b)))
    return all(_fall_on(one, other) and _fall_on(other, one) for one, other in rows)


def _telling(loops: tuple[Loop, ...]) -> np.ndarray:
    """Corners and middles of every stretch (n x 3)."""
    return np.array([(*point, 0.0) for s in every_stretch(loops) for point in (s.start, s.at(0.5))]).reshape(-1, 3)


def _hole_rows(made: Template) -> np.ndarray:
    return np.array([(*centre, diameter) for centre, diameter in made.holes]).reshape(-1, 3)


def _fall_on(rows: np.ndarray, others: np.ndarray) -> bool:
    """Whether every row has one of the others in its place."""
    if len(rows) != len(others) or not len(rows):
        return len(rows) == len(others)
    apart = np.abs(rows[:, None, :] - others[None, :, :]).max(axis=2)
    return bool((apart.min(axis=1) < ALIKE).all())


def wanted(part: Part) -> dict[Side, list[str]]:
    """The sides of a part that want a template, each with what makes them want it; none for a plain part."""
    found: dict[Side, list[str]] = {}
    for feature in part.features:
        for side, reason in _TOLD_BY.get(feature.kind, _by_callouts)(feature):
            reasons = found.setdefault(side, [])
            if reason not in reasons:
                reasons.append(reason)
    for side in _with_many_holes(part):
        found.setdefault(side, []).append("holes")
    return found


def _by_sizes(feature: Feature) -> list[tuple[Side, str]]:
    """Sawn shapes are seen true where their sizes are."""
    return [(size.face, SAWN[feature.kind]) for size in feature.sizes if size.role == "size"]


def _by_callouts(feature: Feature) -> list[tuple[Side, str]]:
    return [(callout.face, "compound angles") for callout in feature.callouts if _is_compound(callout)]


def _tails(feature: Feature) -> list[tuple[Side, str]]:
    return [(callout.face, "dovetails") for callout in feature.callouts]


def _turned(feature: Feature) -> list[tuple[Side, str]]:
    return [(callout.face, TURNED) for callout in feature.callouts]


_TOLD_BY: dict[str, Callable[[Feature], list[tuple[Side, str]]]] = {
    **dict.fromkeys(SAWN, _by_sizes),
    "tails": _tails,
    "turned": _turned,
}


def _is_compound(callout: Callout) -> bool:
    angles = [callout.values.get(name) for name in ("mitre", "slope")]
    return callout.what == "sloped end" and all(isinstance(a, float) and abs(a) >= COMPOUND for a in angles)


def _with_many_holes(part: Part) -> list[Side]:
    count: dict[Side, int] = {}
    for feature in part.features:
        for callout in feature.callouts:
            if callout.what in BORED:
                many = callout.values.get("count")
                count[callout.face] = count.get(callout.face, 0) + (many if isinstance(many, int) else 1)
    return [side for side, many in count.items() if many >= MANY_HOLES]


def template(part: Part, side: Side, reasons: tuple[str, ...]) -> Template:
    """The template of one side of a part; holes keep it to that side, else the larger of the two faces is drawn."""
    faces, cut = faces_towards(part, lie_of(part, side)), False
    if "holes" not in reasons:
        far = faces_towards(part, lie_of(part, OPPOSITE[side]))
        if _main_area(far) > LARGER * _main_area(faces):
            side, faces = OPPOSITE[side], far
    if TURNED in reasons or not faces:
        faces, cut = section(part, lie_of(part, side)), True
    return _drawn(part, side, reasons, faces, cut)


def lie_of(part: Part, side: Side) -> Lie:
    """How a part lies with one side to the reader: its length across the page, the right way up where it can be."""
    towards = side_vector(side)
    if part.spec.runs == "up-down" and SIDE_AXIS[side] != "up-down":
        right = side_vector("bottom")
        return Lie(right, np.cross(towards, right), towards)
    along = part.spec.runs if part.spec.runs != SIDE_AXIS[side] else part.spec.wide
    other = third_axis(along, SIDE_AXIS[side])
    up = axis_vector(other)
    right = np.cross(up, towards)
    if other != "up-down" and float(right @ axis_vector(along)) < 0:
        right, up = -right, -up
    return Lie(right, up, towards)


def _level(faces: list[FaceOutline], height: float) -> list[FaceOutline]:
    return [face for face in faces if abs(face.height - height) < LEVEL]


def _main_height(faces: list[FaceOutline]) -> float:
    """The height at which most of the wood lies."""
    return max((face.height for face in faces), key=lambda h: sum(face.area for face in _level(faces, h)))


def _main_area(faces: list[FaceOutline]) -> float:
    return sum(face.area for face in _level(faces, _main_height(faces))) if faces else 0.0


def _drawn(part: Part, side: Side, reasons: tuple[str, ...], faces: list[FaceOutline], cut: bool) -> Template:
    lie = lie_of(part, side)
    main = _level(faces, _main_height(faces))
    deeper = _beyond([face for face in faces if face not in main], main)
    rims = [face.rim for face in main]
    left, bottom, _, _ = bounds_of(loop.bounds() for loop in (*rims, *(face.rim for face in deeper)))
    open_in = [loop.shifted(-left, -bottom) for face in (*main, *deeper) for loop in face.openings]
    return Template(
        part=part.name,
        side=side,
        reasons=reasons,
        outline=tuple(rim.shifted(-left, -bottom) for rim in rims),
        deeper=tuple(face.rim.shifted(-left, -bottom) for face in deeper),
        openings=tuple(loop for loop in open_in if loop.circle() is None),
        holes=tuple(hole for loop in open_in if (hole := loop.circle()) is not None),
        left=_side_towards(-lie.right),
        cut=cut,
    )


def _beyond(faces: list[FaceOutline], main: list[FaceOutline]) -> list[FaceOutline]:
    """Faces at other heights that lie beside the main one: not those under it, or seen through an opening of it."""
    kept: list[FaceOutline] = []
    for face in sorted(faces, key=lambda face: -face.area):
        point = _inner_point(face.rim)
        if not any(other.rim.holds(point) for other in (*main, *kept)):
            kept.append(face)
    return kept


def _inner_point(loop: Loop) -> Flat:
    """A point inside an outline: half way through the wood on a line across its middle."""
    left, bottom, right, top = loop.bounds()
    points = loop.points()
    y = (bottom + top) / 2 + (top - bottom) * 0.0123  # clear of corners at the very middle
    crossings = sorted(
        x0 + (x1 - x0) * (y - y0) / (y1 - y0)
        for n, (x1, y1) in enumerate(points)
        for x0, y0 in (points[n - 1],)
        if (y0 > y) != (y1 > y)
    )
    return ((crossings[0] + crossings[1]) / 2 if len(crossings) > 1 else (left + right) / 2), y


def _side_towards(direction: np.ndarray) -> Side:
    found: Side = max(SIDE_AXIS, key=lambda side: float(side_vector(side) @ direction))
    return found
