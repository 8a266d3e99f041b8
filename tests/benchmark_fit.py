"""Speed of the fit check as ratios within one run; not collected by default: pytest tests/benchmark_fit.py -s"""

import time
from collections.abc import Iterable

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
BOARD = """  board {n}: {{wood: white oak, rings: quarter, runs: front-back, thick: up-down,
    length: {long}, width: 60, thickness: 20, where: {{bottom: floor, front: {front}, left: {left}}},
    {more}shaping: [hole: {{side: top, diameter: {bore}}}]}}
"""
ACROSS = 20  # mm between boards of a row; rows are 110 mm apart, but the fifth runs 2 mm into the fourth


def rows(count: int) -> Piece:
    """Ten rows of bored boards, each row of its own length and bore."""
    many = f"repeat: {{along: left-right, count: {count // 10}, gap: {ACROSS}}}, "
    return made(board(n, n, 0, n, many) for n in range(10))


def odd_boards(count: int) -> Piece:
    """As many boards in ten rows, no two alike."""
    return made(board(n, n % 10, n // 10 * (60 + ACROSS), n % 10 + n / 1000, "") for n in range(count))


def board(number: int, row: int, left: float, more: float, words: str) -> str:
    front = row * 110 - (12 if row == 4 else 0)
    return BOARD.format(n=number, long=97 + more, front=front, left=left, bore=8 + more / 2, more=words)


def made(boards: Iterable[str]) -> Piece:
    text = HEAD + "parts:\n" + "".join(boards)
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


def test_no_two_alike() -> None:
    found, ours = space(odd_boards(200))
    assert len(found) == 20
    print(f"\n200 parts, no two alike: space {ours:.2f} s")


def test_growth() -> None:
    small, large = space(rows(50))[1], space(rows(500))[1]
    print(f"\n50 parts {small:.3f} s, 500 parts {large:.3f} s: grows as n^{np.log10(large / small):.2f}")
