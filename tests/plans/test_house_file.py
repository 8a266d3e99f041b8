"""A maker's house: read from the design or from a file beside it, and never from anywhere else."""

from pathlib import Path

import pytest
from PIL import Image

from plans.house import contrast
from plans.problems import Problem
from plans.resolve import read_design
from plans.schema import json_schema

DESIGN = """plan: Peg
revision: 1
date: 2026-11-20
maker: A. Maker
units: inch
house: {house}
parts:
  peg:
    wood: white oak
    runs: left-right
    thick: up-down
    length: 10
    width: 2
    thickness: 1
    where: {{bottom: floor, centred: [left-right, front-back]}}
"""


def written(folder: Path, house: str) -> Path:
    path = folder / "peg.yaml"
    path.write_text(DESIGN.format(house=house), encoding="utf-8")
    return path


def only(path: Path) -> Problem:
    design, problems = read_design(path)
    assert design is None and len(problems) == 1, problems
    return problems[0]


def picture(path: Path, colour: tuple[int, ...] = (30, 60, 80), size: tuple[int, int] = (60, 40)) -> None:
    path.parent.mkdir(exist_ok=True)
    Image.new("RGBA" if len(colour) == 4 else "RGB", size, colour).save(path)


def test_contrast_is_that_of_the_published_examples() -> None:
    """WCAG 2.1: black on white 21:1; #767676 is the lightest grey that passes 4.5:1, #777777 fails (from memory)."""

    def grey(level: int) -> tuple[float, float, float]:
        return (level / 255,) * 3

    assert contrast(grey(0), grey(255)) == pytest.approx(21)
    assert contrast(grey(0x76), grey(255)) >= 4.5 > contrast(grey(0x77), grey(255))


def test_written_in_the_design(tmp_path: Path) -> None:
    picture(tmp_path / "mark.png")
    path = written(tmp_path, '{name: A shop, logo: mark.png, colours: {headings: "#1F3F4F"}}')
    design, problems = read_design(path)
    assert design is not None and not problems
    house = design.spec.house
    assert house is not None and house.name == "A shop"
    assert house.colours.headings == pytest.approx((0x1F / 255, 0x3F / 255, 0x4F / 255))
    assert design.logo is not None and (design.logo.columns, design.logo.rows) == (60, 40)


def test_shared_in_a_file_with_its_logo_beside_it(tmp_path: Path) -> None:
    picture(tmp_path / "house" / "mark.jpg")
    (tmp_path / "house" / "shop.yaml").write_text("name: A shop\nlogo: mark.jpg\n", encoding="utf-8")
    design, problems = read_design(written(tmp_path, "house/shop.yaml"))
    assert design is not None and not problems and design.logo is not None
    assert design.spec.house is not None and design.spec.house.name == "A shop"


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("name: A shop\ncolours: {rules: F0E0A0}\n", "faint-colour", 2, 18),
        ("name: A shop\nnmae: B\n", "unknown-key", 2, 1),
        ("name: A shop\nlogo: nowhere.png\n", "house-file", 2, 7),
        ("name: A shop\nname: B\n", "duplicate-key", 2, 1),
        ("- a list\n", "not-a-mapping", 1, 1),
        ("name: \x01\n", "odd-character", 1, 7),
        ("", "file-empty", 1, 1),
    ],
)
def test_what_is_wrong_in_the_file_is_found_there(tmp_path: Path, text: str, code: str, line: int, column: int) -> None:
    (tmp_path / "shop.yaml").write_text(text, encoding="utf-8")
    problem = only(written(tmp_path, "shop.yaml"))
    assert (problem.code, problem.place.line, problem.place.column) == (code, line, column)
    assert Path(problem.place.file).name == "shop.yaml" and problem.hint


@pytest.mark.parametrize(
    "name", ["../shop.yaml", "deep/../../shop.yaml", "..\\\\shop.yaml", "~/shop.yaml", "link.yaml"]
)
@pytest.mark.parametrize("what", ["house", "logo"])
def test_nothing_outside_the_folder_is_read(tmp_path: Path, name: str, what: str) -> None:
    folder = tmp_path / "designs"
    folder.mkdir()
    (tmp_path / "shop.yaml").write_text("name: not yours\n", encoding="utf-8")
    (folder / "link.yaml").symlink_to(tmp_path / "shop.yaml")
    problem = only(written(folder, f'"{name}"' if what == "house" else f'{{logo: "{name}"}}'))
    assert problem.code == "house-file" and "not yours" not in problem.message


def test_a_logo_has_to_be_a_picture_of_sense(tmp_path: Path) -> None:
    mark = tmp_path / "mark.png"
    path = written(tmp_path, "{logo: mark.png}")
    for colour in ((250, 240, 200), (0, 0, 0, 0)):  # faint, and nothing at all
        picture(mark, colour)
        assert only(path).code == "faint-colour"
    picture(mark, size=(8, 400))
    assert only(path).code == "house-file"
    picture(mark, size=(5000, 3000))
    assert only(path).code == "house-file"
    Image.new("RGB", (60, 40)).save(mark, format="GIF")
    assert only(path).code == "house-file"
    whole = (60, 40)
    picture(mark, size=whole)
    mark.write_bytes(mark.read_bytes()[:60])
    assert only(path).code == "house-file"


def test_what_is_clear_is_white(tmp_path: Path) -> None:
    image = Image.new("RGBA", (40, 40), (0, 0, 0, 0))
    image.paste((0, 0, 0, 255), (0, 0, 20, 40))
    image.save(tmp_path / "mark.png")
    design, _ = read_design(written(tmp_path, "{logo: mark.png}"))
    assert design is not None and design.logo is not None
    assert design.logo.pixels[:3] == b"\x00\x00\x00" and design.logo.pixels[-3:] == b"\xff\xff\xff"


def test_the_schema_takes_a_mapping_or_the_name_of_a_file() -> None:
    kinds = json_schema()["properties"]["house"]["anyOf"]
    assert {kind.get("type", "entry") for kind in kinds} >= {"string"} and len(kinds) >= 2
