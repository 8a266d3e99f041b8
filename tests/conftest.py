"""The example designs, built once and published once, for every test that looks at what comes out."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from model.build import build
from model.checks import check_fit
from model.piece import Piece
from model.sizes import sizes
from plans.resolve import read_design
from publish import bundle
from publish.drawing.records import Sheet
from publish.edition import Edition, Leaf

DESIGNS = Path(__file__).parent.parent / "designs"
Made = tuple[Path, dict[str, Edition], dict[str, list[Sheet]]]


def read_and_build(path: Path) -> Piece:
    design, problems = read_design(path)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None and not problems, problems
    assert all(problem.severity == "note" for problem in check_fit(piece, as_printed=False))
    return piece


def publish_and_keep(piece: Piece, out: Path) -> Made:
    """The folder of a set, both unit systems, with the editions and sheets it was written from."""
    editions: dict[str, Edition] = {}
    pages: dict[str, list[Sheet]] = {}
    number_pages = bundle.sheets

    def keep(edition: Edition, leaves: list[Leaf]) -> list[Sheet]:
        name = edition.units.name
        editions[name], pages[name] = edition, number_pages(edition, leaves)
        return pages[name]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bundle, "sheets", keep)
        folder = bundle.publish(piece, out, ("inch", "mm"), offered=sizes(piece)[0])
    return folder, editions, pages


@pytest.fixture(scope="session")
def bench_piece() -> Piece:
    """The porch bench, to be looked at and not changed."""
    return read_and_build(DESIGNS / "porch_bench.yaml")


@pytest.fixture(scope="session")
def rail_piece() -> Piece:
    """The hook rail, to be looked at and not changed."""
    return read_and_build(DESIGNS / "hook_rail.yaml")


@pytest.fixture(scope="session")
def bench_made(bench_piece: Piece, tmp_path_factory: pytest.TempPathFactory) -> Made:
    return publish_and_keep(bench_piece, tmp_path_factory.mktemp("bench"))


@pytest.fixture(scope="session")
def rail_made(rail_piece: Piece, tmp_path_factory: pytest.TempPathFactory) -> Made:
    return publish_and_keep(rail_piece, tmp_path_factory.mktemp("rail"))


@pytest.fixture(scope="session")
def bench_set(bench_made: Made) -> Path:
    """The folder of the published bench."""
    return bench_made[0]


@pytest.fixture(scope="session")
def rail_set(rail_made: Made) -> Path:
    """The folder of the published hook rail."""
    return rail_made[0]


OTHERS = sorted(path.stem for path in DESIGNS.glob("*.yaml") if path.stem not in ("porch_bench", "hook_rail"))


@pytest.fixture(scope="session", params=["bench_made", "rail_made", *OTHERS])
def published(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Each of the sets in turn: its folder, its editions and its sheets by unit system."""
    if request.param in OTHERS:
        return publish_and_keep(read_and_build(DESIGNS / f"{request.param}.yaml"), tmp_path_factory.mktemp("set"))
    found: Made = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="session", params=["inch", "mm"])
def unit_system(request: pytest.FixtureRequest) -> str:
    name: str = request.param
    return name


@pytest.fixture(scope="session")
def edition(published: Made, unit_system: str) -> Edition:
    """Each edition of each set in turn."""
    return published[1][unit_system]


@pytest.fixture(scope="session")
def set_sheets(published: Made, unit_system: str) -> Sequence[Sheet]:
    """The pages of that edition, as records."""
    return published[2][unit_system]


@pytest.fixture(scope="session")
def set_pdf(published: Made, edition: Edition) -> Path:
    """The file of that edition."""
    return published[0] / f"{edition.piece.design.stem}-{edition.units.name}.pdf"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The tests of one set go to one worker: publishing it is the most of their work."""
    for item in items:
        spec = getattr(item, "callspec", None)
        if spec is not None and "published" in spec.params:
            item.add_marker(pytest.mark.xdist_group(spec.params["published"]))
