"""One way of setting down one wish: where its text, lines, leader and arrows lie, and what that costs by itself."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from publish.drawing.box import Box, Point, Segment, around
from publish.drawing.lettering import Run, set_runs
from publish.drawing.placed import PlacedView
from publish.drawing.records import Line, Record, arc_path, arrow_head
from publish.drawing.segments import Bools, Floats, Ints, bounds, cross, grown, hold, meet, run_through, stacked
from publish.drawing.style import HouseStyle
from publish.drawing.wishes import Wish

Side = Literal["below", "above", "left", "right"]


@dataclass(frozen=True)
class TextLine:
    """Runs to be set centred, or from the left, on a baseline point."""

    runs: tuple[Run, ...]
    x: float
    y: float
    anchor: Literal["left", "centre", "right"]
    rotation: Literal[0, 90] = 0


@dataclass(frozen=True)
class Arc:
    """The arc of an angle; radians."""

    centre: Point
    radius: float
    start: float
    end: float


@dataclass(frozen=True, eq=False)
class Placement:
    """A candidate. `text` is the box round all its lettering; `dimension` the whole dimension line, tails included.

    `row` counts outwards from the outline, `span` is (from, to) along the dimension's direction; both for dimensions
    only.
    """

    wish: Wish
    text: Box
    text_lines: tuple[TextLine, ...]
    cost: float
    strokes: tuple[Segment, ...] = ()
    extensions: tuple[Segment, ...] = ()
    leader: tuple[Segment, ...] = ()
    heads: tuple[tuple[Point, Point], ...] = ()
    arcs: tuple[Arc, ...] = ()
    dimension: Segment | None = None
    side: Side | None = None
    row: int = 0
    span: tuple[float, float] = (0.0, 0.0)

    @cached_property
    def lines(self) -> tuple[Segment, ...]:
        """All its lines, the leader's too."""
        return self.strokes + self.extensions + self.leader

    @cached_property
    def box(self) -> Box:
        """The box round everything it draws."""
        return around([self.text, *(s.box for s in self.lines)])

    @cached_property
    def reach(self) -> Box:
        """The box within which anything else may be too close to a dimension line of this one."""
        return self.box.grown(ROW_APART)

    def records(self, style: HouseStyle) -> list[Record]:
        """The placement drawn."""
        spacing, pen = style.spacing, style.pens.dimension
        arc_edges = bool(self.arcs)
        drawn = self.extensions if arc_edges else self.strokes + self.extensions
        records: list[Record] = [Line(*s, pen) for s in drawn]
        records += [Line(*s, style.pens.leader) for s in self.leader]
        records += [arc_path(a.centre, a.radius, a.start, a.end, pen) for a in self.arcs]
        records += [arrow_head(tip, back, spacing.arrow_length, spacing.arrow_width) for tip, back in self.heads]
        for line in self.text_lines:
            records += set_runs(line.runs, line.x, line.y, line.anchor, line.rotation)
        return records


ROW_APART = 5.0  # mm: dimension lines nearer than this are on one line
SAME_PLACE = 0.3  # mm: ends nearer than this meet


@dataclass(frozen=True)
class Ground:
    """What is on the sheet before anything is placed: the free area, views by key, and boxes to keep clear of."""

    free: Box
    views: dict[str, PlacedView]
    taken: tuple[Box, ...] = ()

    def blocked(self, key: str) -> Floats:
        """The boxes (4 x n) that lines of view `key` may not enter: other views' outlines and what is taken."""
        return stacked([*(v.box for k, v in self.views.items() if k != key), *self.taken])

    @cached_property
    def strokes(self) -> dict[str, Floats]:
        """The strokes of each view, 4 x n."""
        return {key: stacked(view.segments) for key, view in self.views.items()}


def allowed(
    text: Floats, lines: Floats, key: str, ground: Ground, clearance: float | Floats, inside_own: bool = False
) -> Bools:
    """Which of n places about view `key`, each by itself, overlap nothing on the sheet.

    text: 4 x n; lines: 4 x n x the lines of each; clearance: round the text, mm. Text is clear of views (of strokes
    alone where `inside_own`), no line goes through another view, all lies inside the free area.
    """
    box = bounds(lines)
    box = np.stack([*box[:2].min(axis=2, initial=np.inf), *box[2:].max(axis=2, initial=-np.inf)])
    box = np.stack([*np.minimum(box[:2], text[:2]), *np.maximum(box[2:], text[2:])])
    good = hold(ground.free, box)
    text, blocked = grown(text, clearance), ground.blocked(key)
    good &= ~meet(text[:, :, None], blocked[:, None]).any(axis=1)
    if not inside_own:
        good &= ~meet(text, stacked([ground.views[key].box.grown(1.0)]))
    for n in range(blocked.shape[1]):
        at = np.flatnonzero(good & meet(box, blocked[:, n, None]))
        good[at] = ~run_through(lines[:, at], blocked[:, n, None, None]).any(axis=1)
    if inside_own:
        strokes = ground.strokes[key]
        at = np.flatnonzero(good)
        place, stroke = np.nonzero(meet(text[:, at, None], bounds(strokes)[:, None]))
        good[at[place[run_through(strokes[:, stroke], text[:, at[place]])]]] = False
    return good


def crossings(lines: Floats, key: str, ground: Ground) -> Ints:
    """How many strokes of view `key` each of `lines` (4 x n) crosses."""
    count: Ints = cross(lines[:, :, None], ground.strokes[key][:, None]).sum(axis=1)
    return count
