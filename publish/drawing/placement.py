"""One way of setting down one wish: where its text, lines, leader and arrows lie, and what that costs by itself."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from publish.drawing.box import Box, Point, Segment, around, segment_meets_box, segments_cross
from publish.drawing.lettering import Run, set_runs
from publish.drawing.placed import PlacedView
from publish.drawing.records import Line, Record, arc_path, arrow_head
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


@dataclass(frozen=True)
class Ground:
    """What is on the sheet before anything is placed: the free area, views by key, and boxes to keep clear of."""

    free: Box
    views: dict[str, PlacedView]
    taken: tuple[Box, ...] = ()

    def blocked(self, key: str) -> tuple[Box, ...]:
        """The boxes that lines of view `key` may not enter: other views' outlines and what is taken."""
        return tuple(v.box for k, v in self.views.items() if k != key) + self.taken


def allowed(candidate: Placement, ground: Ground, clearance: float, inside_own: bool = False) -> bool:
    """True when the candidate, by itself, overlaps nothing on the sheet: text clear of views (of strokes alone where
    `inside_own`), no line through another view, all inside the free area.
    """
    key = candidate.wish.view
    text = candidate.text.grown(clearance)
    if not ground.free.holds(candidate.box):
        return False
    own = ground.views[key]
    blocked = ground.blocked(key)
    if any(text.meets(b) for b in blocked) or (not inside_own and text.meets(own.box.grown(1.0))):
        return False
    if inside_own and any(segment_meets_box(s, text) for s in own.segments):
        return False
    return not any(segment_meets_box(line, b) for b in blocked for line in candidate.lines)


def crossings(line: Segment, view: PlacedView) -> int:
    """How many strokes of `view` the line crosses."""
    return sum(segments_cross(line, s) for s in view.segments)
