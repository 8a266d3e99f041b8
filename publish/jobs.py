"""What the command line is asked to do, and the design file read for it: all that needs no geometry kernel."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from plans.design import Design
from plans.problems import Place, Problem, has_errors
from plans.resolve import resolve
from plans.sizes import BASE, Choice, size_names
from plans.source import Source, read_source
from plans.spec import Conversion
from plans.units import System

BOTH: tuple[System, ...] = ("inch", "mm")
FINE, FAULTY, UNREADABLE = 0, 1, 2  # exit codes


@dataclass(frozen=True)
class Job:
    """A design file, the size of it that is wanted, and how its other units are made where not as the design says."""

    path: Path
    choice: Choice = BASE
    conversion: Conversion | None = None

    @property
    def name(self) -> str:
        """What it is called in a list of jobs."""
        return f"{self.path.stem}, {self.choice.title}" if self.choice.title else self.path.stem


@dataclass(frozen=True)
class Read:
    """A design file read for a job: `code` is the exit code its problems mean, `FINE` where it can be built.

    `other`: the same, re-made in the other units, where it is to be and the file reads well; it is `remade_in` these.
    """

    design: Design | None
    problems: tuple[Problem, ...]
    code: int
    other: Read | None = None
    printed_in: tuple[System, ...] = BOTH
    remade_in: System | None = None

    @property
    def every(self) -> tuple[Read, ...]:
        """The design as written, then as it is re-made."""
        return (self,) if self.other is None else (self, self.other)


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
    done = _resolved(source, None, job.choice, problems)
    if done.design is None or done.code or (job.conversion or done.design.spec.other_units) == "soft":
        return done
    there = done.design.other_system
    other = replace(_resolved(source, there, job.choice, problems), remade_in=there)
    return replace(_printed_in(done, done.design.system), other=_printed_in(other, there))


def _resolved(source: Source, system: System | None, choice: Choice, problems: tuple[Problem, ...]) -> Read:
    design, found = resolve(source, system, choice)
    problems = (*problems, *found)
    return Read(design, problems, FAULTY if design is None or has_errors(problems) else FINE)


def _printed_in(done: Read, system: System) -> Read:
    """Of two pieces, one is printed in its own units alone."""
    design = done.design and replace(done.design, printed_in=(system,))
    return replace(done, design=design, printed_in=(system,))


def jobs(paths: Iterable[Path], choice: Choice, all_sizes: bool, conversion: Conversion | None = None) -> list[Job]:
    """A job for every design, or with `all_sizes` for each as it stands and for every size it names."""
    found = []
    for path in paths:
        found.append(Job(path, choice, conversion))
        source, _ = read_source(path) if all_sizes else (None, ())
        if source is not None:
            found += [Job(path, Choice(name, choice.values), conversion) for name in size_names(source)]
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
