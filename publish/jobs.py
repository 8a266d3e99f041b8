"""What the command line is asked to do, and the design file read for it: all that needs no geometry kernel."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from plans.design import Design
from plans.problems import Place, Problem, has_errors
from plans.resolve import resolve
from plans.sizes import BASE, Choice, size_names
from plans.source import read_source

FINE, FAULTY, UNREADABLE = 0, 1, 2  # exit codes


@dataclass(frozen=True)
class Job:
    """A design file, and the size of it that is wanted."""

    path: Path
    choice: Choice = BASE

    @property
    def name(self) -> str:
        """What it is called in a list of jobs."""
        return f"{self.path.stem}, {self.choice.title}" if self.choice.title else self.path.stem


@dataclass(frozen=True)
class Read:
    """A design file read for a job: `code` is the exit code its problems mean, `FINE` where it can be built."""

    design: Design | None
    problems: tuple[Problem, ...]
    code: int


@dataclass(frozen=True)
class Outcome:
    """A job done: its files, by path, and its problems; no files where no set was written.

    `failure`: what kept the set from being written, where that is not in the design.
    """

    job: Job
    code: int
    problems: tuple[Problem, ...]
    files: tuple[str, ...] = ()
    failure: str = ""


def read(job: Job) -> Read:
    """The design of a job, and all that is wrong with its file."""
    source, problems = read_source(job.path)
    if source is None:
        return Read(None, problems, UNREADABLE)
    design, found = resolve(source, choice=job.choice)
    problems = (*problems, *found)
    return Read(design, problems, FAULTY if design is None or has_errors(problems) else FINE)


def jobs(paths: Iterable[Path], choice: Choice, all_sizes: bool) -> list[Job]:
    """A job for every design, or with `all_sizes` for each as it stands and for every size it names."""
    found = []
    for path in paths:
        found.append(Job(path, choice))
        source, _ = read_source(path) if all_sizes else (None, ())
        if source is not None:
            found += [Job(path, Choice(name, choice.values)) for name in size_names(source)]
    return found


def twice(wanted: Sequence[Job]) -> list[Problem]:
    """Jobs whose sets would be written to one folder: of designs in different folders that have one name."""
    first: dict[str, Job] = {}
    found = []
    for job in wanted:
        key = f"{job.path.stem}-{job.choice.slug}".strip("-")
        if key in first:
            message = f"its set would stand where that of {first[key].path.as_posix()} stands"
            hint = "give the files names of their own, or publish them into two folders with `--out`"
            found.append(Problem("name-taken", "error", message, Place(job.path.as_posix()), hint))
        first.setdefault(key, job)
    return found
