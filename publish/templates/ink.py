"""The lines of a template as records on paper, full size."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from model.loops import Flat, Stretch, every_stretch, ring
from model.templates import Template
from publish.drawing.box import Box, Segment, segment_meets_box
from publish.drawing.records import Curve, Line, Move, Path, Record, Step
from publish.drawing.style import Pen, Pens
from publish.templates.tiles import clipped

CROSS = 2.5  # mm the centre lines of a hole stand out of it


def strokes(template: Template, pens: Pens) -> list[tuple[Pen, list[Stretch]]]:
    """Every line of a template with the pen that draws it, the finest first."""
    holes = [ring(centre, diameter) for centre, diameter in template.holes]
    return [
        (
            pens.dimension,
            [line for centre, diameter in template.holes for line in _cross(centre, diameter / 2 + CROSS)],
        ),
        (pens.dimension, list(every_stretch(template.deeper))),
        (pens.visible, list(every_stretch((*template.openings, *holes)))),
        (pens.visible, list(every_stretch(template.outline))),
    ]


def every_line(template: Template) -> list[Stretch]:
    """The lines that shape it: rims, openings and holes."""
    holes = (ring(centre, diameter) for centre, diameter in template.holes)
    return list(every_stretch((*template.loops, *holes)))


def drawn(template: Template, window: Box, at: Flat, pens: Pens, scale: float = 1.0) -> list[Record]:
    """What shows of a template in a window, the window's lower left corner at `at` on paper."""
    shift = at[0] - window.left * scale, at[1] - window.bottom * scale
    return [
        record(piece, shift, pen, scale) for pen, lines in strokes(template, pens) for piece in clipped(lines, window)
    ]


def record(stretch: Stretch, shift: Flat, pen: Pen, scale: float = 1.0) -> Record:
    """A stretch on paper: a line, or a path of cubics, one for each 45 degrees or less."""

    def place(point: Flat) -> Flat:
        return point[0] * scale + shift[0], point[1] * scale + shift[1]

    if not stretch.is_round:
        return Line(*place(stretch.start), *place(stretch.end), pen)
    count = max(1, math.ceil(abs(stretch.sweep) / (math.pi / 4) - 1e-9))
    steps: list[Step] = [Move(place(stretch.start))]
    for n in range(count):
        a, b = stretch.at(n / count), stretch.at((n + 1) / count)
        first, second = _handles(stretch, a, b, stretch.sweep / count)
        steps.append(Curve(place(first), place(second), place(b)))
    return Path(tuple(steps), pen)


def _handles(stretch: Stretch, a: Flat, b: Flat, turn: float) -> tuple[Flat, Flat]:
    """The inner points of the cubic that stands for an arc from `a` to `b`."""
    (x, y), k = stretch.centre, 4 / 3 * math.tan(turn / 4)
    return (
        (a[0] - (a[1] - y) * k, a[1] + (a[0] - x) * k),
        (b[0] + (b[1] - y) * k, b[1] - (b[0] - x) * k),
    )


def in_the_way(template: Template) -> list[Segment]:
    """What lettering keeps clear of, as short straight lines: every line, and a square round each hole's cross."""
    found = segments(every_stretch(template.loops))
    for (x, y), diameter in template.holes:
        box = Box(x, y, x, y).grown(diameter / 2 + CROSS)
        ring = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
        found += [Segment(*ring[n - 1], *corner) for n, corner in enumerate(ring)]
    return found


def near(box: Box, lines: Iterable[Segment]) -> list[Segment]:
    """The lines that come into a box, or may."""
    return [line for line in lines if line.box.grown(1e-9).meets(box)]


def segments(stretches: Iterable[Stretch]) -> list[Segment]:
    """Stretches as short straight lines."""
    found = []
    for s in stretches:
        points = [*s.points(), s.end]
        found += [Segment(*a, *b) for a, b in pairwise(points)]
    return found


def clear(box: Box, lines: Iterable[Segment]) -> bool:
    """Whether no line runs through a box."""
    return not any(segment_meets_box(line, box) for line in lines)


def _cross(centre: Flat, half: float) -> list[Stretch]:
    x, y = centre
    return [Stretch((x - half, y), (x + half, y)), Stretch((x, y - half), (x, y + half))]
