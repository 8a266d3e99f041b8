"""One set, from a design that has been read to its folder: what is done for every job of the command line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from model.build import build
from model.checks import check_fit
from model.sizes import sizes
from plans.problems import Problem, has_errors
from plans.units import System
from publish.bundle import publish
from publish.jobs import BOTH, FAULTY, FINE, UNREADABLE, Job, Outcome, Read
from publish.version import Version
from publish.words.remade import told_once

Say = Callable[[str], None]


@dataclass(frozen=True)
class Built:
    """The pieces of a design, its own first, and all problems; no pieces where one of them cannot be made."""

    versions: tuple[Version, ...]
    problems: tuple[Problem, ...]
    code: int


def built(done: Read, say: Say, systems: Sequence[System] = BOTH) -> Built:
    """Build and check the piece of a design that was read, and the one it is re-made as, those that are wanted."""
    versions: list[Version] = []
    told: list[tuple[System | None, tuple[Problem, ...]]] = []
    for one in done.every:
        wanted = tuple(name for name in systems if name in one.printed_in)
        if not wanted:
            continue
        version, problems = _version(one, wanted, say)
        told.append((one.remade_in, problems))
        if version is None or has_errors(problems):
            return Built((), told_once(told), one.code or FAULTY)
        versions.append(version)
    return Built(tuple(versions), told_once(told), FINE)


def _version(one: Read, systems: tuple[System, ...], say: Say) -> tuple[Version | None, tuple[Problem, ...]]:
    if one.design is None or one.code != FINE:
        return None, one.problems
    piece, found = build(one.design, say)
    if piece is None:
        return None, (*one.problems, *found)
    say("checking the fit")
    problems = (*one.problems, *found, *check_fit(piece))
    return Version(piece, systems, problems, remade_in=one.remade_in), problems


def made(job: Job, done: Read, out: Path, systems: Sequence[System], say: Say) -> Outcome:
    """Build, check and write the set of one job under `out`; what keeps it from that is among the problems."""
    ready = built(done, say, systems)
    if not ready.versions:
        return Outcome(job, ready.code, ready.problems)
    say("building the other sizes")
    versions = [_offered(version) for version in ready.versions]
    problems = told_once([(version.remade_in, version.problems) for version in versions])
    try:
        place = publish(versions, out, say)
    except OSError as error:
        failure = f"the set could not be written to {out}: {error.strerror or error}"
        return Outcome(job, UNREADABLE, problems, failure=failure)
    return Outcome(job, FINE, problems, tuple(str(file) for file in sorted(place.iterdir())))


def _offered(version: Version) -> Version:
    """With the sizes it comes in, for the table of them."""
    offered, told = sizes(version.piece)
    return replace(version, problems=(*version.problems, *told), offered=offered)
