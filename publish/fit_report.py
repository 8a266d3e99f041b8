"""The fit report: what the checks found, for the maker's own file; no part of the set that is sold."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from model.movement import Moves, moisture_range, movement_table
from model.piece import Piece
from model.stability import stand
from plans.problems import Problem
from plans.units import UnitSystem, shown
from publish.drawing.flow import Block, Caution, Heading, Listing, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.drawing.title_block import SheetInfo
from publish.edition import PAPERS, UNIT_WORDS
from publish.house import style_of
from publish.paged import paged
from publish.words.estimates import movement_words, standing_words
from publish.words.fit import ESTIMATE, NOT_JUDGED, grouped, tally
from publish.words.names import capital
from publish.writers.pdf import Document, write_pdf

KEY = "fit-report"


def fit_report(path: Path, piece: Piece, problems: Sequence[Problem]) -> int:
    """Write the report of a piece as a PDF, in the design's own units; gives the number of its pages."""
    units, style = piece.design.units(), style_of(piece.design)
    blocks = [*_found(problems), *_movement(piece, units), *_standing(piece, units), *_limits()]
    sheets = paged(KEY, blocks, _info(piece, units), PAPERS[units.name], style)
    spec = piece.design.spec
    language = {"inch": "en-US", "mm": "en-GB"}[units.name]
    title = f"{spec.plan}, fit report"
    write_pdf(path, sheets, Document(title, spec.maker, "For the maker's own file.", "fit report", language))
    return len(sheets)


def _info(piece: Piece, units: UnitSystem) -> SheetInfo:
    spec = piece.design.spec
    return SheetInfo(
        title="Fit report",
        project=spec.plan,
        sheet=1,
        sheets=1,
        units=UNIT_WORDS[units.name],
        revision=str(spec.revision),
        maker=style_of(piece.design).imprint.name or spec.maker,
        caption="FIT",
    )


def _found(problems: Sequence[Problem]) -> list[Block]:
    blocks: list[Block] = [
        Heading("Fit report"),
        Paragraph(f"For the maker's own file, not for the buyer. The checks found: {tally(problems)}."),
    ]
    columns = (
        Column("Line", "right"),
        Column("Finding", stretch=2.0, style="semibold"),
        Column("Found", stretch=1.2),
        Column("Wanted", stretch=1.2),
        Column("What cures it", stretch=1.6),
    )
    rows: list[Row] = []
    for name, found in grouped(problems):
        rows.append(Row((name,), group=True))
        rows += [
            Row((str(p.place.line or ""), capital(f"{p.severity}: {p.message}"), p.found, p.wanted, p.hint))
            for p in found
        ]
    return [*blocks, TableBlock(columns, tuple(rows))] if rows else blocks


def _movement(piece: Piece, units: UnitSystem) -> list[Block]:
    low, high = moisture_range(piece)
    columns = (
        Column("Mark", style="bold"),
        Column("Part", stretch=1.5),
        Column("Wood", stretch=1.0),
        Column("Rings"),
        Column("Width", "right"),
        Column("moves", "right"),
        Column("Thickness", "right"),
        Column("moves", "right"),
    )
    rows = tuple(_moves_row(moves, units) for moves in movement_table(piece))
    return [Heading("Movement of the wood"), Paragraph(movement_words(low, high)), TableBlock(columns, rows)]


def _moves_row(moves: Moves, units: UnitSystem) -> Row:
    def amount(mm: float | None) -> str:
        return "not known" if mm is None else shown(mm, units.name)

    width, thickness = units.length(moves.width), units.length(moves.thickness)
    changes = amount(moves.width_change), amount(moves.thickness_change)
    name = capital(moves.item.name)
    return Row((moves.item.mark, name, moves.wood, moves.rings, width, changes[0], thickness, changes[1]))


def _standing(piece: Piece, units: UnitSystem) -> list[Block]:
    standing = stand(piece)
    if standing is None or piece.design.spec.stands == "on the wall":
        return []
    return [Heading("Standing"), Paragraph(standing_words(standing, units.name))]


def _limits() -> list[Block]:
    return [Caution(ESTIMATE), Heading("What is not judged", 2), Listing(NOT_JUDGED)]
