"""A piece must stand by itself, take a push at the top, and a load at its edge."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from model.checks.finding import at_least, finding, said
from model.opening import opened
from model.piece import Part, Piece
from model.stability import GRAVITY, Stand, load_margin, stand, stand_open
from model.supports import weight
from plans.fixings import WallStrap
from plans.problems import Problem

PUSH = 44.5  # N, 10 lbf sideways at the top (16 CFR 1261, from memory)
TALL, HEAVY = 686.0, 13.6  # mm, kg: from here on a push is asked for (scope of ASTM F2057-23: 27 in, 30 lb)
CHILD = 27.2  # kg, 60 lb (test weight of ASTM F2057-23, second-hand)
IN_FROM_EDGE = 60.0  # mm from the edge at which a load is put (EN 1022, from memory)
ESTIMATE = "a rule-of-thumb estimate; local rules and qualified practice go before it"


def check(piece: Piece) -> list[Problem]:
    """Pieces that fall over by themselves, open, by a push, or by a load at an edge. What hangs is not judged."""
    if piece.design.spec.stands == "on the wall":
        return []
    standing = stand(piece)
    if standing is None:
        return []
    if standing.least < 0:
        return [
            _problem(
                piece,
                "error",
                "the piece falls over by itself: its weight is not over its feet",
                f"the centre of mass is {said(piece, -standing.least)} outside the feet",
                "inside the feet",
            )
        ]
    return [*_pushed(piece, standing), *_open(piece, standing), *_loaded(piece, standing)]


def _anchored(piece: Piece) -> bool:
    return any(isinstance(entry, WallStrap) for entry in piece.design.spec.fixings)


def _stored(standing: Stand) -> bool:
    """Whether it is as tall and as heavy as what the rule for clothes storage speaks of."""
    return standing.height >= TALL and standing.mass >= HEAVY


def _open(piece: Piece, shut: Stand) -> list[Problem]:
    """Everything open at once, drawers full; where it is tall, with a child's weight on the edge of one."""
    every = tuple(opened(piece).values())
    standing = stand_open(piece, every) if every and not _anchored(piece) else None
    if standing is None:
        return []
    if standing.least < 0:
        found = f"the centre of mass is {said(piece, -standing.least)} outside the feet"
        return [_problem(piece, "warning", "it falls over when all is open and full", found, "inside the feet")]
    if not _stored(shut):
        return []
    names = [name for one in every for name in one.assembly.parts]
    boxes = [np.vstack([mesh.box for mesh in one.meshes().values()]) for one in every]
    worst = min(load_margin(standing, point, CHILD * GRAVITY) for box in boxes for point in _middles(box))
    if worst >= 0:
        return []
    message = "a child's weight on what is open tips the piece over: it must be anchored to the wall"
    told = _problem(piece, "warning", message, f"{CHILD:.1f} kg on the edge lifts the far feet", "feet that stay down")
    return [replace(told, parts=(*told.parts, *names), hint=f"say a `wall strap`; {told.hint}")]


def _pushed(piece: Piece, standing: Stand) -> list[Problem]:
    if _anchored(piece) or not _stored(standing) or standing.push >= PUSH:
        return []
    message = "a light push at the top tips the piece over: it must be anchored to the wall"
    return [_problem(piece, "warning", message, f"{standing.push:.0f} N at the top tips it", f"more than {PUSH:.0f} N")]


def _loaded(piece: Piece, standing: Stand) -> list[Problem]:
    found = []
    for load in piece.design.spec.loads:
        bearers = [part for part in piece.parts.values() if part.kind == load.part]
        force = sum(weight(load, part, len(bearers)) for part in bearers)
        worst = min((load_margin(standing, point, force) for point in _edges(bearers)), default=0.0)
        if worst < 0:
            message = f"the load on {load.part} tips the piece over when it is near an edge"
            number = piece.design.spec.loads.index(load)
            found.append(
                finding(
                    "tips-over",
                    "warning",
                    f"{message} ({ESTIMATE})",
                    piece.design.place("loads", number),
                    "set the feet further out, or let the part overhang less",
                    [part.name for part in bearers],
                    f"{force:.0f} N, {at_least(piece, IN_FROM_EDGE)} in from the edge, lifts the far feet",
                    "feet that stay down",
                )
            )
    return found


def _edges(parts: list[Part]) -> list[np.ndarray]:
    """Points on the middles of the four edges of what the load lies on, as seen from above."""
    points = np.vstack([part.mesh.vertices for part in parts])
    return _middles(points, IN_FROM_EDGE)


def _middles(points: np.ndarray, inside: float = 0.0) -> list[np.ndarray]:
    """The middles of the four edges of what bounds some points, as seen from above, or so far inside them."""
    low, high = points.min(axis=0)[:2] + inside, points.max(axis=0)[:2] - inside
    middle = (low + high) / 2
    low, high = np.minimum(low, middle), np.maximum(high, middle)
    return [np.array(p) for p in ((low[0], middle[1]), (high[0], middle[1]), (middle[0], low[1]), (middle[0], high[1]))]


def _problem(piece: Piece, severity: str, message: str, found: str, wanted: str) -> Problem:
    lowest = min(piece.parts.values(), key=lambda part: float(part.mesh.box[0][2]))
    hint = "set the feet further apart, make it lower, or say `stands: on the wall` and fix it there"
    return finding(
        "tips-over",
        severity,  # type: ignore[arg-type]
        f"{message} ({ESTIMATE})",
        piece.design.place("parts", lowest.kind, "where"),
        hint,
        (lowest.name,),
        found,
        wanted,
    )
