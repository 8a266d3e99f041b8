"""The example designs, built once and published once, for every test that looks at what comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import manifold3d
import numpy as np
import pytest

from model.build import build
from model.cache import kept_in
from model.checks import check_fit
from model.piece import Piece
from model.sizes import sizes
from model.stages import Move, Stage
from publish import bundle
from publish.drawing.records import Sheet
from publish.edition import Edition, Leaf
from publish.jobs import Job, read
from publish.version import Version

DESIGNS = Path(__file__).parent.parent / "designs"
# replaying an assembly
ALLOWED = 1.0  # mm3: facets of bored holes
FINE, COARSE = 3.0, 25.0  # mm a step; fine while joints are still engaged
ENGAGED = 60.0  # mm

Made = tuple[Path, dict[str, Edition], dict[str, list[Sheet]]]


def versions_of(path: Path) -> list[Version]:
    """The piece of a design, and the one it is re-made as in the other units where its file says so."""
    done = read(Job(path))
    assert not done.problems
    found = []
    for one in done.every:
        assert one.design is not None and not one.problems, one.problems
        piece, problems = build(one.design)
        assert piece is not None and not problems, problems
        assert all(problem.severity == "note" for problem in check_fit(piece, as_printed=False))
        found.append(Version(piece, one.design.printed_in, offered=sizes(piece)[0]))
    return found


def publish_and_keep(versions: Sequence[Version], out: Path) -> Made:
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
        folder = bundle.publish(versions, out)
    return folder, editions, pages


@pytest.fixture(scope="session", autouse=True)
def kept_work(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Iterator[None]:
    """Work is kept for the tests that follow and for the other workers, as it is for a maker's next run."""
    root = tmp_path_factory.getbasetemp()
    folder = (root if worker_id == "master" else root.parent) / "kept"
    with pytest.MonkeyPatch.context() as patch, kept_in(folder):
        patch.setenv("XDG_CACHE_HOME", str(folder))
        yield


@pytest.fixture(scope="session")
def bench_versions() -> list[Version]:
    return versions_of(DESIGNS / "porch_bench.yaml")


@pytest.fixture(scope="session")
def rail_versions() -> list[Version]:
    return versions_of(DESIGNS / "hook_rail.yaml")


@pytest.fixture(scope="session")
def bench_piece(bench_versions: list[Version]) -> Piece:
    """The porch bench, to be looked at and not changed."""
    return bench_versions[0].piece


@pytest.fixture(scope="session")
def rail_piece(rail_versions: list[Version]) -> Piece:
    """The hook rail as written, in inches, to be looked at and not changed; in millimetres it is re-made."""
    return rail_versions[0].piece


@pytest.fixture(scope="session")
def bench_made(bench_versions: list[Version], tmp_path_factory: pytest.TempPathFactory) -> Made:
    return publish_and_keep(bench_versions, tmp_path_factory.mktemp("bench"))


@pytest.fixture(scope="session")
def rail_made(rail_versions: list[Version], tmp_path_factory: pytest.TempPathFactory) -> Made:
    return publish_and_keep(rail_versions, tmp_path_factory.mktemp("rail"))


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
        return publish_and_keep(versions_of(DESIGNS / f"{request.param}.yaml"), tmp_path_factory.mktemp("set"))
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


def _every(stages: tuple[Stage, ...]) -> Iterator[Stage]:
    for stage in stages:
        yield from stage.every


def _body(piece: Piece, names: Sequence[str]) -> manifold3d.Manifold:
    return manifold3d.Manifold.batch_boolean([piece.parts[n].mesh.manifold for n in names], manifold3d.OpType.Add)


def _ways(length: float) -> Iterator[float]:
    gone = 0.0
    while gone < length:
        gone += FINE if gone < ENGAGED else COARSE
        yield min(gone, length)


def _clear_of(moved: manifold3d.Manifold, rest: manifold3d.Manifold) -> bool:
    a, b = np.array(moved.bounding_box()), np.array(rest.bounding_box())
    return bool((a[:3] >= b[3:]).any() or (b[:3] >= a[3:]).any())


def _clash(piece: Piece, move: Move, others: set[str]) -> float:
    """Largest volume shared on the way out of a move, all `others` in place."""
    if not move.path or not others:
        return 0.0
    moving, rest = _body(piece, move.parts), _body(piece, sorted(others))
    worst, shift = 0.0, np.zeros(3)
    for leg in move.path:
        way = np.array(leg.direction)
        assert np.linalg.norm(way) == pytest.approx(1)
        for gone in _ways(min(leg.distance, 3000.0)):
            moved = moving.translate((shift + way * gone).tolist())
            if np.isinf(leg.distance) and _clear_of(moved, rest):
                break
            worst = max(worst, (moved ^ rest).volume())
        else:
            assert not np.isinf(leg.distance), "it never comes free"
        shift = shift + way * (leg.distance if np.isfinite(leg.distance) else 0.0)
    return worst


def _replay(piece: Piece, stages: tuple[Stage, ...]) -> None:
    """Each stage puts together what is there, ends as one, and comes apart again without a clash."""
    groups = {frozenset({name}) for name in piece.parts}
    for stage in _every(stages):
        needed = [g for g in groups if g & set(stage.parts)]
        assert set().union(*needed) == set(stage.parts), "a stage uses parts of a group that is made already"
        base = set(stage.base)
        for joint in piece.joints:
            if {joint.a, joint.b} <= base:
                assert any({joint.a, joint.b} <= g for g in needed), f"no stage joins {joint.a} and {joint.b}"
        for move in stage.moves:
            assert frozenset(move.parts) in groups, f"{move.parts} are put on before they are together"
            assert _clash(piece, move, set(stage.there(move))) <= ALLOWED, move
        groups = (groups - set(needed)) | {frozenset(stage.parts)}
    assert groups == {frozenset(piece.parts)}, "the piece is not put together in the end"
    last = next(iter(reversed(stages)))
    assert sorted(last.parts) == sorted(piece.parts)


@pytest.fixture(scope="session")
def replay() -> Callable[[Piece, tuple[Stage, ...]], None]:
    """Replays stages on the solids of a piece; whatever runs into anything fails."""
    return _replay
