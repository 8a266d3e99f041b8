"""The cut list as a table for a spreadsheet."""

from __future__ import annotations

import csv
import io

from model.cut_list import cut_list
from publish.edition import Edition
from publish.words.lists import row_name, row_note

HEADER = (
    "mark",
    "part",
    "quantity",
    "of which mirrored",
    "unit",
    "thickness",
    "width",
    "length",
    "rough width",
    "rough length",
    "parts from each blank",
    "marked to fit",
    "wood",
    "stock",
    "rings",
    "note",
)
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def cut_list_csv(edition: Edition) -> str:
    """The file's text, lines ended as RFC 4180 has them. Sizes as printed in the set, fractions with a plain slash."""
    target = io.StringIO()
    writer = csv.writer(target, lineterminator="\r\n")
    writer.writerow(HEADER)
    for row in cut_list(edition.piece):
        sizes = (row.thickness, row.width, row.length, row.rough_width, row.rough_length)
        writer.writerow(
            [
                row.mark,
                _text(row_name(edition, row)),
                row.item.quantity,
                len(row.item.mirrored),
                edition.units.suffix,
                *(edition.number(mm).replace("⁄", "/") for mm in sizes),
                row.blanks[0].gives,
                " and ".join(row.fits),
                _text(row.wood),
                _text(row.stock or ""),
                row.rings,
                _text(row_note(edition, row)),
            ]
        )
    return target.getvalue()


def _text(text: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text
