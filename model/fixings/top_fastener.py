"""Top fasteners: a slot, a kerf or a shallow round recess in the rail, and the thing that stands in it."""

from __future__ import annotations

from collections.abc import Callable

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import CLEAR, SLACK, Bore, bore_holes, let_in
from model.fixings.seating import Seat, frame, middle_of, seats
from model.frames import Matrix, Vector, location, round_point
from model.kernel import KernelFault, spell
from model.piece import FixingMade
from plans.fixings.top_fastener import TopFastener
from plans.library import Bought, hardware

LEAST = 9.0  # mm: a thinner rail has no room for any of them
PLAY = 1.5  # mm a slot is longer and deeper than the tongue needs, so that the top can move; unless said
EASE = 0.4  # mm a slot is higher than the tongue


def fix(bodies: dict[str, list[Body]], entry: TopFastener, number: int) -> list[FixingMade]:
    """Find every edge of the rail that lies under the top; cut what the fasteners need into the rail."""
    size = _size(entry)
    made = []
    for seat in list(seats(bodies[entry.of], bodies[entry.to], LEAST)):
        inner = _inner(seat)
        # x out of the rail under the top, z down from the top
        places = [frame(point + inner * seat.width / 2, -seat.normal, inner) for point in seat.row(entry.per_place)]
        solid = _CUT[entry.form](seat, size, places, entry)
        made.append(
            FixingMade(
                "top fastener",
                number,
                seat.upper.name,
                seat.lower.name,
                tuple(round_point(place[:3, 3]) for place in places),
                round_point(seat.normal),
                {
                    "inch": size.inch,
                    "mm": size.mm,
                    "form": FORM_WORDS[entry.form],
                    "screws": int(size["screws"]),
                    "gauge": int(size["gauge"]),
                    "screw long": size["screw_long"],
                },
                solid,
                tuple(location(place) for place in places),
            )
        )
    return made


FORM_WORDS = {"button": "table-top button", "figure eight": "figure-eight top fastener", "z clip": "Z-shaped top clip"}
FORMS_IN_TABLE = {"button": 0, "figure eight": 1, "z clip": 2}


def _size(entry: TopFastener) -> Bought:
    return hardware("top_fasteners")[FORMS_IN_TABLE[entry.form]][0]


def _inner(seat: Seat) -> Vector:
    """The way across the rail that leads towards the middle of the top."""
    towards = float((middle_of(seat.lower) - seat.middle) @ seat.across)
    return seat.across if towards >= 0 else -seat.across


def play(entry: TopFastener) -> float:
    """Room of the tongue in its slot, to either side and at the bottom (mm)."""
    return PLAY if entry.play is None else entry.play


def _tongued(seat: Seat, size: Bought, places: list[Matrix], entry: TopFastener) -> cq.Shape:
    """A slot in the rail's inner face for the tongue of a button or a clip."""
    thick, tongue, wide = size["tongue_thick"], size["tongue"], size["wide"]
    form, room = entry.form, play(entry)
    if tongue + room + CLEAR > seat.width - LEAST / 3:
        left = seat.width - tongue - room
        raise KernelFault(
            f"the slot for the {FORM_WORDS[form]} leaves {spell(max(left, 0))} of {seat.upper.name}; "
            f"at least {spell(LEAST / 3 + CLEAR)} is wanted"
        )
    low = np.array([-tongue - room, -wide / 2 - room, size["down"] - EASE / 2])
    high = np.array([CLEAR, wide / 2 + room, size["down"] + thick + EASE / 2])
    tools = [kernel.box(low, high).moved(location(place)) for place in places]
    let_in(seat.upper, tools, places[0][:3, 0], FORM_WORDS[form], seat.lower)
    return _BODY[form](size)


def _button(size: Bought) -> cq.Shape:
    under = size["down"] + size["tongue_thick"]
    out = size["long"] - size["tongue"]
    block = kernel.box(np.array([SLACK, -size["wide"] / 2, 0]), np.array([out, size["wide"] / 2, under]))
    return kernel.fuse(block, _tongue(size), "the button")


def _tongue(size: Bought) -> cq.Solid:
    low = np.array([-size["tongue"], -size["wide"] / 2, size["down"]])
    high = np.array([1.0, size["wide"] / 2, size["down"] + size["tongue_thick"]])
    return kernel.box(low, high)


def _clip(size: Bought) -> cq.Shape:
    thick, half = size["thick"], size["wide"] / 2
    web = kernel.box(np.array([1.0, -half, 0]), np.array([1.0 + thick, half, size["down"] + thick]))
    foot = kernel.box(np.array([1.0, -half, 0]), np.array([size["long"] - size["tongue"], half, thick]))
    low = kernel.box(
        np.array([-size["tongue"], -half, size["down"]]), np.array([1.0 + thick, half, size["down"] + thick])
    )
    return kernel.fuse(kernel.fuse(web, foot, "the clip"), low, "the clip")


def _discs(seat: Seat, size: Bought, places: list[Matrix], entry: TopFastener) -> cq.Shape:
    """A recess for one disc, open to the inner face so that it can swing; the other disc lies under the top."""
    across, thick, form = size["wide"], size["thick"], entry.form
    inset = (size["long"] - across) / 2  # the neck lies over the inner face
    if inset + across / 2 + PLAY > seat.width:
        raise KernelFault(
            f"the {FORM_WORDS[form]} needs a rail {spell(inset + across / 2 + PLAY)} thick, and {seat.upper.name} is "
            f"{spell(seat.width)} there"
        )
    mouths = [place[:3, 3] - place[:3, 0] * inset for place in places]
    hole = Bore(FORM_WORDS[form], across + 2 * SLACK, thick, open_side=True)
    bore_holes(seat.upper, mouths, -seat.normal, hole, seat.lower)
    first = cq.Solid.makeCylinder(across / 2, thick, cq.Vector(-inset, 0, 0))
    second = cq.Solid.makeCylinder(across / 2, thick, cq.Vector(size["long"] - across - inset, 0, 0))
    return kernel.fuse(first, second, "the fastener")


_BODY: dict[str, Callable[[Bought], cq.Shape]] = {"button": _button, "z clip": _clip}
_CUT: dict[str, Callable[[Seat, Bought, list[Matrix], TopFastener], cq.Shape]] = {
    "button": _tongued,
    "z clip": _tongued,
    "figure eight": _discs,
}
