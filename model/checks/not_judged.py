"""What a check meets and cannot judge, it says."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Part, Piece
from model.supports import spans
from plans.fixings import (
    ButtHinge,
    DrawerSlide,
    LidStay,
    MachineBolt,
    Nail,
    ShelfPin,
    TopFastener,
    WallStrap,
)
from plans.library import species
from plans.problems import Problem

BOUGHT = ButtHinge | DrawerSlide | LidStay | MachineBolt | Nail | ShelfPin | TopFastener | WallStrap


def check(piece: Piece) -> list[Problem]:
    """Loads on parts whose supports are not known, and fittings whose strength no table here tells."""
    found = []
    for number, load in enumerate(piece.design.spec.loads):
        parts = [part for part in piece.parts.values() if part.kind == load.part]
        reason = _reason(piece, parts)
        if not reason:
            continue
        found.append(
            finding(
                "not-judged",
                "note",
                f"the sag of {load.part} is not judged: {reason}",
                piece.design.place("loads", number),
                "say the joints or fixings that hold it up, or work it out for yourself",
                [part.name for part in parts],
            )
        )
    return found + _bought(piece)


def _bought(piece: Piece) -> list[Problem]:
    """Fittings whose strength is their maker's affair."""
    made = [f for f in piece.fixings if isinstance(piece.design.spec.fixings[f.number], BOUGHT)]
    if not made:
        return []
    kinds = list(dict.fromkeys(fixing.kind for fixing in made))
    return [
        finding(
            "not-judged",
            "note",
            f"what these bear is not judged: {', '.join(kinds)}",
            piece.design.fixing_place(made[0].number),
            "keep to the loads that their makers state, and try them before the piece goes out",
            [name for fixing in made for name in (fixing.through, fixing.into)],
        )
    ]


def _reason(piece: Piece, parts: list[Part]) -> str:
    if not all(spans(piece, part) for part in parts):
        return "it has no two supports that a joint or a fixing shows"
    if any(species(part.spec.wood) is None for part in parts):
        return f"the tables do not say how stiff {parts[0].spec.made_of} is"
    return ""
