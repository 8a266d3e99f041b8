"""What a change costs, as ratios within one run: `pytest tests/benchmark_change.py --benchmark-only -s`.

Not collected by a plain run: nothing here may decide whether a change is right. CPU time is counted, but for the
catalogue, where the wall clock is what counts.
"""

from __future__ import annotations

import json
import math
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

DESIGNS = Path(__file__).parent.parent / "designs"

PUBLISH = """
import json, os, sys, time
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
from pathlib import Path
from model.cache import kept_in
from plans.sizes import BASE
from publish.jobs import Job, read
from publish.making import made
def cpu(design, out, folder):
    job, start = Job(Path(design), BASE), time.process_time()
    with kept_in(Path(folder) if folder else None):
        outcome = made(job, read(job), Path(out), ("inch", "mm"), lambda _: None)
    assert not outcome.code, [problem.message for problem in outcome.problems]
    return time.process_time() - start
print(json.dumps(cpu(sys.argv[1], sys.argv[2], sys.argv[3])))
"""
CATALOGUE = """
import json, os, sys, time
from pathlib import Path
if __name__ == "__main__":
    os.cpu_count = lambda: int(sys.argv[1])
    from publish.catalogue import publish_all
    from publish.jobs import Job
    start = time.monotonic()
    jobs = [Job(path) for path in sorted(Path(sys.argv[2]).glob("*.yaml"))]
    outcomes = publish_all(jobs, Path(sys.argv[3]), ("inch", "mm"), None, lambda _: None)
    assert not any(outcome.code for outcome in outcomes)
    print(json.dumps(time.monotonic() - start))
"""
# one mark of each is changed: the bearers of the bench's shelf, and the runners of the chest's till
CHANGES = {
    "porch_bench": ("    width: 1 3/4\n", "    width: 1 11/16\n"),
    "blanket_chest": ("edge: bottom, towards: back, angle: 15", "edge: bottom, towards: back, angle: 16"),
}


def run(script: str, *arguments: object) -> float:
    command = [sys.executable, "-c", script, *map(str, arguments)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return float(json.loads(done.stdout.splitlines()[-1]))


def table(rows: list[tuple[str, str]]) -> None:
    print()
    for name, value in rows:
        print(f"  {name:<58}{value:>12}")


@pytest.mark.parametrize("name", CHANGES)
def test_a_set_after_a_change_of_one_part_against_a_cold_one(name: str, benchmark: Any, tmp_path: Path) -> None:
    design, out, cache = tmp_path / f"{name}.yaml", tmp_path / "out", tmp_path / "cache"
    written = (DESIGNS / f"{name}.yaml").read_text(encoding="utf-8")
    before, after = CHANGES[name]
    assert written.count(before) == 1
    design.write_text(written, encoding="utf-8")
    run(PUBLISH, design, out, cache)
    same = run(PUBLISH, design, out, cache)
    design.write_text(written.replace(before, after), encoding="utf-8")
    warm = benchmark.pedantic(run, args=(PUBLISH, design, out, cache), rounds=1, iterations=1)
    cold = run(PUBLISH, design, tmp_path / "afresh", "")
    table(
        [
            (f"{name}, cold, CPU s", f"{cold:.2f}"),
            ("the same again, nothing changed, share of it", f"{same / cold:.2f}"),
            ("after a change of one part, share of it (at most 0.25)", f"{warm / cold:.2f}"),
        ]
    )
    assert warm / cold <= 0.25


def test_a_catalogue_on_two_cores_against_one(benchmark: Any, tmp_path: Path) -> None:
    designs = tmp_path / "designs"
    designs.mkdir()
    written = (DESIGNS / "hook_rail.yaml").read_text(encoding="utf-8")
    for number in range(20):
        text = written.replace("  length: 30", f"  length: {30 + number / 4}", 1)
        assert number == 0 or text != written
        (designs / f"rail_{number:02}.yaml").write_text(text, encoding="utf-8")
    script = tmp_path / "catalogue.py"
    script.write_text(CATALOGUE, encoding="utf-8")
    one = timed(script, 1, designs, tmp_path / "one")
    two = benchmark.pedantic(timed, args=(script, 2, designs, tmp_path / "two"), rounds=1, iterations=1)
    table([("20 designs, times as fast on two cores (at least 1.7)", f"{one / two:.2f}")])
    assert one / two >= 1.7


def timed(script: Path, *arguments: object) -> float:
    """Seconds; of a file, since processes that are started afresh have to find it again."""
    done = subprocess.run(
        [sys.executable, str(script), *map(str, arguments)], capture_output=True, text=True, check=True
    )
    return float(json.loads(done.stdout.splitlines()[-1]))


def screen(slats: int) -> str:
    """A screen of upright slats, notched over two rails, of so many parts and two rails more."""
    return f"""
plan: Slatted screen
revision: 1
date: 2026-11-30
maker: Benchmark
units: mm
stands: on the wall
wood: Northern red oak
lengths: {{board: 19, high: 900}}
counts: {{slats: {slats}}}
parts:
  low rail:
    stock: 4/4
    runs: left-right
    thick: front-back
    length: {18 * slats + 300}
    width: 60
    thickness: board
    where: {{bottom: 150, back: 0, centred: left-right}}
  high rail:
    stock: 4/4
    runs: left-right
    thick: front-back
    length: low rail.length
    width: 60
    thickness: board
    where: {{bottom: low rail.top + 480, back: 0, centred: left-right}}
  slat:
    stock: 4/4
    runs: up-down
    thick: front-back
    length: high
    width: 14
    thickness: board
    where: {{bottom: floor, back: low rail.front + 6, centred: left-right}}
    repeat: {{along: left-right, count: slats, gap: 4}}
joints:
  - notch over: {{of: slat, over: low rail, count: slats}}
  - notch over: {{of: slat, over: high rail, count: slats}}
"""


def test_the_time_of_a_set_grows_little_faster_than_its_parts(benchmark: Any, tmp_path: Path) -> None:
    figures = {}
    for parts in (10, 50, 200):
        design = tmp_path / f"screen_{parts}.yaml"
        design.write_text(screen(parts - 2), encoding="utf-8")
        figures[parts] = run(PUBLISH, design, tmp_path / "out", "")
    benchmark.pedantic(lambda: figures, rounds=1, iterations=1)
    power = math.log(figures[200] / figures[10]) / math.log(200 / 10)
    rows = [(f"a set of {parts} parts, CPU s", f"{cpu:.2f}") for parts, cpu in figures.items()]
    table([*rows, ("grows from 10 to 200 parts as n to the power (at most 1.2)", f"{power:.2f}")])
    assert power <= 1.2
