"""Many sets at once: one process a core, a line for each as it is done, a table at the end."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from multiprocessing import get_context
from pathlib import Path

from rich.markup import escape
from rich.table import Table

from model.cache import kept_in
from plans.units import System
from publish.jobs import FAULTY, FINE, UNREADABLE, Job, Outcome, read
from publish.words.fit import tally
from publish.words.system import NO_KERNEL

Done = Callable[[Outcome], None]


def publish_all(
    jobs: Sequence[Job], out: Path, systems: Sequence[System], kept: Path | None, done: Done
) -> list[Outcome]:
    """Every outcome, in the order of the jobs; `done` is called as each comes. One that fails stops no other.

    kept: the folder in which work is kept for the next run; None for nowhere.
    """
    work = partial(_work, out=out, systems=tuple(systems), kept=kept)
    found: dict[int, Outcome] = {}
    # a fresh process each: what one inherits of a loaded kernel is not safe to use
    with ProcessPoolExecutor(min(len(jobs), os.cpu_count() or 1), get_context("spawn")) as pool:
        waiting = {pool.submit(work, job): number for number, job in enumerate(jobs)}
        for future in as_completed(waiting):
            number = waiting[future]
            found[number] = _outcome(jobs[number], future)
            done(found[number])
    return [found[number] for number in range(len(jobs))]


def _work(job: Job, out: Path, systems: tuple[System, ...], kept: Path | None) -> Outcome:
    from publish.making import made  # the parent needs no geometry kernel

    with kept_in(kept):
        return made(job, read(job), out, systems, lambda _: None)


def _outcome(job: Job, future: Future[Outcome]) -> Outcome:
    """What came of a job; a fault of ours is told, and leaves the others to go on."""
    try:
        return future.result()
    except BrokenProcessPool:
        failure = "its process was stopped from outside; run it by itself, it may want more memory"
    except Exception as error:
        if isinstance(error, ImportError) and "libGL" in str(error):
            return Outcome(job, UNREADABLE, (), failure=NO_KERNEL)
        failure = f"plansheaf itself failed, {type(error).__name__}: {error}; publish it by itself to see where"
    return Outcome(job, FAULTY, (), failure=failure)


def line(outcome: Outcome) -> str:
    """A job that is done, in a line."""
    return f"{outcome.job.name}: {_said(outcome)}"


def _said(outcome: Outcome) -> str:
    loud = [problem for problem in outcome.problems if problem.severity != "note"]
    if outcome.code == FINE:
        return f"published, {tally(loud) if loud else 'all fits'}"
    return f"not published: {outcome.failure}" if outcome.failure else f"not published, {tally(loud)}"


def summary(outcomes: Sequence[Outcome]) -> Table:
    """All jobs: what came of each, how many files, and where."""
    table = Table("Set", "Outcome", "Files", box=None, header_style="bold", pad_edge=False)
    table.add_column("Folder", overflow="fold")
    for outcome in outcomes:
        folder = Path(outcome.files[0]).parent.as_posix() if outcome.files else ""
        cells = (outcome.job.name, _said(outcome), str(len(outcome.files)), folder)
        table.add_row(*map(escape, cells))
    return table
