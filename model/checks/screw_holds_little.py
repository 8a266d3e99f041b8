"""The thread of a screw needs length in the lower part."""

from __future__ import annotations

from model.checks.finding import at_least, finding, once_a_kind, said
from model.grain import grain
from model.piece import Piece
from model.screws import Driven, driven, room, withdrawal
from plans.library import species
from plans.problems import Problem

COVER = 2.0  # mm of wood over the point
GRAVITY = 9.80665  # N/kg
SHARE = 0.6  # of the wood there is: a top is screwed on from below with no more (common practice)
DIAMETERS = 6.0  # least penetration of the main member for a full value, NDS 2018 section 12.1 (from memory)


def check(piece: Piece) -> list[Problem]:
    """Screws with less length in the lower part than is due."""
    found = []
    for screw in driven(piece):
        due = _due(screw, room(piece, screw))
        if screw.bite >= due - 0.05:
            continue
        found.append(
            finding(
                "screw-holds-little",
                "warning",
                f"the screw through {screw.fixing.through} holds little in {screw.fixing.into}",
                piece.design.fixing_place(screw.fixing.number, "long"),
                "use a longer screw, sink the head deeper, or use a thinner screw",
                (screw.fixing.through, screw.fixing.into),
                f"{said(piece, screw.bite)} of thread{_bears(piece, screw)}",
                f"at least {at_least(piece, due)} ({DIAMETERS:g} times its thickness, or three fifths of a thin part)",
            )
        )
    return once_a_kind(piece, found)


def _due(screw: Driven, wood: float) -> float:
    """Length of thread that is wanted in the lower part, of which there is so much `wood` (mm)."""
    full = DIAMETERS * screw.diameter
    return full if wood >= full + COVER else SHARE * wood


def _bears(piece: Piece, screw: Driven) -> str:
    """What it bears straight out, where the wood is known and it does not stand in end grain."""
    into = piece.parts[screw.fixing.into]
    wood = species(into.spec.wood)
    if wood is None or abs(float(screw.direction @ grain(into))) > 0.7:
        return ""
    kilograms = withdrawal(wood.gravity, screw.diameter, screw.bite) / GRAVITY
    return f", which bears about {kilograms:.0f} kg straight out (a rule of thumb)"
