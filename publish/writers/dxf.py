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
        (x, y), half = (centre[0] + CORNER, centre[1] + CORNER), diameter / 2 + CROSS
        space.add_circle((x, y), diameter / 2, dxfattribs={"layer": "HOLES"})
        space.add_line((x - half, y), (x + half, y), dxfattribs={"layer": "CENTRES"})
        space.add_line((x, y - half), (x, y + half), dxfattribs={"layer": "CENTRES"})
    # %% begins a code in DXF text, and ^ a control character
    plain = clean(words).replace("%%", "% %").replace("^", "")
    text = space.add_text(plain, height=TEXT_HEIGHT, dxfattribs={"layer": "TEXT"})
    text.set_placement((CORNER, CORNER - TEXT_BELOW))


def _corners(loop: Loop) -> list[tuple[float, float, float]]:
    return [(*s.start, s.bulge) for s in loop.stretches]


def _set_extents(drawing: Drawing, template: Template) -> None:
    left, bottom, right, top = template.bounds
    low, high = (left + CORNER, bottom + CORNER, 0.0), (right + CORNER, top + CORNER, 0.0)
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
