"""What holds a wide part and lets it move must let it move far enough: slotted screws, pegs of a breadboard end."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding, once_a_kind, said
from model.fixings.top_fastener import play
from model.fixings.wood_screw import bores
from model.frames import axis_vector
from model.grain import wide_axis
from model.holding import moves
from model.movement import moisture_range, width_change
from model.piece import FixingMade, Part, Piece
from plans.fixings import Fixing, TopFastener, WoodScrew
from plans.joints import BreadboardEnd
from plans.problems import Place, Problem

HAIR = 0.05  # mm
ALONG = 0.7  # cosine: a slot nearer to the grain than 45 degrees gives no room across it


def check(piece: Piece) -> list[Problem]:
    """Slots with less room than the wood moves from where it is held fast; half to either side, from its middle."""
    return once_a_kind(piece, [*_screws(piece), *_tongues(piece), *_ends(piece)])


def _screws(piece: Piece) -> list[Problem]:
    found = []
    for part in piece.parts.values():
        mine = [f for f in piece.fixings if part.name in (f.through, f.into)] if moves(part) else []
        for fixing in mine:
            entry = piece.design.spec.fixings[fixing.number]
            if not isinstance(entry, WoodScrew) or entry.slotted is None:
                continue
            wide = wide_axis(part)
            if abs(float(wide @ np.array(fixing.direction))) > ALONG:
                continue
            off = max(abs(float(np.array(point) @ wide) - _still(piece, part, mine)) for point in fixing.points)
            needed = _each_way(piece, part, off)
            across = abs(float(axis_vector(entry.slotted) @ wide)) > ALONG
            play = (entry.play or bores(entry).shank / 2) if across else 0.0
            if needed > play + HAIR:
                number = fixing.number
                field = "play" if entry.play is not None else "slotted"
                names = (part.name, fixing.into if fixing.through == part.name else fixing.through)
                place = piece.design.fixing_place(number, field)
                found.append(_problem(piece, f"the slots that hold {part.name}", names, place, play, needed))
    return found


def _tongues(piece: Piece) -> list[Problem]:
    """Buttons and clips that hold a top, whose tongues have to slide in their slots; a top keeps its middle."""
    found = []
    for fixing in piece.fixings:
        entry, top = piece.design.spec.fixings[fixing.number], piece.parts[fixing.into]
        if not isinstance(entry, TopFastener) or entry.form == "figure eight" or not moves(top):
            continue
        still = _still(piece, top, [one for one in piece.fixings if top.name in (one.through, one.into)])
        off = max(abs(float(np.array(point) @ wide_axis(top)) - still) for point in fixing.points)
        needed, room = _each_way(piece, top, off), play(entry)
        if needed > room + HAIR:
            place = piece.design.fixing_place(fixing.number, "play" if entry.play is not None else None)
            names = (top.name, fixing.through)
            found.append(_problem(piece, f"the slots that hold {top.name}", names, place, room, needed))
    return found


def _still(piece: Piece, part: Part, fixings: list[FixingMade]) -> float:
    """Where a part is held fast, measured across its grain (mm): at its other fixings, else in its middle."""
    wide = wide_axis(part)
    fast = [f for f in fixings if not _slides(piece.design.spec.fixings[f.number])]
    if fast:
        return float(np.mean([np.array(point) @ wide for f in fast for point in f.points]))
    heights = part.mesh.vertices @ wide
    return float(heights.min() + heights.max()) / 2


def _slides(entry: Fixing) -> bool:
    return isinstance(entry, TopFastener) or getattr(entry, "slotted", None) is not None


def _each_way(piece: Piece, part: Part, off: float) -> float:
    """How much a point moves to either side (mm), `off` mm from where the part is held: half of its whole way."""
    low, high = moisture_range(piece)
    return width_change(part, off, low, high) / 2


def _ends(piece: Piece) -> list[Problem]:
    found = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if not isinstance(entry, BreadboardEnd) or entry.play is None:
            continue  # where the play is not said it comes from the wood
        panel = piece.parts[joint.a]
        needed = _each_way(piece, panel, panel.over_all[1] / 2)
        if needed > entry.play + HAIR:
            place = piece.design.joint_place(joint.number, "play")
            names = (joint.a, joint.b)
            found.append(_problem(piece, f"the peg holes of {joint.a}", names, place, entry.play, needed))
    return found


def _problem(piece: Piece, what: str, names: tuple[str, ...], place: Place, play: float, needed: float) -> Problem:
    return finding(
        "slot-too-short",
        "warning",
        f"{what} give it less room than it moves",
        place,
        "say more `play`, lay the slot across the grain, or hold the part fast nearer to its middle",
        names,
        f"{said(piece, play)} of room to either side across the grain",
        f"at least {said(piece, needed)} to either side",
    )
