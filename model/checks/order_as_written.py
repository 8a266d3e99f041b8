"""A piece of very many parts: its order of assembly is not worked out, but that of the design file."""

from __future__ import annotations

from model.checks.finding import finding
from model.piece import Piece
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """A note: the steps are in the order of the file, and nobody has tried whether the parts go in so."""
    if not any(stage.base and not move.path for stage in piece.stages for move in stage.moves):
        return []
    return [
        finding(
            "order-as-written",
            "note",
            f"the order of assembly of {len(piece.parts)} parts was not worked out: the steps follow the design file",
            piece.design.place("parts"),
            "try the order dry, or name `assemblies`: parts that are put together apart are looked at apart",
            (),
            "the order of the file",
            "an order that was tried on the solids",
        )
    ]
