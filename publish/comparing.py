"""Two sets to be compared: each a design file, or the folder of a set that was published."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from plans.problems import Place, Problem
from publish.jobs import FINE, UNREADABLE, Job, read
from publish.record import FILE, SetRecord, read_back

Say = Callable[[str], None]
LIMIT = 50_000_000  # bytes of a record that are read


def set_at(path: Path, say: Say) -> tuple[SetRecord | None, tuple[Problem, ...], int]:
    """The record of a set, all that keeps it from being had, and the exit code that means."""
    if path.is_dir():
        return _published(path)
    from model.sizes import sizes
    from publish.bundle import record_of
    from publish.making import built

    ready = built(read(Job(path)), say)
    if not ready.versions:
        return None, ready.problems, ready.code
    versions = [replace(one, offered=sizes(one.piece)[0]) for one in ready.versions]
    return record_of(versions, say), ready.problems, FINE


def _published(folder: Path) -> tuple[SetRecord | None, tuple[Problem, ...], int]:
    file = folder / FILE
    try:
        with file.open("rb") as stream:
            found = read_back(stream.read(LIMIT))
    except OSError as error:
        message = f"no published set lies here: {error.strerror or error}"
        hint = f"name the folder of a set, which holds {FILE}, or a design file"
        return None, (Problem("file-not-read", "error", message, Place(folder.as_posix()), hint),), UNREADABLE
    if found is None:
        message, hint = "this is no record of a set, or one of another version", "publish that revision again"
        return None, (Problem("file-not-read", "error", message, Place(file.as_posix()), hint),), UNREADABLE
    return found, (), FINE
