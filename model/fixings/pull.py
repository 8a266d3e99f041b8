"""Knobs and pulls: a clear hole for each bolt, right through from behind."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import SLACK, Bore, bore_holes
from model.fixings.seating import frame
from model.frames import Vector, apply, axis_vector, location, round_point, side_vector, turn
from model.piece import FixingMade
from plans.fixings.pull import Pull
from plans.library import Bought, bought
from plans.sides import AXIS_NUMBER, SIDE_AXIS


def fix(bodies: dict[str, list[Body]], entry: Pull, number: int) -> list[FixingMade]:
    """One on every part of the kind."""
    size = bought("pulls", entry.size)
    assert size is not None
    made = []
    for body in bodies[entry.on]:
        out, lies = body.outward(entry.side), turn(body.at, axis_vector(entry.lies))
        middle = apply(body.at, _middle(body, entry))
        feet = [middle + lies * step for step in _steps(size)]
        thick = body.blank.size(SIDE_AXIS[entry.side])
        bore_holes(body, feet, -out, Bore("pull", size["bolt_clear"]))
        made.append(
            FixingMade(
                "pull",
                number,
                body.name,
                body.name,
                (round_point(middle),),
                round_point(-out),
                {"inch": size.inch, "mm": size.mm},
                _plain(size, thick),
                (location(frame(middle, out, lies)),),
                last=True,
            )
        )
    return made


def _middle(body: Body, entry: Pull) -> Vector:
    """Where its middle sits on the face (standing frame)."""
    place = body.blank.middle()
    for side, distance in {entry.side: 0.0, **entry.at}.items():
        number = AXIS_NUMBER[SIDE_AXIS[side]]
        place[number] = body.blank.at(side) - side_vector(side)[number] * distance
    return place


def _steps(size: Bought) -> list[float]:
    """How far each foot is from the middle (mm)."""
    half = size["centres"] / 2
    return [-half, half] if half else [0.0]


def _plain(size: Bought, thick: float) -> cq.Shape:
    """Feet, the knob or bar on them, and the bolts: z out of the face, x along the bar."""
    out, wide, foot, head = size["out"], size["wide"], size["foot"], size["bolt"]
    solids: list[cq.Shape] = []
    for x in _steps(size):
        solids.append(cq.Solid.makeCylinder(foot / 2, out - wide / 4, cq.Vector(x, 0, 0)))
        solids.append(cq.Solid.makeCylinder(head / 2 - SLACK, thick + foot / 2, cq.Vector(x, 0, -thick)))
        solids.append(cq.Solid.makeCylinder(head, head, cq.Vector(x, 0, -thick - head)))
    half = size["centres"] / 2
    if half:
        low, high = np.array([-half - wide / 2, -wide / 2, out - wide]), np.array([half + wide / 2, wide / 2, out])
        solids.append(kernel.box(low, high))
    else:
        solids.append(cq.Solid.makeCylinder(wide / 2, out / 2, cq.Vector(0, 0, out / 2)))
    return kernel.one_solid(solids[0].fuse(*solids[1:]), "the pull")
