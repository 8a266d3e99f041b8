"""Layouts on sheets: cuts from edge to edge in either direction first, parts turned where their grain allows."""

from __future__ import annotations

from collections.abc import Sequence

from model.boards.faces import lay_out
from model.boards.pieces import Board, Layout, Rules, Wanted


def lay_out_sheets(wanted: Sequence[Wanted], sheets: Sequence[Board], rules: Rules) -> Layout:
    """Parts onto sheets; the direction of cutting changes so often that there are at most `rules.stages` stages.

    Cutting may begin either way; `rip_first` says which is liked better where both need as many stages.
    """
    return lay_out(wanted, sheets, rules, ("rip", "crosscut") if rules.rip_first else ("crosscut", "rip"))
