"""What a fixing leaves in a part: holes and recesses, cut in the piece frame, set out in the part's own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body, extents_of
from model.frames import Vector, apply, nearest_side, round_point, turn
from model.kernel import KernelFault, spell
from model.piece import Callout, Feature, Operation, Value
from model.probe import probe
from model.recess import recess_sizes
from model.shaping.hole import bore, centre_sizes
from model.slopes import bored_values
from plans.library import Bought, screw, species

CLEAR = 1.0  # mm a tool stands out of the face
LEAST_WALL = 2.0  # mm of wood that must be left round a hole, and behind one that is not bored through
NEAR = 0.01  # mm
AT_ONCE = 1e-4  # mm: wood that begins so near a point has the point in it
SLACK = 0.05  # mm a plain solid is thinner all round than the hole it stands in


@dataclass(frozen=True)
class Bore:
    """A hole for some hardware (mm): right through where `deep` is None; `wide` to the depth `sunk`.

    With an `open_side` it may break out beside, as where a disc is to swing.
    """

    purpose: str
    diameter: float
    deep: float | None = None
    sunk: float = 0.0
    wide: float = 0.0
    open_side: bool = False


def bought_values(size: Bought) -> dict[str, Value]:
    """What is asked for at the counter, in both systems, and the screws that each one needs."""
    return {
        "inch": size.inch,
        "mm": size.mm,
        "screws": int(size["screws"]),
        "gauge": int(size["gauge"]),
        "screw long": size["screw_long"],
    }


def bore_holes(body: Body, mouths: Sequence[Vector], inward: Vector, hole: Bore, other: Body | None = None) -> None:
    """Bore `hole` at every mouth (piece frame); say it on the part's drawing.

    A hole that leaves less than `LEAST_WALL` beside or behind it is a fault.
    """
    here = turn(body.back, inward)
    centres = [apply(body.back, mouth) for mouth in mouths]
    for centre in centres:
        _backed(body, centre, here, hole)
        if not hole.open_side:
            _walled(body, centre, here, hole)
    reach = kernel.REACH if hole.deep is None else hole.deep
    tools = [bore(centre, here, hole.diameter, reach) for centre in centres]
    if hole.sunk:
        tools += [bore(centre, here, hole.wide, hole.sunk) for centre in centres]
    body.cut(tools, f"the hole for the {hole.purpose} in {body.name}")
    side = nearest_side(-here)
    values: dict[str, Value] = {"diameter": hole.diameter, "deep": hole.deep, "count": len(centres)}
    values |= {"for": hole.purpose} | ({"sunk": hole.sunk, "wide": hole.wide} if hole.sunk else {})
    values |= bored_values(here, side)
    first, *row = map(round_point, centres)
    callout = Callout("fitting hole", dict(values), first, side, row=tuple(row))
    sizes = centre_sizes(body, centres, side, "fitting hole")
    operation = Operation("fitting hole", dict(values))
    name = None if other is None else other.name
    body.features.append(Feature("fitting hole", "fixing", sizes, (callout,), operation, name))


def pilot(body: Body, size: Bought, asked: str) -> float:
    """The pilot for the screws a thing is sold with, by the wood of the part (mm).

    Drills go by the system it was `asked` for in.
    """
    known = screw(int(size["gauge"]))
    assert known is not None
    wood = species(body.spec.wood)
    soft = wood is not None and wood.group == "softwood"
    drills = known.metric_drills if asked.endswith("mm") else known.drills
    return drills.pilot_soft if soft else drills.pilot_hard


def _backed(body: Body, centre: Vector, inward: Vector, hole: Bore) -> None:
    """Refuse a blind hole that leaves too little wood behind it."""
    behind = _wood(body, centre + inward * NEAR, inward)
    if hole.deep is not None and behind < hole.deep + LEAST_WALL - 2 * NEAR:
        raise KernelFault(
            f"the hole for the {hole.purpose} is {spell(hole.deep)} deep and {body.name} has {spell(behind)} there; "
            f"at least {spell(LEAST_WALL)} is to be left behind it"
        )


def _walled(body: Body, centre: Vector, inward: Vector, hole: Bore) -> None:
    """Refuse a hole that leaves too little wood round it, at its mouth or at its bottom."""
    for level in (NEAR, hole.deep or NEAR):
        wall = min(_wood(body, centre + inward * level, way) for way in _ways(inward)) - hole.diameter / 2
        if wall < LEAST_WALL - NEAR:
            raise KernelFault(
                f"the hole for the {hole.purpose} leaves {spell(max(wall, 0))} of {body.name} beside it; at least "
                f"{spell(LEAST_WALL)} is wanted"
            )


def _ways(inward: Vector) -> list[Vector]:
    """Eight directions square to `inward`."""
    rough = np.eye(3)[int(np.argmin(np.abs(inward)))]
    u = np.cross(inward, rough)
    u = u / np.linalg.norm(u)
    v = np.cross(inward, u)
    return [u * np.cos(a) + v * np.sin(a) for a in np.arange(8) * np.pi / 4]


def _wood(body: Body, point: Vector, way: Vector) -> float:
    """How far one goes from a point (standing frame) through solid wood (mm); 0 where it starts in the open."""
    return next((end - begin for begin, end in probe(body.sharp).wood(point, way) if begin < AT_ONCE), 0.0)


def let_in(body: Body, tools: Sequence[cq.Shape], outward: Vector, purpose: str, other: Body) -> None:
    """Let square recesses (piece frame) into a part; they open towards `outward`."""
    local = [body.local(tool) for tool in tools]
    body.cut(local, f"the recess for the {purpose} in {body.name}")
    side = nearest_side(turn(body.back, outward))
    for tool in local:
        reach = extents_of(tool)
        low, high = np.maximum(reach.low, body.blank.low), np.minimum(reach.high, body.blank.high)
        sizes = recess_sizes(body, low, high, side, "fitting recess")
        # its callout says the depth, to the step of a drill: on a leaf of 5/64 in the step of a rule is too coarse
        sizes = tuple(size for size in sizes if not size.name.endswith("depth"))
        long, wide, deep = _spans(body, low, high, outward)
        values: dict[str, Value] = {"long": long, "wide": wide, "deep": deep, "for": purpose}
        callout = Callout("fitting recess", dict(values), round_point((low + high) / 2), side)
        operation = Operation("fitting recess", dict(values))
        body.features.append(Feature("fitting recess", "fixing", sizes, (callout,), operation, other.name))


def _spans(body: Body, low: Vector, high: Vector, outward: Vector) -> tuple[float, float, float]:
    """Length, width and depth of a recess: the depth lies the way it opens."""
    depth = int(np.argmax(np.abs(turn(body.back, outward))))
    spans = [float(high[i] - low[i]) for i in range(3)]
    deep = spans.pop(depth)
    return max(spans), min(spans), deep
