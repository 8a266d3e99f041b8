"""A part whose edges go on into the parts that stand round it: a panel in grooves, a back in rabbets.

The part grows by one box, so that its corners are whole, and each part round it is cut by that box with room added.
"""

from __future__ import annotations

from collections.abc import Mapping

import cadquery as cq

from model import kernel
from model.body import Body
from model.frames import Vector, round_point, side_vector
from model.joints.let_in import Seam, seams
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Size, Value
from model.recess import NOTHING, placed
from plans.sides import AXIS_NUMBER, SIDE_AXIS, Side, sides_of

GONE = 0.1  # mm3: less is noise
SQUARE = 1e-6  # 1 - cos of the angle the parts round it may be out of line


def square_seams(part: Body, around: list[Body]) -> list[Seam]:
    """The ends and edges of a part that lie against the parts round it; these have to stand square to it."""
    found = seams([part], around)
    for seam in found:
        if abs(float(seam.face.normal @ side_vector(seam.side))) < 1 - SQUARE:
            raise KernelFault(f"{seam.into.name} does not stand square to the {seam.side} of {part.name}")
    return found


def grown(part: Body, found: list[Seam], cheek: tuple[float, float], held: float) -> tuple[Vector, Vector]:
    """Corners of the part's edge as it reaches `held` mm into all that it meets (standing frame)."""
    low, high = part.blank.low.copy(), part.blank.high.copy()
    thick = AXIS_NUMBER[part.thick]
    low[thick], high[thick] = cheek
    for side, gap in {seam.side: seam.gap for seam in found}.items():
        move_side(low, high, side, gap + held)
    return low, high


def move_side(low: Vector, high: Vector, side: Side, out: float) -> None:
    """Move one side of a box outwards, in place."""
    number = AXIS_NUMBER[SIDE_AXIS[side]]
    if side_vector(side)[number] > 0:
        high[number] += out
    else:
        low[number] -= out


def taker(seam: Seam, low: Vector, high: Vector, more: Mapping[Side, float]) -> cq.Solid:
    """What is cut from the part at one seam: the box of the edge beyond that seam, with `more` room on some sides."""
    low, high = low.copy(), high.copy()
    for side, room in more.items():
        move_side(low, high, side, room)
    number = AXIS_NUMBER[SIDE_AXIS[seam.side]]
    (low if side_vector(seam.side)[number] > 0 else high)[number] = seam.of.blank.at(seam.side)
    return kernel.box(low, high)


def give_edge(part: Body, found: list[Seam], low: Vector, high: Vector, name: str) -> None:
    """Grow the part to the box of its edge, with sizes where that is thinner than the part, and note it."""
    thick = AXIS_NUMBER[part.thick]
    size = float(high[thick] - low[thick])
    thinned = part.blank.size(part.thick) - size > NOTHING
    gone = _gone(part)
    part.add(kernel.box(low, high), f"the edge of {part.name}")
    if gone:  # the box filled it again
        part.cut(gone, f"what was cut into {part.name}")
    sides = tuple(dict.fromkeys(seam.side for seam in found))
    sizes = [_reach(part, side, low, high, name) for side in sides if thinned]
    if thinned:
        sizes += placed(part, low, high, part.thick, sides[0], f"{name} thickness")
    first = found[0]
    held = abs(_at(low, high, first.side) - part.blank.at(first.side)) - first.gap
    values: dict[str, Value] = {"for": first.into.kind, "long": held, "thick": size, "sides": ", ".join(sides)}
    point = (low + high) / 2
    point[AXIS_NUMBER[SIDE_AXIS[first.side]]] = _at(low, high, first.side)
    callout = Callout(name, dict(values), round_point(point), part.datum_side(part.thick))
    work = Operation(name, dict(values)) if thinned else None
    part.features.append(Feature(name, "joint", tuple(sizes), (callout,), work, first.into.name))


def _gone(part: Body) -> list[cq.Solid]:
    """What has been taken off the blank so far: a slot, a hole, a recess (standing frame)."""
    blank = kernel.box(part.blank.low, part.blank.high)
    if kernel.volume(blank) - kernel.volume(part.sharp) < GONE:
        return []
    return kernel.less(blank, part.sharp)


def _at(low: Vector, high: Vector, side: Side) -> float:
    number = AXIS_NUMBER[SIDE_AXIS[side]]
    return float((high if side_vector(side)[number] > 0 else low)[number])


def _reach(part: Body, side: Side, low: Vector, high: Vector, name: str) -> Size:
    """How far the edge stands out past the full thickness on one side."""
    axis = SIDE_AXIS[side]
    number = AXIS_NUMBER[axis]
    foot, tip = low.copy(), low.copy()
    foot[number], tip[number] = part.blank.at(side), _at(low, high, side)
    ends = round_point(foot), round_point(tip)
    seen = part.datum_side(part.wide if axis == part.runs else part.runs)
    return Size(f"{name} reach", abs(float(tip[number] - foot[number])), axis, *ends, seen, "size")


def across(part: Body, room: float) -> dict[Side, float]:
    """Room on both faces of a part."""
    return dict.fromkeys(sides_of(part.thick), room)
