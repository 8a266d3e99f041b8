"""Closed outlines on a flat face, as plain numbers: straight lines and arcs, mm, x to the right and y up.

A stretch bends by its `bulge`: the tangent of a quarter of the angle it turns through, positive to the left; 0 is
straight. That is also how DXF writes a polyline.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

Flat = tuple[float, float]
Bounds = tuple[float, float, float, float]  # left, bottom, right, top
STRAIGHT = 1e-9  # a bulge below this is a straight line
CHORD = math.radians(6)  # an arc is taken for a line over this much of its turn, where only lines will do
SAME = 1e-6  # mm


@dataclass(frozen=True)
class Stretch:
    """One straight or round piece of an outline."""

    start: Flat
    end: Flat
    bulge: float = 0.0

    @property
    def sweep(self) -> float:
        """The angle it turns through (radians), positive to the left."""
        return 4 * math.atan(self.bulge)

    @property
    def chord(self) -> float:
        """Distance of its ends (mm)."""
        return math.dist(self.start, self.end)

    @property
    def radius(self) -> float:
        """Of an arc (mm)."""
        return self.chord * (1 + self.bulge**2) / (4 * abs(self.bulge))

    @property
    def centre(self) -> Flat:
        """Of an arc."""
        (x0, y0), (x1, y1) = self.start, self.end
        aside = (1 - self.bulge**2) / (4 * self.bulge)  # from the middle of the chord, in chords, to the left
        return (x0 + x1) / 2 - (y1 - y0) * aside, (y0 + y1) / 2 + (x1 - x0) * aside

    @property
    def is_round(self) -> bool:
        """Whether it is an arc."""
        return abs(self.bulge) > STRAIGHT

    def at(self, t: float) -> Flat:
        """The point a share `t` of the way along."""
        (x0, y0), (x1, y1) = self.start, self.end
        if not self.is_round:
            return x0 + (x1 - x0) * t, y0 + (y1 - y0) * t
        (x, y), turned = self.centre, self.sweep * t
        dx, dy, c, s = x0 - x, y0 - y, math.cos(turned), math.sin(turned)
        return x + dx * c - dy * s, y + dx * s + dy * c

    def part(self, t0: float, t1: float) -> Stretch:
        """The piece between two shares of the way."""
        return Stretch(self.at(t0), self.at(t1), math.tan(self.sweep * (t1 - t0) / 4))

    def points(self) -> list[Flat]:
        """Points along it, its start but not its end; an arc in steps of 6 degrees or less."""
        count = max(1, math.ceil(abs(self.sweep) / CHORD - 1e-9)) if self.is_round else 1
        return [self.at(n / count) for n in range(count)]

    def bounds(self) -> Bounds:
        """The upright box it lies in, exactly."""
        points = [self.start, self.end]
        if self.is_round:
            (x, y), r = self.centre, self.radius
            start = math.atan2(self.start[1] - y, self.start[0] - x)
            for quarter in range(4):
                angle = quarter * math.pi / 2
                turned = (angle - start) % (2 * math.pi) if self.bulge > 0 else (start - angle) % (2 * math.pi)
                if turned < abs(self.sweep):
                    points.append((x + r * math.cos(angle), y + r * math.sin(angle)))
        xs, ys = zip(*points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True)
class Loop:
    """A closed outline; it ends where it begins."""

    stretches: tuple[Stretch, ...]

    @property
    def area(self) -> float:
        """mm2, positive where it runs to the left round what it encloses. (Shoelace rule, and a segment an arc.)"""
        total = 0.0
        for s in self.stretches:
            (x0, y0), (x1, y1) = s.start, s.end
            total += (x0 * y1 - x1 * y0) / 2
            if s.is_round:
                total += s.radius**2 * (s.sweep - math.sin(s.sweep)) / 2
        return total

    def bounds(self) -> Bounds:
        """The upright box it lies in."""
        return bounds_of(s.bounds() for s in self.stretches)

    def points(self) -> list[Flat]:
        """Its corners, and points along its arcs."""
        return [point for s in self.stretches for point in s.points()]

    def turned_left(self) -> Loop:
        """The same outline, running to the left round what it encloses."""
        if self.area >= 0:
            return self
        return Loop(tuple(Stretch(s.end, s.start, -s.bulge) for s in reversed(self.stretches)))

    def shifted(self, dx: float, dy: float) -> Loop:
        """The same outline elsewhere."""
        return Loop(tuple(Stretch(_shifted(s.start, dx, dy), _shifted(s.end, dx, dy), s.bulge) for s in self.stretches))

    def flipped(self) -> Loop:
        """Its mirror image in the x axis, still running to the left round what it encloses."""
        over = tuple(Stretch((s.start[0], -s.start[1]), (s.end[0], -s.end[1]), -s.bulge) for s in self.stretches)
        return Loop(over).turned_left()

    def circle(self) -> tuple[Flat, float] | None:
        """Centre and diameter (mm) where it is a full circle; else None."""
        if not all(s.is_round for s in self.stretches):
            return None
        (x, y), r = self.stretches[0].centre, self.stretches[0].radius
        same = all(math.dist(s.centre, (x, y)) < 1e-4 and abs(s.radius - r) < 1e-4 for s in self.stretches)
        return ((x, y), 2 * r) if same else None

    def holds(self, point: Flat) -> bool:
        """Whether a point lies inside (even-odd rule, arcs taken as short lines)."""
        return inside(self.points(), point)


def inside(ring: Sequence[Flat], point: Flat) -> bool:
    """Whether a point lies inside a closed ring of straight lines (even-odd rule)."""
    x, y = point
    found = False
    for n, (x1, y1) in enumerate(ring):
        x0, y0 = ring[n - 1]
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            found = not found
    return found


def bounds_of(boxes: Iterable[Bounds]) -> Bounds:
    """The upright box round boxes; ValueError where there are none."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


def joined(stretches: Sequence[Stretch]) -> Loop:
    """A loop of stretches in order, without needless corners on straight lines."""
    kept: list[Stretch] = []
    for s in stretches:
        if s.chord < SAME:
            continue
        if kept and _runs_on(kept[-1], s):
            kept[-1] = Stretch(kept[-1].start, s.end)
        else:
            kept.append(s)
    if len(kept) > 2 and _runs_on(kept[-1], kept[0]):
        kept[0] = Stretch(kept.pop().start, kept[0].end)
    return Loop(tuple(kept))


def ring(centre: Flat, diameter: float) -> Loop:
    """A circle, as two halves."""
    (x, y), r = centre, diameter / 2
    return Loop((Stretch((x - r, y), (x + r, y), 1.0), Stretch((x + r, y), (x - r, y), 1.0)))


def every_stretch(loops: Iterable[Loop]) -> Iterator[Stretch]:
    """The stretches of all loops."""
    for loop in loops:
        yield from loop.stretches


def _shifted(point: Flat, dx: float, dy: float) -> Flat:
    return point[0] + dx, point[1] + dy


def _runs_on(a: Stretch, b: Stretch) -> bool:
    """Whether two straight stretches lie on one line, one going on from the other."""
    if a.is_round or b.is_round:
        return False
    (ax, ay), (bx, by) = ((s.end[0] - s.start[0], s.end[1] - s.start[1]) for s in (a, b))
    return abs(ax * by - ay * bx) < 1e-6 * a.chord * b.chord and ax * bx + ay * by > 0
