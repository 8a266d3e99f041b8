"""The files measured back: templates by the paths in them, a view by its pixels, pages by three renderers.

What is measured is held against the solids, never against the records that were written.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from itertools import product
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pypdf
import pytest
from PIL import Image
from pypdf.generic import ContentStream
from scipy.ndimage import binary_opening, find_objects, label, maximum_filter, minimum_filter

from model.cutting_planes import CuttingPlane, cut_faces
from model.frames import side_vector
from model.piece import Piece
from model.templates import templates
from publish.drawing.box import Box
from publish.drawing.records import Label, Sheet
from publish.edition import Edition

pymupdf = pytest.importorskip("pymupdf")
pdfium = pytest.importorskip("pypdfium2")
shapely = pytest.importorskip("shapely")

MM = 72 / 25.4  # points
INCH = 25.4  # mm
FACING = 0.9  # cosine of a face to the side it is on: tapers too
TEMPLATE = 0.1  # mm: how true a template has to be
VIEW = 0.3  # mm on paper: how true a view has to be
DOTS = 300  # an inch
# what fits into an outline, whichever way it runs, and not into a thin line: 0.36 mm are 4.3 pixels, 0.18 mm are 2.1
HEAVY = np.array([[0, 1, 1, 0], [1, 1, 1, 1], [1, 1, 1, 1], [0, 1, 1, 0]], dtype=np.bool_)
OUTLINE = 0.36  # mm
DOTS_SEEN = 100  # an inch, for the pages side by side
SHADE = 80  # of 255
DIFFERENT = 0.01  # share of the pixels of a page
Gray = npt.NDArray[np.int16]


def paths(page: pypdf.PageObject) -> Iterator[tuple[float, list[tuple[float, float]]]]:
    """Every path drawn with a pen: the width of the pen and the points, mm."""
    content = page.get_contents()
    assert content is not None
    width, path = 1.0, []
    for operands, operator in ContentStream(content, None).operations:
        numbers = [float(v) / MM for v in operands if isinstance(v, int | float | pypdf.generic.FloatObject)]
        if operator == b"w":
            width = numbers[0]
        elif operator == b"m":
            path = [(numbers[0], numbers[1])]
        elif operator == b"l":
            path.append((numbers[0], numbers[1]))
        elif operator == b"c":
            path += [cubic(path[-1], numbers, t) for t in np.linspace(1 / 16, 1, 16)]
        elif operator == b"S":
            yield width, path


def cubic(at: tuple[float, float], rest: list[float], t: float) -> tuple[float, float]:
    points = np.array([*at, *rest]).reshape(4, 2)
    x, y = np.array([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3]) @ points
    return float(x), float(y)


def hull(points: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """The points of the convex hull, its lower left corner at the origin."""
    ring = np.array(shapely.MultiPoint(points).convex_hull.exterior.coords)
    return ring - ring.min(axis=0)


def lies(points: npt.NDArray[np.float64]) -> Iterator[npt.NDArray[np.float64]]:
    """A figure in the eight ways in which it can lie square on a sheet."""
    for swapped, x, y in product((False, True), (1, -1), (1, -1)):
        yield (points[:, ::-1] if swapped else points) * np.array([x, y])


def outermost(page: pypdf.PageObject) -> npt.NDArray[np.float64]:
    """The points of the largest figure in heavy line: check bars and cut marks stand by themselves."""
    lines = [shapely.LineString(path) for width, path in paths(page) if width > 0.3 and len(path) > 1]
    figures = shapely.unary_union([line.buffer(0.02) for line in lines]).geoms
    largest = max(figures, key=lambda figure: figure.envelope.area)
    return np.array([point for line in lines if largest.intersects(line) for point in line.coords])


def test_full_size_templates_are_as_large_as_the_part(bench_piece: Piece, bench_set: Path) -> None:
    """The outermost outline of each whole template against the corners of the faces of the solid on its side."""
    (file,) = [path for path in bench_set.glob("*.pdf") if "whole" in path.name]
    pages, made = pypdf.PdfReader(file).pages, templates(bench_piece)
    assert made
    for template, page in zip(made, pages[len(pages) - len(made) :], strict=True):
        mesh = bench_piece.parts[template.part].own_mesh
        facing = mesh.normals @ side_vector(template.side) > FACING
        flat = np.flatnonzero(side_vector(template.side) == 0.0)
        solid = mesh.corners[facing].reshape(-1, 3)[:, flat]
        drawn = shapely.Polygon(hull(outermost(page)))
        apart = [shapely.hausdorff_distance(drawn, shapely.Polygon(hull(lie)), densify=0.05) for lie in lies(solid)]
        assert min(apart) < TEMPLATE, (template.part, template.side)


def poppler(file: Path, page: int, dots: int) -> Gray:
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not installed")
    command = ["pdftoppm", "-r", str(dots), "-f", str(page), "-l", str(page), "-gray", str(file)]
    done = subprocess.run(command, capture_output=True, check=True)
    return np.asarray(Image.open(io.BytesIO(done.stdout)).convert("L"), dtype=np.int16)


def test_a_view_rasterised_measures_what_it_shows(edition: Edition, set_pdf: Path, set_sheets: Sequence[Sheet]) -> None:
    """The heavy outline of the largest body cut, at 300 dots an inch, against the solids.

    Edges behind that run together look heavy too and may join on to it: then the other section has to measure true.
    """
    off = []
    for section in edition.drawn.sections:
        number = [sheet.key for sheet in set_sheets].index(f"section-{section.plane.letter}")
        scale = scale_of(set_sheets[number])
        largest = max(bodies_on_paper(edition.piece, section.plane, scale), key=sum)
        drawn = heavy_bodies(poppler(set_pdf, number + 1, DOTS), edition.drawing_area)
        off.append(min(max(abs(wide - largest[0]), abs(high - largest[1])) for wide, high in drawn))
    assert min(off) < VIEW, off


def scale_of(sheet: Sheet) -> float:
    """As its title block says it: `1 : 5`."""
    said = [re.fullmatch(r"([\d.]+) : ([\d.]+)", r.string) for r in sheet.items if isinstance(r, Label)]
    (found,) = {float(match[1]) / float(match[2]) for match in said if match}
    return found


def heavy_bodies(image: Gray, frame: Box) -> list[tuple[float, float]]:
    """Width and height (mm) of all that hangs together in heavy line inside a frame (paper mm)."""
    rows = slice(round(image.shape[0] - frame.top / INCH * DOTS), round(image.shape[0] - frame.bottom / INCH * DOTS))
    columns = slice(round(frame.left / INCH * DOTS), round(frame.right / INCH * DOTS))
    blots, _ = label(binary_opening(image[rows, columns] < 128, HEAVY), np.ones((3, 3)))
    found = [(across.stop - across.start, up.stop - up.start) for up, across in find_objects(blots)]
    return [(wide * INCH / DOTS, high * INCH / DOTS) for wide, high in found]


def bodies_on_paper(piece: Piece, plane: CuttingPlane, scale: float) -> list[tuple[float, float]]:
    """Width and height (mm, outlines in them) of what a plane cuts, faces whose outlines run together as one."""
    faces = []
    for face in cut_faces(piece, plane):
        rings = [shapely.Polygon(ring * scale) for ring in face.rings]
        whole = rings[0]
        for ring in rings[1:]:
            whole = whole.symmetric_difference(ring)
        faces.append(whole.buffer(OUTLINE / 2, join_style="mitre"))
    together = shapely.unary_union(faces)
    bounds = [body.bounds for body in getattr(together, "geoms", [together])]
    return [(right - left, top - bottom) for left, bottom, right, top in bounds]


def agree(a: Gray, b: Gray) -> float:
    """The share of pixels of `a` that are not, to within a shade, among those of `b` one pixel around.

    One pixel of leeway is for smoothing and for how a renderer rounds the place of a thin line.
    """
    rows, columns = min(a.shape[0], b.shape[0]), min(a.shape[1], b.shape[1])
    a, b = a[:rows, :columns], b[:rows, :columns]
    low, high = minimum_filter(b, 3) - SHADE, maximum_filter(b, 3) + SHADE
    return float(((a < low) | (a > high)).mean())


def test_three_renderers_show_the_same_pages(bench_set: Path) -> None:
    file = bench_set / "porch_bench-mm.pdf"
    with pymupdf.open(file) as by_mupdf:
        by_pdfium = pdfium.PdfDocument(file)
        for number in range(1, len(by_pdfium) + 1):
            pixels = by_mupdf[number - 1].get_pixmap(dpi=DOTS_SEEN, colorspace=pymupdf.csGRAY)
            mupdf = np.frombuffer(pixels.samples, np.uint8).reshape(pixels.height, pixels.width).astype(np.int16)
            bitmap = by_pdfium[number - 1].render(scale=DOTS_SEEN / 72, grayscale=True).to_numpy()
            chrome = bitmap.reshape(bitmap.shape[0], bitmap.shape[1]).astype(np.int16)
            seen = {"mupdf": mupdf, "pdfium": chrome, "poppler": poppler(file, number, DOTS_SEEN)}
            for (one, a), (other, b) in product(seen.items(), repeat=2):
                assert agree(a, b) < DIFFERENT, (number, one, other)
        by_pdfium.close()
