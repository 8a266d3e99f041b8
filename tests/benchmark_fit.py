"""Speed of the fit check as ratios within one run; not collected by default: pytest tests/benchmark_fit.py -s"""

import time

import numpy as np

from model.build import build
from model.checks import check_fit, same_place
from model.overlap import common_volume
from model.piece import Piece
from plans.resolve import resolve
from plans.source import read_text

SAMPLE = 150  # pairs timed with the kernel alone, and extrapolated
CLASH = 0.5  # mm3
HEAD = "plan: Rows\nrevision: 1\ndate: 2026-11-20\nmaker: Saltmarsh Lane Joinery\nunits: mm\nstands: on the wall\n"
ROW = """  row {n}: {{wood: white oak, rings: quarter, runs: front-back, thick: up-down,
    length: 100, width: 60, thickness: 20, where: {{bottom: floor, front: {at}, centred: left-right}},
    repeat: {{along: left-right, count: {count}, gap: 20}}, shaping: [hole: {{side: top, diameter: 8}}]}}
"""


def rows(count: int) -> Piece:
    """Ten rows of bored boards, all alike; the boards of one row run 2 mm into those of the next."""
    text = (
        HEAD
        + "parts:\n"
        + "".join(ROW.format(n=n, at=n * 110 - (12 if n == 4 else 0), count=count // 10) for n in range(10))
    )
    source, _ = read_text("rows.yaml", text.encode())
    assert source is not None
    design, problems = resolve(source)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    return piece


def space(piece: Piece) -> tuple[set[tuple[str, ...]], float]:
    """What the space check finds, meshing included: pairs, CPU seconds."""
    start = time.process_time()
    found = {problem.parts for problem in same_place.check(piece)}
    return found, time.process_time() - start


def test_against_the_kernel() -> None:
    piece = rows(200)
    found, ours = space(piece)
    fresh = rows(200)
    start = time.process_time()
    check_fit(fresh, as_printed=False)
    every = time.process_time() - start
    solids = {name: part.sharp.moved(part.at) for name, part in piece.parts.items()}
    rng = np.random.default_rng(1)
    names = list(solids)
    pairs = [tuple(names[n] for n in sorted(rng.choice(200, 2, replace=False))) for _ in range(SAMPLE)] + sorted(found)
    start = time.process_time()
    clashing = {(a, b) for a, b in pairs if common_volume(solids[a], solids[b]) > CLASH}
    kernel = (time.process_time() - start) / len(pairs) * (200 * 199 / 2)
    assert clashing == found & set(pairs) and len(found) == 20
    print(f"\n200 parts: every pair by the kernel {kernel:.1f} s")
    print(f"space {ours:.2f} s, {kernel / ours:.0f} times as fast (at least 300 are wanted)")
    print(f"all checks but the printed numbers {every:.2f} s, {kernel / every:.0f} times (at least 50 are wanted)")


def test_growth() -> None:
    small, large = space(rows(50))[1], space(rows(500))[1]
    print(f"\n50 parts {small:.3f} s, 500 parts {large:.3f} s: grows as n^{np.log10(large / small):.2f}")
