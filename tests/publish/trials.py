"""Small designs that tests make up as they go, and editions that know as much as part sheets need."""

from __future__ import annotations

from typing import Any

import yaml

from model.build import build
from model.piece import Piece
from plans.resolve import resolve
from plans.source import read_text
from plans.units import UnitSystem
from publish.drawn import Drawn
from publish.edition import Edition
from publish.part_views import draw

Entry = dict[str, Any]
HEAD = {"plan": "Trial", "revision": 1, "date": "2026-11-20", "maker": "Saltmarsh Lane Joinery", "units": "mm"}


def built(design: Entry) -> Piece | None:
    """What comes of a design; None where it is refused."""
    source, problems = read_text("trial.yaml", yaml.safe_dump({**HEAD, **design}, sort_keys=False).encode())
    assert source is not None, problems
    resolved, _ = resolve(source)
    return None if resolved is None else build(resolved)[0]


def edition_of(piece: Piece, system: str = "mm") -> Edition:
    """An edition that knows as much as part sheets need."""
    parts = {item.mark: draw(piece.parts[item.shown]) for item in piece.items}
    units = UnitSystem("mm", piece.design.step_mm) if system == "mm" else UnitSystem("inch", piece.design.step_inch)
    return Edition(piece, (), Drawn(parts, *[None] * 6, (), (), (), (), {}), units)  # type: ignore[arg-type]
