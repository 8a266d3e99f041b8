"""Views with hidden lines, worked out exactly by the geometry kernel."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Ellipse, GeomAbs_Line
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt, gp_Vec
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape
from scipy.optimize import brentq

from model.brep import content
from model.cache import kept
from publish.drawing.box import Point
from publish.drawing.strokes import bounds, tidy
from publish.drawing.view import Arc, Axes, Bezier, Line, Reals, Shape, Stroke, StrokeKind, View, axes_of

STRAIGHT = 1e-4  # mm; a curve bending less is drawn as a line
PER_PIECE = math.pi / 4  # of a curve's turning that one cubic stands for
SAMPLES = 9

# one entry a compound the kernel gives; an outline may come back as a sharp edge or as a silhouette
_Found = Callable[[HLRBRep_HLRToShape], TopoDS_Shape | None]
_VISIBLE: tuple[_Found, ...] = (HLRBRep_HLRToShape.VCompound, HLRBRep_HLRToShape.OutLineVCompound)
_SMOOTH: tuple[_Found, ...] = (HLRBRep_HLRToShape.Rg1LineVCompound,)
_HIDDEN: tuple[_Found, ...] = (HLRBRep_HLRToShape.HCompound, HLRBRep_HLRToShape.OutLineHCompound)


def view(
    shapes: Sequence[cq.Shape],
    towards: Reals,
    right: Reals,
    hidden: bool = False,
    smooth: bool = False,
) -> View:
    """The view of `shapes`, as they stand, by a viewer far off in the direction `towards`.

    Edges at which faces run on into each other must be marked (`kernel.tell_smooth_edges`; the builder does it).
    right: direction of the page's right; hidden, smooth: whether hidden lines and smooth edges are drawn.
    """
    axes = axes_of(towards, right)
    if not shapes:
        return View(axes, (), bounds(()))
    return kept(
        "view",
        lambda: (axes, hidden, smooth, *(content(shape) for shape in shapes)),
        lambda: _viewed(shapes, axes, hidden, smooth),
    )


def _viewed(shapes: Sequence[cq.Shape], axes: Axes, hidden: bool, smooth: bool) -> View:
    seen = _hidden_lines(shapes, axes)
    strokes = _strokes(seen, _VISIBLE, "visible")
    if smooth:
        strokes += _strokes(seen, _SMOOTH, "smooth")
    if hidden:
        strokes += _strokes(seen, _HIDDEN, "hidden")
    tidied = tidy(strokes)
    return View(axes, tidied, bounds(tidied))


def _hidden_lines(shapes: Sequence[cq.Shape], axes: Axes) -> HLRBRep_HLRToShape:
    """The kernel's hidden-line run."""
    run = HLRBRep_Algo()
    # one compound: adding part by part takes time that grows with the square of their number
    run.Add(cq.Compound.makeCompound(shapes).wrapped, 0)
    frame = gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*axes.towards), gp_Dir(*axes.right))
    run.Projector(HLRAlgo_Projector(frame))
    run.Update()
    run.Hide()
    return HLRBRep_HLRToShape(run)


def _strokes(seen: HLRBRep_HLRToShape, found: Sequence[_Found], kind: StrokeKind) -> list[Stroke]:
    """All edges of some of the kernel's compounds as strokes."""
    strokes = []
    for give in found:
        compound = give(seen)
        if compound is None or compound.IsNull():
            continue
        BRepLib.BuildCurves3d_s(compound)
        edges = TopExp_Explorer(compound, TopAbs_EDGE)
        while edges.More():
            strokes += [Stroke(kind, shape) for shape in _shapes(BRepAdaptor_Curve(TopoDS.Edge_s(edges.Current())))]
            edges.Next()
    return strokes


def _shapes(curve: BRepAdaptor_Curve) -> list[Shape]:
    """One edge of the view as line, arc or cubics."""
    first, last = curve.FirstParameter(), curve.LastParameter()
    if curve.GetType() == GeomAbs_Line:
        return [Line(_at(curve, first), _at(curve, last))]
    if curve.GetType() == GeomAbs_Circle:
        return [_arc(curve, first, last)]
    line = _as_line(curve, first, last)
    return [line] if line else _cubics(curve, first, last)


def _arc(curve: BRepAdaptor_Curve, first: float, last: float) -> Arc:
    """A circle's piece, turning left."""
    circle = curve.Circle()
    centre, axis = circle.Location(), circle.Axis().Direction()
    begin = _at(curve, first if axis.Z() > 0 else last)
    start = math.atan2(begin[1] - centre.Y(), begin[0] - centre.X())
    turned = last - first
    if turned > 2 * math.pi - 1e-9:
        return Arc((centre.X(), centre.Y()), circle.Radius(), 0.0, 2 * math.pi)
    return Arc((centre.X(), centre.Y()), circle.Radius(), start, start + turned)


def _as_line(curve: BRepAdaptor_Curve, first: float, last: float) -> Line | None:
    """The curve as a straight stroke, where it is one (a circle seen on edge); else None."""
    points = [_at(curve, first + (last - first) * k / (SAMPLES - 1)) for k in range(SAMPLES)]
    far = max(points, key=lambda p: math.dist(p, points[0]))
    size = math.dist(far, points[0])
    if size < STRAIGHT:
        return None
    dx, dy = (far[0] - points[0][0]) / size, (far[1] - points[0][1]) / size
    if any(abs((x - points[0][0]) * dy - (y - points[0][1]) * dx) > STRAIGHT for x, y in points):
        return None
    # it may run to and fro on its line: the stroke goes from the one turning point to the other
    ends = [_furthest(curve, points, (first, last), (sign * dx, sign * dy)) for sign in (-1, 1)]
    return Line(ends[0], ends[1])


def _furthest(curve: BRepAdaptor_Curve, samples: Sequence[Point], over: tuple[float, float], along: Point) -> Point:
    """The curve's furthest point in a direction: the best of its even samples, or where it turns back near it."""

    def going(t: float) -> float:
        _, (dx, dy) = _at_with_slope(curve, t)
        return dx * along[0] + dy * along[1]

    step = (over[1] - over[0]) / (len(samples) - 1)
    reaches = [x * along[0] + y * along[1] for x, y in samples]
    best = reaches.index(max(reaches))
    low, high = max(over[0], over[0] + (best - 1) * step), min(over[1], over[0] + (best + 1) * step)
    if not going(low) > 0 > going(high):
        return samples[best]
    turning = _at(curve, float(brentq(going, low, high, xtol=1e-12)))
    return turning if turning[0] * along[0] + turning[1] * along[1] > reaches[best] else samples[best]


def _cubics(curve: BRepAdaptor_Curve, first: float, last: float) -> list[Shape]:
    """The curve as cubics that take its points and tangents."""
    ellipse = curve.GetType() == GeomAbs_Ellipse
    count = math.ceil((last - first) / PER_PIECE - 1e-6) if ellipse else _pieces(curve, first, last)
    step = (last - first) / count
    # an ellipse is a circle seen aslant: the handle that is right for the circle is right for it
    handle = 4 / 3 * math.tan(step / 4) if ellipse else step / 3
    cubics: list[Shape] = []
    for k in range(count):
        (p0, d0), (p1, d1) = (_at_with_slope(curve, first + step * (k + n)) for n in (0, 1))
        inner0 = (p0[0] + d0[0] * handle, p0[1] + d0[1] * handle)
        inner1 = (p1[0] - d1[0] * handle, p1[1] - d1[1] * handle)
        cubics.append(Bezier((p0, inner0, inner1, p1)))
    return cubics


def _pieces(curve: BRepAdaptor_Curve, first: float, last: float) -> int:
    """How many cubics a curve needs, by how much it turns; 4 at least for one that turns at all."""
    slopes = [_at_with_slope(curve, first + (last - first) * k / (SAMPLES - 1))[1] for k in range(SAMPLES)]
    headings = [math.atan2(dy, dx) for dx, dy in slopes if math.hypot(dx, dy) > 1e-12]
    turned = sum(abs(math.remainder(b - a, 2 * math.pi)) for a, b in pairwise(headings))
    return max(4, math.ceil(turned / PER_PIECE - 1e-6))


def _at(curve: BRepAdaptor_Curve, t: float) -> Point:
    point = curve.Value(t)
    return point.X(), point.Y()


def _at_with_slope(curve: BRepAdaptor_Curve, t: float) -> tuple[Point, Point]:
    """A point of the curve and its derivative there."""
    point, slope = gp_Pnt(), gp_Vec()
    curve.D1(t, point, slope)
    return (point.X(), point.Y()), (slope.X(), slope.Y())
