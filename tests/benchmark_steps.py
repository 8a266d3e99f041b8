"""Speed of planning; not collected by default: pytest tests/benchmark_steps.py -s"""

import time

from model.build import build
from model.piece import Piece
from model.sequence import EFFORT, Sequencer, TooLarge
from model.steps import planned
from plans.resolve import resolve
from plans.source import read_text

HEAD = "plan: Frames\nrevision: 1\ndate: 2026-11-20\nmaker: Saltmarsh Lane Joinery\nunits: mm\nparts:\n"
FRAME = """  post {n}:
    {{wood: white oak, runs: up-down, thick: front-back, length: 700, width: 50, thickness: 50,
     where: {{bottom: floor, left: {left}, front: -200}}, mirror: front-back}}
  end rail {n}:
    {{wood: white oak, runs: front-back, thick: left-right, width: 70, thickness: 24,
     where: {{bottom: 100, centred: {{left-right: post {n}}}}}, cut to: {{front: post {n}, back: post {n}}},
     repeat: {{along: up-down, count: 4, spacing: 150, from: bottom}}}}
"""
JOINT = "  - mortise and tenon: {{of: end rail {n}, into: post {n}, thick: 8, long: 20}}\n"
RAIL = """  rail {n}:
    {{wood: white oak, runs: left-right, thick: front-back, width: 60, thickness: 24,
     where: {{top: 690, front: -190}}, cut to: {{left: post {n}, right: post {m}}}, mirror: front-back}}
"""
RAIL_JOINT = "  - mortise and tenon: {{of: rail {n}, into: post {m}, thick: 8, long: 10}}\n"


def ladder(frames: int) -> Piece:
    """Frames of two posts and four rails in a row, each tied to the next by two rails."""
    every = range(frames)
    pairs = [(n, n + 1) for n in every[:-1]]
    text = HEAD + "".join(FRAME.format(n=n, left=n * 400) for n in every)
    text += "".join(RAIL.format(n=n, m=m) for n, m in pairs) + "joints:\n"
    text += "".join(JOINT.format(n=n) for n in every) + "".join(
        RAIL_JOINT.format(n=n, m=end) for n, m in pairs for end in (n, m)
    )
    source, problems = read_text("frames.yaml", text.encode())
    assert source is not None, problems
    design, problems = resolve(source)
    assert design is not None, problems
    piece, problems = build(design)
    assert piece is not None, problems
    for part in piece.parts.values():
        assert part.mesh is not None
    return piece


def planning(piece: Piece) -> float:
    """CPU seconds of the order of assembly and the steps."""
    start = time.process_time()
    planned(piece, piece.stages)
    return time.process_time() - start


def test_planning_of_sixty_parts() -> None:
    piece = ladder(8)
    took = planning(piece)
    print(f"\n{len(piece.parts)} parts planned in {took:.2f} s of CPU, {len(piece.stages)} stages")
    assert len(piece.parts) >= 60
    assert took < 2.0


def test_effort_bounds_what_a_large_piece_takes() -> None:
    piece = ladder(25)
    sequencer = Sequencer(piece)
    start = time.process_time()
    try:
        sequencer.stages()
        said = "worked out"
    except TooLarge:
        said = "given up"
    took = time.process_time() - start
    print(f"\n{len(piece.parts)} parts: {said} after {took:.2f} s of CPU, effort {sequencer.effort} of {EFFORT}")
    assert took < 10.0
