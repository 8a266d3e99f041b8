import datetime
import re
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import cadquery as cq
import gmsh
import pytest
from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDF import TDF_LabelSequence
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_SOLID
from OCP.XCAFDoc import XCAFDoc_ColorSurf, XCAFDoc_DocumentTool

from model.alike import group_alike
from publish.writers.step import write_step

ROOT = Path(__file__).parents[2]


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def leg(hand: int) -> cq.Solid:
    blank = box(40, 40, 400, (-20, -20, 0))
    return blank.cut(box(8, 20, 50, (-4, 0, 330)), box(20, 8, 40, (0 if hand > 0 else -20, -4, 250))).Solids()[0]


def part(name: str, kind: str, shape: cq.Solid, at: tuple[float, float, float], runs: str, turn: float = 0):
    where = cq.Location(cq.Vector(*at), cq.Vector(0, 0, 1), turn)
    spec = SimpleNamespace(made_of="ash", runs=runs, stock=None)
    return SimpleNamespace(name=name, kind=kind, spec=spec, sharp=shape, eased=shape, easing=None, at=where)


def small_piece(plan: str = "Little bench", maker: str = "A. Maker"):
    made = [
        part("seat", "seat", box(600, 250, 30), (-300, -125, 400), "left-right"),
        part("leg front left", "leg", leg(1), (-250, -90, 0), "up-down"),
        part("leg front right", "leg", leg(-1), (250, -90, 0), "up-down"),
        part("leg back left", "leg", leg(-1), (-250, 90, 0), "up-down", 180),
        # the same leg, built turned in its own frame: needs the match to be placed
        part("leg back right", "leg", leg(1).rotate(cq.Vector(), cq.Vector(0, 0, 1), 90), (250, 90, 0), "up-down", 90),
    ]
    parts = {p.name: p for p in made}
    spec = SimpleNamespace(plan=plan, maker=maker, date=datetime.date(2024, 5, 6))
    return SimpleNamespace(
        parts=parts, items=group_alike(parts, list(parts)), fixings=(), design=SimpleNamespace(spec=spec)
    )


def read_back(path: Path) -> dict[str, tuple[float, tuple[float, ...]]]:
    """Name, volume and centroid of every solid, by another program's reader."""
    gmsh.initialize(interruptible=False)
    try:
        gmsh.option.setNumber("General.Terminal", 0)
        gmsh.option.setNumber("Geometry.OCCImportLabels", 1)
        gmsh.option.setString("Geometry.OCCTargetUnit", "MM")
        gmsh.model.occ.importShapes(str(path))
        gmsh.model.occ.synchronize()
        solids = gmsh.model.getEntities(3)
        return {
            gmsh.model.getEntityName(3, tag): (
                gmsh.model.occ.getMass(3, tag),
                tuple(gmsh.model.occ.getCenterOfMass(3, tag)),
            )
            for _, tag in solids
        }
    finally:
        gmsh.finalize()


@pytest.fixture(scope="module")
def written(tmp_path_factory) -> Path:
    path = tmp_path_factory.mktemp("step") / "bench.step"
    write_step(small_piece(), path, {"ash": (0.87, 0.75, 0.55)})
    return path


def test_every_part_is_read_back_where_it_stands(written):
    piece, found = small_piece(), read_back(written)
    assert len(found) == len(piece.parts)
    for name, made in piece.parts.items():
        volume, centre = next(value for label, value in found.items() if f"/{name}" in label)
        standing = made.eased.moved(made.at)
        assert volume == pytest.approx(standing.Volume(), rel=1e-9)
        assert centre == pytest.approx(standing.Center().toTuple(), abs=1e-6)


def test_text_holds_products_solids_and_places(written):
    text = written.read_text("ascii")
    products = re.findall(r"=\s*PRODUCT\('([^']*)'", text)
    assert sorted(products) == ["A seat", "B leg", "B leg, mirrored", "Little bench"]
    assert len(re.findall(r"MANIFOLD_SOLID_BREP\(", text)) == 3
    places = re.findall(r"NEXT_ASSEMBLY_USAGE_OCCURRENCE\('[^']*','([^']*)'", text)
    assert sorted(places) == sorted(small_piece().parts)
    assert re.search(r"SI_UNIT\(\.MILLI\.,\.METRE\.\)", text)
    assert text.count("COLOUR_RGB('',0.870000,0.750000,0.550000)") == 3
    assert "AUTOMOTIVE_DESIGN" in text  # AP214


def test_colours_are_read_back(written):
    document = TDocStd_Document(TCollection_ExtendedString("read"))
    reader = STEPCAFControl_Reader()
    reader.SetColorMode(True)
    reader.ReadFile(str(written))
    assert reader.Transfer(document)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    shades = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    labels = TDF_LabelSequence()
    shapes.GetShapes(labels)
    found = 0
    for n in range(1, labels.Length() + 1):
        colour = Quantity_Color()
        shape = shapes.GetShape_s(labels.Value(n))
        if shape.ShapeType() == TopAbs_SOLID and shades.GetColor(shape, XCAFDoc_ColorSurf, colour):
            assert colour.Values(Quantity_TOC_sRGB) == pytest.approx((0.87, 0.75, 0.55), abs=1e-3)
            found += 1
    assert found == 3


def test_header_is_ours(written):
    header = written.read_text("ascii").split("DATA;")[0]
    assert "2024-05-06T00:00:00" in header
    assert "A. Maker" in header
    assert "Open CASCADE" not in header.split("FILE_SCHEMA")[0]


def test_two_runs_and_two_processes_give_the_same_bytes(written, tmp_path):
    again = tmp_path / "bench.step"
    write_step(small_piece(), again, {"ash": (0.87, 0.75, 0.55)})
    assert again.read_bytes() == written.read_bytes()
    other = tmp_path / "other" / "bench.step"
    other.parent.mkdir()
    code = (
        "import importlib.util, pathlib, sys\n"
        f"spec = importlib.util.spec_from_file_location('t', {str(Path(__file__))!r})\n"
        "t = importlib.util.module_from_spec(spec); spec.loader.exec_module(t)\n"
        f"t.write_step(t.small_piece(), pathlib.Path({str(other)!r}), {{'ash': (0.87, 0.75, 0.55)}})\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT)
    assert other.read_bytes() == written.read_bytes()


def test_names_of_any_letters_stay_in_their_strings(tmp_path):
    path = tmp_path / "bench.step"
    write_step(small_piece("Bänk 'liten' \\ ☃", "O'Hara; ENDSEC;"), path)
    text = path.read_text("ascii")
    assert "('O''Hara; ENDSEC;')" in text
    # ISO 10303-21: a letter beyond ASCII as its code in hexadecimal, quotes and backslashes doubled
    assert "PRODUCT('B\\X2\\00E4\\X0\\nk ''liten'' \\\\ \\X2\\2603\\X0\\'" in text
    assert len(read_back(path)) == 5


def test_fixings_are_read_back_by_name_where_they_stand(tmp_path):
    """Two screws of one solid, and a disc that two entries share."""
    piece = small_piece()
    screw, disc = cq.Solid.makeCylinder(2, 40), cq.Solid.makeCylinder(10, 5)
    piece.fixings = [
        SimpleNamespace(kind="wood screw", solid=screw, at=[cq.Location(cq.Vector(x, 0, 400)) for x in (-50, 50)]),
        *(SimpleNamespace(kind="magnet", solid=disc, at=[cq.Location(cq.Vector(0, y, 500))]) for y in (-30, 30)),
        SimpleNamespace(kind="nail", solid=None, at=()),
    ]
    path = tmp_path / "bench.step"
    write_step(piece, path)
    found = read_back(path)
    for name, volume, centre in [
        ("wood screw 1", screw.Volume(), (-50, 0, 420)),
        ("wood screw 2", screw.Volume(), (50, 0, 420)),
        ("magnet 1", disc.Volume(), (0, -30, 502.5)),
        ("magnet 2", disc.Volume(), (0, 30, 502.5)),
    ]:
        read = next(value for label, value in found.items() if f"/{name}" in label)
        assert read[0] == pytest.approx(volume) and read[1] == pytest.approx(centre, abs=1e-6)
    assert len(found) == len(piece.parts) + 4
