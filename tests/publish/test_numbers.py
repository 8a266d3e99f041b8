"""The numbers as printed: chains that close, one string for one size, and sizes that the solids have."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import pytest
import trimesh
import yaml

from model.build import build
from model.cut_list import cut_list
from model.meshes import mesh_of
from model.piece import Part, Piece, Size
from plans.resolve import resolve
from plans.sides import AXIS_NUMBER
from plans.source import read_text
from plans.units import UNIT_MM, System, UnitSystem, read_number
from publish.drawing.records import Label, Sheet
from publish.drawing.wishes import DimensionWish
from publish.edition import Edition
from publish.part_views import DrawnPart, draw
from publish.part_wishes import printed, wishes
from publish.printed_places import printed_places
from publish.writers.cut_list_csv import cut_list_csv

SAME_PLACE = 0.02  # mm: what is closer is one line of the part
STEPS: tuple[tuple[System, Fraction], ...] = (
    ("inch", Fraction(1, 16)),
    ("inch", Fraction(1, 32)),
    ("inch", Fraction(1, 64)),
    ("mm", Fraction(1, 2)),
    ("mm", Fraction(1)),
)
Place = tuple[int, int]  # axis of the part, number of the line across it


@dataclass(frozen=True)
class Measure:
    """A dimension as a maker sets it out: from one line across the part to another, mm along its axis."""

    axis: int
    start: float
    end: float
    printed: Fraction  # mm, exact
    role: str


@pytest.fixture(scope="module", params=["bench_piece", "rail_piece"], ids=["bench", "rail"])
def piece(request: pytest.FixtureRequest) -> Piece:
    found: Piece = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="module")
def drawn(piece: Piece) -> dict[str, DrawnPart]:
    return {item.mark: draw(piece.parts[item.shown]) for item in piece.items}


@pytest.fixture(params=STEPS, ids=[f"{step} {system}" for system, step in STEPS])
def units(request: pytest.FixtureRequest) -> UnitSystem:
    return UnitSystem(*request.param)


def measures(part: Part, drawn: DrawnPart, units: UnitSystem, piece: Piece) -> Iterator[Measure]:
    """Every dimension of the part's sheets; one printed `3× 12` stands for three."""
    edition = Edition(piece, (), None, units)  # type: ignore[arg-type]
    sizes = [size for feature in part.features for size in feature.sizes]
    for wish in wishes(edition, part, drawn):
        if not isinstance(wish, DimensionWish):
            continue
        many, text = wish.text.split("× ") if "×" in wish.text else ("1", wish.text)
        value = read_number(text) * UNIT_MM[units.name]
        axis, start, end = _along(wish, drawn)
        places = {(start, end)}
        if int(many) > 1:
            places = set(_places_of(text, axis, sizes, edition, part))
            assert len(places) >= int(many)
        for low, high in places:
            yield Measure(axis, low, high, value, wish.role)


def _along(wish: DimensionWish, drawn: DrawnPart) -> tuple[int, float, float]:
    """The axis of the part a dimension lies along, and where it begins and ends on it, the lower first."""
    axes, page = drawn.view_of(wish.view).axes, 0 if wish.direction == "h" else 1
    direction = np.array((axes.right, axes.up)[page])
    axis = int(np.argmax(np.abs(direction)))
    low, high = sorted(point[page] * float(direction[axis]) for point in (wish.p0, wish.p1))
    return axis, low, high


def _places_of(
    text: str, axis: int, sizes: Sequence[Size], edition: Edition, part: Part
) -> Iterator[tuple[float, float]]:
    printed_at = printed_places(part, edition.units)
    for size in sizes:
        if size.role == "size" and AXIS_NUMBER[size.along] == axis and printed(edition, printed_at, size) == text:
            low, high = sorted((size.start[axis], size.end[axis]))
            yield round(low, 3), round(high, 3)


def set_out(found: Sequence[Measure]) -> tuple[dict[Place, tuple[Fraction, float]], list[Fraction], int]:
    """A part set out from the printed numbers alone.

    Gives where each line comes out (printed mm, true mm, both from the end that is measured from), by how much chains
    miss closing, and how many chains there were to close.
    """
    lines = {axis: _lines(found, axis) for axis in range(3)}
    edges: dict[Place, list[tuple[Place, Fraction, float]]] = {}
    for m in found:
        a, b = ((m.axis, _number(lines[m.axis], at)) for at in (m.start, m.end))
        true = m.end - m.start
        edges.setdefault(a, []).append((b, m.printed, true))
        edges.setdefault(b, []).append((a, -m.printed, -true))
    at: dict[Place, tuple[Fraction, float]] = {}
    chains = len({(min(a, b), max(a, b)) for a, some in edges.items() for b, *_ in some})
    missed: list[Fraction] = []
    # the end most is measured from is where one hooks the tape on
    for begin in sorted(edges, key=lambda place: (-len(edges[place]), place)):
        if begin in at:
            continue
        at[begin], waiting = (Fraction(0), 0.0), [begin]
        while waiting:
            here = waiting.pop()
            for there, shown, true in edges[here]:
                reached = at[here][0] + shown, at[here][1] + true
                if there not in at:
                    at[there] = reached
                    waiting.append(there)
                    chains -= 1
                elif at[there][0] != reached[0]:
                    missed.append(abs(at[there][0] - reached[0]))
    return at, missed, chains


def _lines(found: Sequence[Measure], axis: int) -> list[float]:
    """The lines across one axis at which something is measured."""
    places = sorted(at for m in found if m.axis == axis for at in (m.start, m.end))
    return [at for n, at in enumerate(places) if n == 0 or at - places[n - 1] > SAME_PLACE]


def _number(lines: Sequence[float], at: float) -> int:
    return int(np.argmin([abs(line - at) for line in lines]))


def test_printed_chains_close(piece: Piece, drawn: dict[str, DrawnPart], units: UnitSystem) -> None:
    """A chain of printed numbers ends where its overall number does, to the last step (Dori 1992; ISO 129-1)."""
    closed = 0
    for item in piece.items:
        found = list(measures(piece.parts[item.shown], drawn[item.mark], units, piece))
        _, missed, chains = set_out(found)
        assert not missed, (item.mark, [float(miss / UNIT_MM[units.name]) for miss in missed])
        closed += chains
    # a tenoned rail: tenon, shoulder to shoulder and tenon make up the length
    tenoned = {joint.a for joint in piece.joints if joint.kind == "mortise and tenon"}
    assert closed >= sum(item.shown in tenoned for item in piece.items)


def test_what_is_set_out_by_the_numbers_lies_where_it_should(
    piece: Piece, drawn: dict[str, DrawnPart], units: UnitSystem
) -> None:
    """Each number is the true size rounded once, so that no line comes out a whole step off, however it is reached."""
    for item in piece.items:
        found = list(measures(piece.parts[item.shown], drawn[item.mark], units, piece))
        assert Counter(m.axis for m in found if m.role == "overall") == {0: 1, 1: 1, 2: 1}
        places, *_ = set_out(found)
        for place, (shown, true) in places.items():
            off = abs(float(shown) - true)
            assert off <= float(units.step_mm) + 1e-6, (item.mark, place, float(shown), true)


def test_one_size_is_one_string(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    """Thickness, width and length of a part: the same on the drawing, in the cut list and in its spreadsheet."""
    in_file = {row["mark"]: row for row in csv.DictReader(io.StringIO(cut_list_csv(edition)))}
    listed = {sheet.key: _strings(sheet) for sheet in set_sheets}
    for row in (row for row in cut_list(edition.piece) if row.board is None):
        mark, part = row.item.mark, edition.piece.parts[row.item.shown]
        overall = {
            wish.text
            for wish in wishes(edition, part, edition.drawn.parts[mark])
            if isinstance(wish, DimensionWish) and wish.role == "overall"
        }
        sizes = {name: in_file[mark][name].replace("/", "\u2044") for name in ("thickness", "width", "length")}
        assert set(sizes.values()) == overall
        assert sizes == {name: edition.number(getattr(row, name)) for name in sizes}
        drawn = Counter[str]()
        for key, strings in listed.items():
            if key == f"part-{mark}" or key.startswith(f"part-{mark}-"):
                drawn += strings
        cuts = sum((strings for key, strings in listed.items() if key.startswith("cut-list")), Counter[str]())
        for text in sizes.values():
            assert drawn[text] and cuts[text], (mark, text)


def _strings(sheet: Sheet) -> Counter[str]:
    """Every text of a sheet, built fractions put together again."""
    found: list[tuple[str, Label]] = []
    for label in (record for record in sheet.items if isinstance(record, Label) and record.reads != ""):
        text = label.string if label.reads is None else label.reads.replace("/", "\u2044")
        text = text.strip("()")  # a size that is marked to fit stands in brackets
        gap = _gap(found[-1][1], label) if found else -1.0
        if 0 <= gap < 1.5 and label.reads and found[-1][0].isdigit():
            found[-1] = f"{found[-1][0]} {text}", label
        else:
            found.append((text, label))
    return Counter(text for text, _ in found)


def _gap(before: Label, after: Label) -> float:
    """How far after one label the next begins, mm along their line; negative where they are not on one line."""
    (x0, y0), (x1, y1) = before.start, after.start
    along, aside = (x1 - x0, y1 - y0) if not before.rotation else (y1 - y0, x0 - x1)
    return along - before.width if abs(aside) < after.size else -1.0


def test_cut_list_sizes_are_those_of_the_solids(piece: Piece) -> None:
    """The upright box round each part in its standing frame, measured by trimesh."""
    for row in cut_list(piece):
        for name in (*row.item.parts, *row.item.mirrored):
            part = piece.parts[name]
            mesh = mesh_of(part.sharp)
            corners = np.asarray(mesh.corners).reshape(-1, 3)
            solid = trimesh.Trimesh(corners, np.arange(len(corners)).reshape(-1, 3))
            along = AXIS_NUMBER[part.spec.runs], AXIS_NUMBER[part.spec.thick]
            wide = next(n for n in range(3) if n not in along)
            assert solid.is_volume
            assert solid.extents[[along[0], wide, along[1]]] == pytest.approx(
                (row.length, row.width, row.thickness), abs=0.01
            )
            assert solid.volume == pytest.approx(part.sharp.Volume(), rel=2e-3)


def test_alike_sizes_at_both_ends_read_alike(built_rail: Part) -> None:
    """Two tenons of 15.875 mm on a rail of 1009.65 mm: 16 and 16, not 16 and 15.5: one setting cuts both."""
    units = UnitSystem("mm", Fraction(1, 2))
    places = printed_places(built_rail, units)
    tenons = [size for f in built_rail.features for size in f.sizes if size.name == "tenon length"]
    assert len(tenons) == 2
    assert {places.between(size) for size in tenons} == {16.0}
    (whole,) = (s for f in built_rail.features for s in f.sizes if s.role == "overall" and s.along == "left-right")
    (between,) = (s for f in built_rail.features for s in f.sizes if s.role == "reference")
    assert places.between(between) + 2 * 16.0 == places.between(whole) == 1009.5


@pytest.fixture
def built_rail() -> Part:
    """A rail tenoned into two posts, of inches."""
    post = {
        **{"wood": "black cherry", "runs": "up-down", "thick": "front-back", "length": 400, "width": 44.45},
        **{"thickness": 44.45, "mirror": "left-right"},
        "where": {"bottom": "floor", "left": -(977.9 / 2 + 44.45), "centred": "front-back"},
    }
    rail = {
        **{"wood": "black cherry", "runs": "left-right", "thick": "front-back", "width": 63.5, "thickness": 19.05},
        **{"where": {"bottom": 100, "centred": "front-back"}, "cut to": {"left": "post", "right": "post"}},
    }
    joint = {"mortise and tenon": {"of": "rail", "into": "post", "thick": 7.9375, "long": 15.875}}
    head = {"plan": "Trial", "revision": 1, "date": "2026-11-20", "maker": "Saltmarsh Lane Joinery", "units": "mm"}
    text = yaml.safe_dump({**head, "parts": {"post": post, "rail": rail}, "joints": [joint]}, sort_keys=False)
    source, _ = read_text("trial.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    return piece.parts["rail"]
