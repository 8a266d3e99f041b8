"""The rough board must yield the finished thickness when both sides are surfaced."""

from __future__ import annotations

from model.checks.finding import finding, said
from model.piece import Piece
from plans.library import rough_stock, rough_stocks
from plans.problems import Problem
from plans.spec import PartSpec

NOISE = 0.05  # mm


def check(piece: Piece) -> list[Problem]:
    """Parts thicker than their rough stock surely yields."""
    found = []
    for kind, spec in piece.design.parts.items():
        stock = None if spec.stock is None or not spec.wood else rough_stock(spec.stock)
        thickness = _thickest(spec, max(part.over_all[2] for part in piece.parts.values() if part.kind == kind))
        if stock is None or thickness <= stock.surfaced + NOISE:
            continue
        thicker = next((one.name for one in rough_stocks(stock.system) if one.surfaced >= thickness - NOISE), None)
        hint = f"take {thicker} stock" if thicker else "glue it up from thinner boards"
        names = [name for name, part in piece.parts.items() if part.kind == kind]
        found.append(
            finding(
                "stock-too-thin",
                "error" if thickness >= stock.rough - NOISE else "warning",
                f"{stock.name} stock does not clean up to the thickness of {kind}",
                piece.design.place("parts", kind, "thickness"),
                f"{hint}, or make the part thinner",
                names,
                f"{said(piece, thickness)} finished",
                f"at most {said(piece, stock.surfaced)} from {stock.name}",
            )
        )
    return found


def _thickest(spec: PartSpec, over_all: float) -> float:
    """Thickness of a part, or of the thickest of its layers where it is glued up face to face (mm)."""
    made = spec.glued_up
    if made is None or made.joined != "face to face":
        return over_all
    return max(made.reach(over_all))
