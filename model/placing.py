"""Where a part stands: turning statements about its sides into a rotation and a shift.

Each of the three directions is settled by one statement. A leaning part has no one place for its
left side, so a height settles where it is measured: `measured at`, or else its own stated top or
bottom. There, the side is the outermost point of the part's section.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model import kernel
from model.body import Body
from model.frames import Matrix, Vector, axis_vector, lean_rotation, placing
from model.kernel import KernelFault, spell
from model.reach import reach
from plans.fields import CutTarget, Position, Term
from plans.placing import Repeat
from plans.sides import AXES, AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN, Axis, Side, sides_of
from plans.spec import PartSpec

FAR = kernel.REACH / 2
NEAR = 1e-6  # mm


@dataclass(frozen=True)
class Stand:
    """What is settled about a part before it is cut: its turn, its shift and the half size of its blank (mm)."""

    turn: Matrix
    shift: Vector
    half: Vector

    @property
    def at(self) -> Matrix:
        """From the standing frame to the piece."""
        return placing(self.turn, self.shift)


class Standing:
    """The parts that already stand, by kind, for others to be measured from."""

    def __init__(self) -> None:
        self.bodies: dict[str, list[Body]] = {}

    def add(self, kind: str, bodies: list[Body]) -> None:
        """Note the parts of one kind, the first one first."""
        self.bodies[kind] = bodies

    def side(self, term: Term, level: float | None) -> float:
        """Coordinate of a side of a part that stands, in the piece (mm)."""
        chosen = self.bodies[term.part] if term.every else self.bodies[term.part][:1]
        reaches = [_reach(body, SIDE_AXIS[term.side], level) for body in chosen]
        if SIDE_SIGN[term.side] < 0:
            return min(low for low, _ in reaches)
        return max(high for _, high in reaches)

    def value(self, position: Position, level: float | None = None) -> float:
        """A stated position as a coordinate in the piece (mm)."""
        return position.offset + sum(term.factor * self.side(term, level) for term in position.terms)

    def middle(self, kind: str, axis: Axis, level: float | None) -> float:
        """The middle of the first part of a kind."""
        low, high = _reach(self.bodies[kind][0], axis, level)
        return (low + high) / 2

    def centre(self, lead: str | None, axis: Axis) -> float:
        """The middle of what a part belongs to: of the parts that lead its assembly, or else of the piece (mm)."""
        if lead is None:
            return 0.0
        reaches = self.reaches(lead, axis)
        return (min(low for low, _ in reaches) + max(high for _, high in reaches)) / 2

    def reaches(self, kind: str, axis: Axis) -> list[tuple[float, float]]:
        """How far each part of a kind reaches along a direction."""
        return [_reach(body, axis, None) for body in self.bodies[kind]]


def _reach(body: Body, axis: Axis, level: float | None) -> tuple[float, float]:
    return reach(body.world(body.sharp), axis, level)


def stand(spec: PartSpec, lean: dict[Side, float], standing: Standing, lead: str | None = None) -> Stand:
    """Settle where the first part of a kind stands, before anything is cut off it.

    `lead` is the kind of part that leads its assembly: what is centred, is centred on that.
    """
    _said_once(spec)
    turn = lean_rotation(lean)
    half = _half_size(spec)
    shift = np.zeros(3)
    shift[2] = _settle_height(spec, turn, half, standing, lead)
    level = _level(spec, standing)
    for axis in ("left-right", "front-back"):
        shift[AXIS_NUMBER[axis]] = _settle_across(spec, axis, turn, half, shift, level, standing, bool(lean), lead)
    return Stand(turn, shift, half)


def _said_once(spec: PartSpec) -> None:
    """A part that is cut to something on both sides has its place between them."""
    for side, axis in SIDE_AXIS.items():
        if spec.size(axis) is None and getattr(spec.where, side) is not None:
            called = {spec.runs: "length", spec.thick: "thickness"}.get(axis, "width")
            message = f"what it is cut to says where it stands {axis}; take `{side}` out, or state its {called}"
            raise KernelFault(message)


def _half_size(spec: PartSpec) -> Vector:
    """Half the blank along each axis; very long where a size is not stated."""
    sizes = [spec.size(axis) for axis in AXES]
    return np.array([FAR if size is None else size / 2 for size in sizes])


def _stated(half: Vector) -> Vector:
    """Half the blank where its sizes are stated; its middle line where they are not."""
    return np.where(half < FAR, half, 0.0)


def _level(spec: PartSpec, standing: Standing) -> float | None:
    """The height at which the part's own sides, and those it is measured from, are taken."""
    for stated in (spec.where.measured_at, spec.where.top, spec.where.bottom):
        if stated is not None:
            return standing.value(stated)
    return None


def _settle_height(spec: PartSpec, turn: Matrix, half: Vector, standing: Standing, lead: str | None) -> float:
    where = spec.where
    if "up-down" in where.centred:
        other = where.centred["up-down"]
        return standing.centre(lead, "up-down") if other is None else standing.middle(other, "up-down", None)
    for side, stated in (("top", where.top), ("bottom", where.bottom)):
        if stated is not None:
            return standing.value(stated) - _own_height(spec, side, turn, half)  # type: ignore[arg-type]
    return _between_cuts(spec, "up-down", standing)


def _own_height(spec: PartSpec, side: Side, turn: Matrix, half: Vector) -> float:
    """Height of the top or bottom of a blank above its middle.

    Where that side is cut to something the blank is set so that the cut just cleans it up: its
    lowest corner (of a top) touches. Else the outermost corner counts.
    """
    sign = SIDE_SIGN[side]
    corners = [turn @ (_stated(half) * [x, y, sign]) for x in (-1, 1) for y in (-1, 1)]
    heights = [float(corner[2]) for corner in corners]
    inner = side in spec.cut_to
    return min(heights) if inner == (sign > 0) else max(heights)


def _between_cuts(spec: PartSpec, axis: Axis, standing: Standing) -> float:
    """A first place between the two things a part is cut to; the cuts then settle it.

    Of several openings between parts of the two kinds, the narrowest and then the first.
    """
    targets = [_targets(spec.cut_to[side], axis, standing) for side in sides_of(axis) if side in spec.cut_to]
    if len(targets) == 2:
        openings = [(low[1], high[0]) for low in targets[0] for high in targets[1] if low[1] < high[0]]
        if openings:
            start, end = min(openings, key=lambda opening: round(opening[1] - opening[0], 3))
            return (start + end) / 2
    middles = [(min(low for low, _ in some) + max(high for _, high in some)) / 2 for some in targets]
    return sum(middles) / len(middles) if middles else 0.0


def _targets(target: CutTarget, axis: Axis, standing: Standing) -> list[tuple[float, float]]:
    """How far each of the parts reaches that a cut may meet; a level begins where it ends."""
    if target.level is not None:
        level = standing.value(target.level)
        return [(level, level)]
    assert target.part is not None
    return standing.reaches(target.part, axis)


def _settle_across(
    spec: PartSpec,
    axis: Axis,
    turn: Matrix,
    half: Vector,
    shift: Vector,
    level: float | None,
    standing: Standing,
    leans: bool,
    lead: str | None,
) -> float:
    where = spec.where
    if leans and level is None and spec.length is None:
        raise KernelFault("it leans, and nothing says at which height its sides are measured; add `measured at`")
    low, high = _own_section(turn, half, shift, level if leans else None, axis)
    if axis in where.centred:
        other = where.centred[axis]
        middle = standing.centre(lead, axis) if other is None else standing.middle(other, axis, level)
        return middle - (low + high) / 2
    for side, own in zip(sides_of(axis), (low, high), strict=True):
        stated: Position | None = getattr(where, side)
        if stated is not None:
            return standing.value(stated, level) - own
    return _between_cuts(spec, axis, standing)


def _own_section(turn: Matrix, half: Vector, shift: Vector, level: float | None, axis: Axis) -> tuple[float, float]:
    """Reach of the unplaced blank along `axis`, at a height if it leans.

    The blank is taken to go on for ever in its most upright direction: a cut end is no end yet.
    """
    number = AXIS_NUMBER[axis]
    corners = np.array([_stated(half) * [x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)])
    if level is None:
        column = (corners @ turn.T)[:, number]
        return float(column.min()), float(column.max())
    upright = int(np.argmax(np.abs(turn[2, :])))
    along = turn[:, upright]
    corners[:, upright] = 0.0
    points = corners @ turn.T
    points = points + np.outer((level - shift[2] - points[:, 2]) / along[2], along)
    return float(points[:, number].min()), float(points[:, number].max())


def repeats(spec: PartSpec, first: Stand, standing: Standing) -> list[Vector]:
    """Shifts of each copy of a repeated part from where the one would stand (mm)."""
    if spec.repeat is None:
        return [np.zeros(3)]
    axis, number = spec.repeat.along, AXIS_NUMBER[spec.repeat.along]
    leaning = not np.allclose(first.turn, np.eye(3)) and axis != "up-down"
    level = _level(spec, standing) if leaning else None
    low, high = _own_section(first.turn, first.half, first.shift, level, axis)
    return row(spec.repeat, low + first.shift[number], high + first.shift[number], standing, level)


def row(repeat: Repeat, low: float, high: float, standing: Standing, level: float | None = None) -> list[Vector]:
    """Shifts (mm) of each of a row from where the one would stand, reaching from `low` to `high` along it."""
    count, own = repeat.count, high - low
    if repeat.between is not None:
        start, end = (standing.value(repeat.between[side], level) for side in sides_of(repeat.along))
        gap = (end - start - count * own) / (count + 1)
        if gap < -NEAR:
            raise KernelFault(f"{count} of {spell(own)} each have no room in the {spell(end - start)} they are to fill")
        steps = [start + gap * (i + 1) + own * i - low for i in range(count)]
    else:
        pitch = _pitch(repeat, own)
        before = (count - 1) / 2 if repeat.start is None else 0
        way = -1 if repeat.start is not None and SIDE_SIGN[repeat.start] > 0 else 1
        steps = [way * pitch * (i - before) for i in range(count)]
    return [axis_vector(repeat.along) * step for step in steps]


def _pitch(repeat: Repeat, own: float) -> float:
    """From one of a row to the next (mm)."""
    if repeat.spacing is not None:
        return repeat.spacing
    if repeat.gap is not None:
        return own + repeat.gap
    filling = repeat.filling or own
    return (filling - own) / (repeat.count - 1) if repeat.count > 1 else 0.0
