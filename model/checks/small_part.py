"""Some parts are too small to be held safely at a machine."""

from __future__ import annotations

from model.checks.finding import at_least, finding, said
from model.piece import Piece
from plans.problems import Problem

SHORTEST = 75.0  # mm, 3 in: hands come too near (common practice)
THINNEST = 5.0  # mm, 3/16 in: below it a planer tears or throws the wood (common practice)


def check(piece: Piece) -> list[Problem]:
    """Parts shorter or thinner than is safe to machine one by one."""
    found = []
    for kind, spec in piece.design.parts.items():
        if spec.supplied or spec.material is not None:
            continue
        parts = [part for part in piece.parts.values() if part.kind == kind]
        length = min(part.over_all[0] for part in parts)
        thickness = min(min(part.over_all[1:]) for part in parts)
        for field, size, least in (("length", length, SHORTEST), ("thickness", thickness, THINNEST)):
            # thin sheets are sold thin: nobody planes them
            if size >= least or (field == "thickness" and spec.sheet is not None):
                continue
            found.append(
                finding(
                    "small-part",
                    "note",
                    f"{kind} is too small to be machined safely by itself",
                    piece.design.place("parts", kind, field),
                    "shape it on the end or the edge of a larger piece and cut it off last, or work it by hand",
                    [part.name for part in parts],
                    f"{said(piece, size)} in {field}",
                    f"at least {at_least(piece, least)}",
                )
            )
    return found
