"""Speed of the space check as ratios within one run; not collected by default: pytest tests/benchmark_fit.py -s"""

import time

import cadquery as cq
import numpy as np

from model.meshes import mesh_of
from model.overlap import candidate_pairs, common_volume, overlap_volume

SAMPLE = 150  # pairs timed with the kernel alone, and extrapolated
CLASH = 0.5  # mm3


def case(count: int) -> list[cq.Solid]:
    """Boards with a bored hole in a grid; every tenth runs 2 mm into its neighbour."""
    solids = []
    for n in range(count):
        x, y = (n % 10) * 110.0, (n // 10) * 60.0
        long = 112.0 if n % 10 == 3 else 100.0
        board = cq.Workplane().box(long, 40, 20, centered=False).faces(">Z").workplane().hole(8)
        solids.append(board.val().moved(cq.Location((x, y, 0))))
    return solids


def space(solids: list[cq.Solid]) -> tuple[set[tuple[int, int]], float]:
    """What the space check does, meshing included: pairs found, CPU seconds."""
    start = time.process_time()
    meshes = [mesh_of(solid) for solid in solids]
    near = [(i, j) for i, j in candidate_pairs(meshes) if overlap_volume(meshes[i], meshes[j]) > CLASH]
    found = {(i, j) for i, j in near if common_volume(solids[i], solids[j]) > CLASH}
    return found, time.process_time() - start


def test_space_against_the_kernel() -> None:
    solids = case(200)
    found, ours = space(solids)
    rng = np.random.default_rng(1)
    pairs = [tuple(sorted(rng.choice(200, 2, replace=False).tolist())) for _ in range(SAMPLE)]
    pairs += sorted(found)
    start = time.process_time()
    clashing = {(i, j) for i, j in pairs if common_volume(solids[i], solids[j]) > CLASH}
    kernel = (time.process_time() - start) / len(pairs) * (200 * 199 / 2)
    assert clashing == found & set(pairs) and len(found) == 20
    print(f"\n200 parts: space check {ours:.2f} s, every pair by the kernel {kernel:.1f} s: {kernel / ours:.0f} times")


def test_growth() -> None:
    small, large = space(case(50))[1], space(case(500))[1]
    print(f"\n50 parts {small:.2f} s, 500 parts {large:.2f} s: grows as n^{np.log10(large / small):.2f}")
