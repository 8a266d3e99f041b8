"""Lists set in columns: header, rows with fine rules, cells that wrap, and a break into parts where a page ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from publish.drawing.box import Box
from publish.drawing.lettering import has_fraction, set_text, text_height, text_width, wrap
from publish.drawing.records import Anchor, Line, Link, Record, rectangle
from publish.drawing.style import HOUSE, HouseStyle, Pen
from publish.drawing.typeface import CAP_HEIGHT, FaceStyle

_PADDING = 1.6
_ROUNDING = 0.02  # mm: a column as wide as its widest cell must not break it for the last digit of a sum
_ROW_AIR = 1.35


@dataclass(frozen=True)
class Column:
    """One column. `stretch`: its share of spare width; columns with a share may wrap, others keep their natural width.

    `least`: the least width, mm, it is squeezed to.
    """

    title: str
    align: Anchor = "left"
    stretch: float = 0.0
    least: float = 14.0
    style: FaceStyle = "regular"


@dataclass(frozen=True)
class Row:
    """One row: a string a column; a `group` row has one string, naming the rows after it. `to`: a sheet's key."""

    cells: tuple[str, ...]
    group: bool = False
    to: str = ""


@dataclass(frozen=True)
class TablePart:
    """As much of a table as one area takes: its records, the box used (None: nothing fitted), the rows left over."""

    records: tuple[Record, ...]
    box: Box | None
    rest: tuple[Row, ...]


def column_widths(columns: Sequence[Column], rows: Sequence[Row], width: float, size: float) -> list[float]:
    """Widths in mm that add up to `width` where a column can stretch; else natural widths, shrunk alike if too wide."""
    natural = [
        2 * _PADDING
        + _ROUNDING
        + max(
            [text_width(c.title, size * 0.9, "semibold")]
            + [text_width(r.cells[n], size, c.style) for r in rows if not r.group]
        )
        for n, c in enumerate(columns)
    ]
    spare = width - sum(natural)
    shares = sum(c.stretch for c in columns)
    if spare >= 0:
        return [w + (spare * c.stretch / shares if shares else 0.0) for w, c in zip(natural, columns, strict=True)]
    return _squeezed(columns, natural, width)


def _squeezed(columns: Sequence[Column], natural: list[float], width: float) -> list[float]:
    """`natural` widths brought down to `width`: wrapping columns give way first, by what they can spare."""
    give = [max(0.0, w - c.least) if c.stretch else 0.0 for w, c in zip(natural, columns, strict=True)]
    over = sum(natural) - width
    if sum(give) > over:
        return [w - over * g / sum(give) for w, g in zip(natural, give, strict=True)]
    left = [w - g for w, g in zip(natural, give, strict=True)]
    return [w * width / sum(left) for w in left] if sum(left) > width else left


def _wrapped(row: Row, columns: Sequence[Column], widths: Sequence[float], size: float) -> list[list[str]]:
    return [wrap(cell, w - 2 * _PADDING, size, c.style) for cell, c, w in zip(row.cells, columns, widths, strict=True)]


def _line_height(cells: Sequence[Sequence[str]], size: float) -> float:
    tall = max((text_height(line, size) for lines in cells for line in lines if has_fraction(line)), default=0.0)
    return max(size * HOUSE.lettering.leading, tall + 0.7)


class _Setter:
    """Lays the rows of one part from the top of an area downwards."""

    def __init__(self, columns: Sequence[Column], widths: Sequence[float], area: Box, size: float, style: HouseStyle):
        self.columns, self.widths, self.area, self.size, self.style = columns, widths, area, size, style
        self.y = area.top
        self.records: list[Record] = []
        self.right = area.left + sum(widths)

    def room(self) -> float:
        return self.y - self.area.bottom

    def header(self) -> None:
        size = self.size * 0.9
        titles = [
            wrap(c.title, w - 2 * _PADDING, size, "semibold") for c, w in zip(self.columns, self.widths, strict=True)
        ]
        step = size * 1.2
        height = max(len(t) for t in titles) * step + 2 * _ROW_AIR
        band = Box(self.area.left, self.y - height, self.right, self.y)
        self.records.append(rectangle(band, fill=self.style.colours.bands))
        for n, lines in enumerate(titles):
            first = self.y - height + _ROW_AIR + (len(lines) - 1) * step + (step - CAP_HEIGHT * size) / 2
            for k, line in enumerate(lines):
                self._text(n, line, first - k * step, size, "semibold")
        self.y -= height
        self._rule(self.style.pens.cell)

    def _text(self, column: int, line: str, baseline: float, size: float, face: FaceStyle) -> None:
        left = self.area.left + sum(self.widths[:column])
        width = self.widths[column]
        align = self.columns[column].align
        x = {"left": left + _PADDING, "centre": left + width / 2, "right": left + width - _PADDING}[align]
        self.records.extend(set_text(line, x, baseline, size, face, align))

    def _rule(self, pen: Pen) -> None:
        self.records.append(Line(self.area.left, self.y, self.right, self.y, pen))

    def height_of(self, row: Row) -> float:
        if row.group:
            return self.size * 1.3 + 2 * _ROW_AIR + 1.0
        cells = _wrapped(row, self.columns, self.widths, self.size)
        return max(len(c) for c in cells) * _line_height(cells, self.size) + 2 * _ROW_AIR * 0.7

    def group(self, row: Row) -> None:
        height = self.height_of(row)
        baseline = self.y - height + _ROW_AIR + 0.2 * self.size
        self.records.extend(set_text(row.cells[0], self.area.left + _PADDING, baseline, self.size, "bold"))
        self.y -= height
        self._rule(self.style.pens.rule)

    def row(self, row: Row) -> None:
        cells = _wrapped(row, self.columns, self.widths, self.size)
        step, height = _line_height(cells, self.size), self.height_of(row)
        first = self.y - _ROW_AIR * 0.7 - step / 2 - CAP_HEIGHT * self.size / 2
        for n, lines in enumerate(cells):
            for k, line in enumerate(lines):
                self._text(n, line, first - k * step, self.size, self.columns[n].style)
        if row.to:
            self.records.append(Link(Box(self.area.left, self.y - height, self.right, self.y), row.to))
        self.y -= height
        self._rule(self.style.pens.rule)

    def cut(self, row: Row) -> tuple[Row, Row] | None:
        """A row too tall for the room, as the part that fits and the part that does not; None when no line fits."""
        cells = _wrapped(row, self.columns, self.widths, self.size)
        lines = int((self.room() - 2 * _ROW_AIR * 0.7) / _line_height(cells, self.size))
        if lines < 1:
            return None
        head = tuple(" ".join(c[:lines]) for c in cells)
        return replace(row, cells=head), replace(row, cells=tuple(" ".join(c[lines:]) for c in cells))


def set_table(
    columns: Sequence[Column],
    rows: Sequence[Row],
    area: Box,
    size: float = HOUSE.lettering.small,
    style: HouseStyle = HOUSE,
    widths: Sequence[float] | None = None,
) -> TablePart:
    """The header and as many rows as `area` takes, from its top; the rest is for the next page.

    Give `widths` (see `column_widths`) so that the parts of one table keep the same columns. A row taller than a whole
    area is cut between two lines. ValueError for a row of the wrong number of cells.
    """
    for row in rows:
        if len(row.cells) != (1 if row.group else len(columns)):
            raise ValueError(f"a row of {len(row.cells)} cells in a table of {len(columns)} columns")
    setter = _Setter(columns, widths or column_widths(columns, rows, area.width, size), area, size, style)
    setter.header()
    if setter.room() < size * HOUSE.lettering.leading + 2 * _ROW_AIR:
        return TablePart((), None, tuple(rows))
    rest = _lay_rows(setter, list(rows))
    if len(rest) == len(rows) and rows:
        return TablePart((), None, tuple(rows))
    return TablePart(tuple(setter.records), Box(area.left, setter.y, setter.right, area.top), tuple(rest))


def _lay_rows(setter: _Setter, rows: list[Row]) -> list[Row]:
    """Lay rows while there is room; the rows left. A group's name is not left alone at the foot."""
    fresh = True
    while rows:
        need = setter.height_of(rows[0])
        if rows[0].group and len(rows) > 1:
            need += setter.height_of(rows[1])
        if need > setter.room():
            halves = setter.cut(rows[0]) if fresh and not rows[0].group else None
            if halves is None:
                break
            setter.row(halves[0])
            return [halves[1], *rows[1:]]
        row = rows.pop(0)
        (setter.group if row.group else setter.row)(row)
        fresh = fresh and row.group
    return rows
