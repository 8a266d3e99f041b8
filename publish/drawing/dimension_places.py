"""All the places a dimension could take: side of the view, row, and where its value sits on the line.

Worked in (u, w): u along the dimension line, w the other way; for "v" the two are swapped on paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import compress

from publish.drawing.box import Box, Point, Segment
from publish.drawing.lettering import Run, set_runs
from publish.drawing.placed import PlacedView
from publish.drawing.placement import Ground, Placement, Side, TextLine, allowed
from publish.drawing.records import box_of
from publish.drawing.segments import stacked
from publish.drawing.style import GREY, HouseStyle
from publish.drawing.typeface import CAP_HEIGHT
from publish.drawing.wishes import DimensionWish

ROWS = 9
_ALONG = (0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85)
_ROW_COST = 2.0
_OFF_CENTRE_COST = 1.2
_BESIDE_COST = 3.0
_EXTENSION_COST = 0.15
_FAVOURED: dict[Side, float] = {"below": 0.0, "above": 0.6, "left": 0.3, "right": 0.0}


@dataclass(frozen=True)
class Value:
    """A dimension's lettering, and its ink about the point it is centred on, mm."""

    runs: tuple[Run, ...]
    around: Box
    rotated: bool

    def line(self, x: float, y: float) -> TextLine:
        """The lettering set centred on (`x`, `y`)."""
        half = CAP_HEIGHT * self.runs[0].size / 2
        return (
            TextLine(self.runs, x + half, y, "centre", 90)
            if self.rotated
            else TextLine(self.runs, x, y - half, "centre")
        )


def value_of(wish: DimensionWish, style: HouseStyle) -> Value:
    """The lettering of `wish`: semibold, the other unit smaller and grey after it; a reference in round brackets."""
    size = style.lettering.dimension
    text = f"({wish.text})" if wish.role == "reference" and not wish.text.startswith("(") else wish.text
    runs = [Run(text, size, "semibold")]
    if wish.also:
        runs.append(Run(f" [{wish.also}]", size * style.lettering.also_scale, "regular", GREY))
    rotated = wish.direction == "v" and style.reading == "aligned"
    records = set_runs(runs, 0.0, -CAP_HEIGHT * size / 2, "centre")
    box = box_of(records)
    ink = Box(-box.top, box.left, -box.bottom, box.right) if rotated else box
    return Value(tuple(runs), ink, rotated)


@dataclass(frozen=True)
class _Frame:
    """The measured span in (u, w): from `a` to `b`, feature points at `wa` and `wb`, line at `w` on the side `out`."""

    vertical: bool
    a: float
    b: float
    wa: float
    wb: float
    w: float
    out: int

    def at(self, u: float, w: float) -> Point:
        return (w, u) if self.vertical else (u, w)

    def segment(self, u0: float, w0: float, u1: float, w1: float) -> Segment:
        return Segment(*self.at(u0, w0), *self.at(u1, w1))


def _sides(wish: DimensionWish, view: PlacedView) -> tuple[tuple[Side, float, int], ...]:
    box = view.box
    if wish.direction == "h":
        return ("below", box.bottom, -1), ("above", box.top, 1)
    return ("left", box.left, -1), ("right", box.right, 1)


def _extensions(f: _Frame, style: HouseStyle) -> tuple[Segment, ...]:
    gap, over = style.spacing.extension_gap, style.spacing.extension_overshoot
    return tuple(
        f.segment(u, wf + f.out * min(gap, abs(f.w - wf)), u, f.w + f.out * over)
        for u, wf in ((f.a, f.wa), (f.b, f.wb))
    )


def _inked(value: Value, f: _Frame, u: float, w: float) -> tuple[Box, TextLine]:
    x, y = f.at(u, w)
    return value.around.moved(x, y), value.line(x, y)


@dataclass(frozen=True)
class _Setting:
    """One way to set line, arrows and value on a frame."""

    strokes: tuple[Segment, ...]
    whole: Segment
    heads: tuple[tuple[Point, Point], ...]
    text: Box
    text_line: TextLine
    cost: float


def _settings(value: Value, f: _Frame, style: HouseStyle) -> Iterator[_Setting]:
    sp = style.spacing
    span = f.b - f.a
    outside = span < sp.arrows_outside_below
    low, high = (value.around.bottom, value.around.top) if f.vertical else (value.around.left, value.around.right)
    need = high - low + 2 * sp.text_gap + (0.0 if outside else 2 * sp.arrow_length + 1.2)
    reach = sp.arrow_tail if outside else 0.0
    line = f.segment(f.a - reach, f.w, f.b + reach, f.w)
    heads = _heads(f, outside)
    if need <= span:
        yield from _inside(value, f, style, need, reach, heads)
        return
    for u, cost in ((f.b + reach + sp.text_gap - low, 0.0), (f.a - reach - sp.text_gap - high, 0.2)):
        text, text_line = _inked(value, f, u, f.w)
        yield _Setting((line,), line, heads, text, text_line, _BESIDE_COST + cost)
    if f.vertical and not value.rotated:
        # taller than the span, it stands in the way of its own extension lines: clear of their overshoot then
        clear = sp.text_gap + (sp.extension_overshoot if high - low + sp.text_gap > span else 0.0)
        text, text_line = _inked(value, f, (f.a + f.b) / 2, f.w + f.out * (value.around.right + clear))
        yield _Setting((line,), line, heads, text, text_line, _BESIDE_COST + 0.5)


def _heads(f: _Frame, outside: bool) -> tuple[tuple[Point, Point], ...]:
    turn = -1.0 if outside else 1.0
    return (f.at(f.a, f.w), f.at(f.a + turn, f.w)), (f.at(f.b, f.w), f.at(f.b - turn, f.w))


def _inside(
    value: Value, f: _Frame, style: HouseStyle, need: float, reach: float, heads: tuple[tuple[Point, Point], ...]
) -> Iterator[_Setting]:
    """The line broken for its value, in the middle or, to get out of another line's way, off it."""
    gap = style.spacing.text_gap
    low, high = (value.around.bottom, value.around.top) if f.vertical else (value.around.left, value.around.right)
    for share in _ALONG:
        u = f.a + share * (f.b - f.a)
        if share != 0.5 and (u - need / 2 < f.a or u + need / 2 > f.b):
            continue
        text, text_line = _inked(value, f, u, f.w)
        whole = f.segment(f.a - reach, f.w, f.b + reach, f.w)
        inner = (f.a, f.b) if reach else (u + low - gap, u + high + gap)
        parts = f.segment(f.a - reach, f.w, inner[0], f.w), f.segment(inner[1], f.w, f.b + reach, f.w)
        yield _Setting(
            parts, whole, heads, text, text_line, _OFF_CENTRE_COST * (abs(share - 0.5) > 0) + abs(share - 0.5)
        )


def dimension_places(wish: DimensionWish, ground: Ground, style: HouseStyle, tight: bool) -> list[Placement]:
    """Every place for `wish` that by itself overlaps nothing, cheapest first. `tight`: rows at the least distances."""
    view = ground.views[wish.view]
    sp = style.spacing
    first, step = (sp.tight_first_row, sp.tight_next_row) if tight else (sp.first_row, sp.next_row)
    value = value_of(wish, style)
    vertical = wish.direction == "v"
    ends = sorted((p[::-1] if vertical else p) for p in (view.at(wish.p0), view.at(wish.p1)))
    (a, wa), (b, wb) = ends
    found = []
    for side, edge, out in _sides(wish, view):
        for row in range(ROWS):
            f = _Frame(vertical, a, b, wa, wb, edge + out * (first + row * step), out)
            extensions = _extensions(f, style)
            if not all(ground.free.holds(s.box) for s in extensions):
                break  # so do all the rows further out
            base = _FAVOURED[side] + row * _ROW_COST + _EXTENSION_COST * (abs(edge - wa) + abs(edge - wb))
            found += [(side, row, base, extensions, s) for s in _settings(value, f, style)]
    text = stacked([s.text for *_, s in found])
    lines = stacked([x for *_, e, s in found for x in (s.strokes[0], s.strokes[-1], *e)]).reshape(4, -1, 4)
    good = allowed(text, lines, wish.view, ground, sp.text_clearance)
    return sorted((_placement(wish, (a, b), *place) for place in compress(found, good)), key=lambda c: c.cost)


def _placement(
    wish: DimensionWish,
    span: tuple[float, float],
    side: Side,
    row: int,
    base: float,
    extensions: tuple[Segment, ...],
    s: _Setting,
) -> Placement:
    return Placement(
        wish,
        s.text,
        (s.text_line,),
        base + s.cost,
        s.strokes,
        extensions,
        heads=s.heads,
        dimension=s.whole,
        side=side,
        row=row,
        span=span,
    )
