"""A template as a DXF drawing, full size in millimetres, each kind of line on a layer of its own.

Every outline is one closed polyline of lines and arcs: what a laser, a router or a plotter can follow.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import ezdxf
from ezdxf import options, units
from ezdxf.document import Drawing
from ezdxf.layouts import Modelspace

from model.loops import Loop
from model.templates import Template
from publish.drawing.typeface import clean

# name of a layer, its colour (AutoCAD colour index) and its line width in hundredths of a millimetre
LAYERS: dict[str, tuple[int, int]] = {
    "OUTLINE": (7, 35),
    "DEEPER": (3, 18),
    "OPENINGS": (1, 35),
    "HOLES": (5, 35),
    "CENTRES": (8, 18),
    "TEXT": (8, 18),
}
DECIMALS = 9  # 1/512 in is written whole
CROSS = 2.5  # mm a centre line stands out of its hole
TEXT_HEIGHT = 5.0  # mm
CORNER = 10.0  # mm from the origin to the outline, both ways
TEXT_BELOW = 12.0  # mm under the outline: clear of it


def dxf_text(template: Template, words: str) -> str:
    """The drawing of a template, with `words` under it. The same template gives the same text."""
    with _settled():
        drawing = ezdxf.new("R2010", units=units.MM)
        for name, (colour, width) in LAYERS.items():
            drawing.layers.add(name, color=colour, lineweight=width)
        _draw(drawing.modelspace(), template, words)
        _set_extents(drawing, template)
        for kind in sorted(drawing.entitydb.dxf_types_in_use()):  # else they are declared in the order of a set
            drawing.classes.add_class(kind)
        stream = io.StringIO()
        drawing.write(stream)
    return stream.getvalue()


def write_dxf(path: Path, template: Template, words: str) -> None:
    """Write the drawing of a template to `path`; OSError where that cannot be done."""
    path.write_text(dxf_text(template, words), encoding="utf-8", newline="\n")


def _draw(space: Modelspace, template: Template, words: str) -> None:
    for layer, loops in (
        ("OUTLINE", template.outline),
        ("DEEPER", template.deeper),
        ("OPENINGS", template.openings),
    ):
        for loop in loops:
            space.add_lwpolyline(
                _corners(loop.shifted(CORNER, CORNER)), format="xyb", close=True, dxfattribs={"layer": layer}
            )
    for centre, diameter in template.holes:
        x, y, half = centre[0] + CORNER, centre[1] + CORNER, diameter / 2 + CROSS
        space.add_circle(_written(x, y), round(diameter / 2, DECIMALS), dxfattribs={"layer": "HOLES"})
        for low, high in (((x - half, y), (x + half, y)), ((x, y - half), (x, y + half))):
            space.add_line(_written(*low), _written(*high), dxfattribs={"layer": "CENTRES"})
    # %% begins a code in DXF text, and ^ a control character
    plain = clean(words).replace("%%", "% %").replace("^", "")
    text = space.add_text(plain, height=TEXT_HEIGHT, dxfattribs={"layer": "TEXT"})
    text.set_placement((CORNER, CORNER - TEXT_BELOW))


def _corners(loop: Loop) -> list[tuple[float, float, float]]:
    return [_written(*s.start, s.bulge) for s in loop.stretches]  # type: ignore[misc]


def _written(*numbers: float) -> tuple[float, ...]:
    """Numbers as they go into the file: the last bits of a sum differ with the machine and the threads it has."""
    return tuple(round(number, DECIMALS) + 0.0 for number in numbers)


def _set_extents(drawing: Drawing, template: Template) -> None:
    left, bottom, right, top = template.bounds
    low, high = _written(left + CORNER, bottom + CORNER, 0.0), _written(right + CORNER, top + CORNER, 0.0)
    drawing.modelspace().reset_extents(low, high)
    drawing.header["$MEASUREMENT"] = 1


@contextmanager
def _settled() -> Iterator[None]:
    """No hour, machine or number drawn by lot in the file."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
