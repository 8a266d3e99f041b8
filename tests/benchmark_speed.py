"""Speed and memory, as ratios within one run: `pytest tests/benchmark_speed.py --benchmark-only -s`.

Not collected by a plain run: nothing here may decide whether a change is right. CPU time is counted, so
that a busy machine does not tip a ratio; each figure is taken in a process of its own.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

DESIGN = Path(__file__).parent.parent / "designs" / "porch_bench.yaml"

HEAD = """
import json, os, sys, time
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
def figures(**more):
    # of this program alone: getrusage's ru_maxrss is never less than what the process that started it had
    status = dict(line.split(":", 1) for line in open("/proc/self/status"))
    peak = int(status["VmHWM"].split()[0]) / 1024
    print(json.dumps({"cpu": time.process_time(), "peak": peak, **more}))
"""
KERNEL = HEAD + "import cadquery\nfigures()"
BUILD = (
    HEAD
    + """
import cadquery
from plans.resolve import read_design
from model.build import build
design, _ = read_design(sys.argv[1])
build(design)
figures()
"""
)
PUBLISH = (
    HEAD
    + """
import tempfile
from pathlib import Path
from plans.resolve import read_design
from model.build import build
from model.checks import check_fit
import publish.drawn as drawn
from publish.pictures import pictorial
# the lit cover is left out, as the measure asks: a plain tinted picture stands in for it
drawn.cover = lambda piece: pictorial(piece, tuple(piece.parts), {}, eased=True).tint
from publish.bundle import publish
from publish.version import Version
design, _ = read_design(sys.argv[1])
piece, _ = build(design)
check_fit(piece)
with tempfile.TemporaryDirectory() as out:
    publish([Version(piece, ("inch", "mm"))], Path(out))
figures()
"""
)
VIEWS = (
    HEAD
    + """
from cadquery.occ_impl.exporters.svg import getSVG
from plans.resolve import read_design
from model.build import build
from model.frames import side_vector
from publish.part_views import draw
from publish.project import view
design, _ = read_design(sys.argv[1])
piece, _ = build(design)
parts = [piece.parts[item.shown] for item in piece.items]
views = [draw(part).views for part in parts]
# hidden lines as the part sheets show them: in the face and the edge view, not in the end view
wanted = [
    [(v.axes, hidden) for v, hidden in ((found.face, True), (found.edge, True), (found.end, False)) if v is not None]
    for found in views
]
def fresh():
    # no mesh and no flag left by an earlier round: a cold set pays for those too
    return [(part.sharp.copy(), axes) for part, axes in zip(parts, wanted)]
def ours():
    solids = fresh()
    start = time.process_time()
    for solid, some in solids:
        for axes, hidden in some:
            view([solid], axes.towards, axes.right, hidden=hidden)
    return time.process_time() - start
def theirs():
    solids = fresh()
    start = time.process_time()
    for solid, some in solids:
        for axes, hidden in some:
            getSVG(solid, {"projectionDir": axes.towards, "showHidden": hidden, "showAxes": False})
    return time.process_time() - start
rounds = [(ours(), theirs()) for _ in range(5)]
figures(ours=min(a for a, _ in rounds), theirs=min(b for _, b in rounds), views=sum(len(some) for some in wanted))
"""
)


def run(script: str) -> dict[str, Any]:
    done = subprocess.run([sys.executable, "-c", script, str(DESIGN)], capture_output=True, text=True, check=True)
    return dict(json.loads(done.stdout.splitlines()[-1]))


def table(rows: list[tuple[str, str]]) -> None:
    print()
    for name, value in rows:
        print(f"  {name:<58}{value:>12}")


def test_publishing_both_sets_against_the_build(benchmark: Any) -> None:
    built = run(BUILD)
    published = benchmark.pedantic(run, args=(PUBLISH,), rounds=1, iterations=1)
    ratio = published["cpu"] / built["cpu"]
    benchmark.extra_info["ratio"] = ratio
    table(
        [
            ("import cadquery and the bench's build, CPU s", f"{built['cpu']:.2f}"),
            ("cold publish of both sets, CPU s", f"{published['cpu']:.2f}"),
            ("ratio (at most 4)", f"{ratio:.2f}"),
        ]
    )
    assert ratio <= 4


def test_peak_memory_against_the_kernel_alone(benchmark: Any) -> None:
    kernel = run(KERNEL)
    published = benchmark.pedantic(run, args=(PUBLISH,), rounds=1, iterations=1)
    ratio = published["peak"] / kernel["peak"]
    benchmark.extra_info["ratio"] = ratio
    table(
        [
            ("import cadquery, peak MiB", f"{kernel['peak']:.0f}"),
            ("cold publish of both sets, peak MiB", f"{published['peak']:.0f}"),
            ("ratio (under 2)", f"{ratio:.2f}"),
        ]
    )
    assert ratio < 2


def test_views_against_the_kernel_librarys_own_svg(benchmark: Any) -> None:
    found = benchmark.pedantic(run, args=(VIEWS,), rounds=1, iterations=1)
    ratio = found["theirs"] / found["ours"]
    benchmark.extra_info["ratio"] = ratio
    table(
        [
            (f"{found['views']} views, ours, CPU s", f"{found['ours']:.3f}"),
            ("the same views, the library's SVG exporter, CPU s", f"{found['theirs']:.3f}"),
            ("times as fast (at least 1.5)", f"{ratio:.2f}"),
        ]
    )
    assert ratio >= 1.5


if __name__ == "__main__":
    raise SystemExit(pytest.main([__file__, "--benchmark-only", "-s"]))
