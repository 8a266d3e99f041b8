"""Layouts on solid boards of any width: ripped into strips and crosscut, or crosscut first, grain along the board."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from model.boards.faces import lay_out
from model.boards.pieces import Board, Layout, Rules, Wanted


def lay_out_boards(wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules) -> Layout:
    """Parts onto boards. Each part is cut wider by the jointing allowance on both edges and is never turned."""
    wider = [replace(part, width=part.width + 2 * rules.edge_allowance, grain=True) for part in wanted]
    return lay_out(wider, boards, rules, ("rip",) if rules.rip_first else ("crosscut",))
