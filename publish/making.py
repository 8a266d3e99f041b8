"""One set, from a design that has been read to its folder: what is done for every job of the command line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from model.build import build
from model.checks import check_fit
from model.piece import Piece
from model.sizes import sizes
from plans.problems import Problem, has_errors
from plans.units import System
from publish.bundle import publish
from publish.jobs import FAULTY, FINE, UNREADABLE, Job, Outcome, Read

Say = Callable[[str], None]


def built(done: Read, say: Say) -> tuple[Piece | None, tuple[Problem, ...]]:
    """The piece of a design that was read, where it can be built, and all problems, its reading's first."""
    if done.design is None or done.code != FINE:
        return None, done.problems
    piece, found = build(done.design, say)
    if piece is not None:
        say("checking the fit")
        found = (*found, *check_fit(piece))
    return piece, (*done.problems, *found)


def made(job: Job, done: Read, out: Path, systems: Sequence[System], say: Say) -> Outcome:
    """Build, check and write the set of one job under `out`; what keeps it from that is among the problems."""
    piece, problems = built(done, say)
    if piece is None or has_errors(problems):
        return Outcome(job, done.code or FAULTY, problems)
    say("building the other sizes")
    offered, told = sizes(piece)
    problems = (*problems, *told)
    try:
        place = publish(piece, out, systems, problems, say, offered)
    except OSError as error:
        failure = f"the set could not be written to {out}: {error.strerror or error}"
        return Outcome(job, UNREADABLE, problems, failure=failure)
    return Outcome(job, FINE, problems, tuple(str(file) for file in sorted(place.iterdir())))
