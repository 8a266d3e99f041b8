"""Quarter-sawn and rift-sawn boards are narrow: a log has only so much of them."""

from __future__ import annotations

from model.checks.finding import at_most, finding, said
from model.piece import Piece
from plans.problems import Problem

WIDEST = {"quarter": 203.2, "rift": 152.4}  # mm, 8 in and 6 in (common practice)


def check(piece: Piece) -> list[Problem]:
    """Parts whose growth rings are said to lie in a way that boards so wide seldom have."""
    found = []
    for kind, spec in piece.design.parts.items():
        widest = WIDEST.get(spec.rings)
        edges = spec.glued_up is not None and spec.glued_up.joined == "edge to edge"
        over_all = max(part.over_all[1] for part in piece.parts.values() if part.kind == kind)
        width = max(spec.glued_up.reach(over_all)) if edges and spec.glued_up else over_all
        if widest is None or not spec.wood or width <= widest:
            continue
        found.append(
            finding(
                "rings-hard-to-get",
                "warning",
                f"{spec.rings}-sawn boards as wide as {kind} are seldom found",
                piece.design.place("parts", kind, "rings"),
                "glue the part up from narrower boards, or let the rings lie as they come",
                [name for name, part in piece.parts.items() if part.kind == kind],
                f"{said(piece, width)} wide",
                f"at most {at_most(piece, widest)} from one board",
            )
        )
    return found
