"""The sign that says how the views of a sheet are laid out: a truncated cone from its end and from its side.

ISO 5456-2 / ISO 128-3, from memory: the cone narrows to the left and its end view is taken from there, so that both
circles are seen. Third angle puts that view on the side it is seen from, left of the cone; first angle on the far side,
the right.
"""

from __future__ import annotations

from publish.drawing.records import Circle, Line, Record, polyline
from publish.drawing.style import NARROW, Pen, Projection

_THIN = Pen(NARROW, dash=(2.2, 0.5, 0.5, 0.5))
_THICK = Pen(0.28)


def projection_symbol(x: float, y: float, height: float, projection: Projection) -> list[Record]:
    """The symbol centred on (`x`, `y`), mm; the large circle is `height` across."""
    big, small, half = height / 2, height / 4, height * 0.48
    apart = height * 0.98
    circles, cone = (x - apart, x + apart) if projection == "third" else (x + apart, x - apart)
    left, right = cone - half, cone + half
    outline = ((left, y - small), (right, y - big), (right, y + big), (left, y + small))
    return [
        Circle(circles, y, big, _THICK),
        Circle(circles, y, small, _THICK),
        Line(circles - big - 1.0, y, circles + big + 1.0, y, _THIN),
        Line(circles, y - big - 1.0, circles, y + big + 1.0, _THIN),
        polyline(outline, _THICK, closed=True),
        Line(left - 1.0, y, right + 1.0, y, _THIN),
    ]
