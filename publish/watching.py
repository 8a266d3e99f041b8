"""Waiting until a design is saved: its file, the house file it names, or the logo."""

from __future__ import annotations

import time
from collections.abc import Iterable
from pathlib import Path

from plans import tree
from plans.source import read_source

PAUSE = 0.4  # seconds between two looks
SETTLED = 0.2  # seconds without another change: an editor may write a file in two goes

Seen = dict[Path, tuple[int, int] | None]


def named_files(path: Path) -> tuple[Path, ...]:
    """The files a set is made from, as far as they can be read."""
    found = [path]
    source, _ = read_source(path)
    house = None if source is None else source.root.items.get("house")
    if isinstance(house, tree.Scalar) and house.text:
        found.append(path.parent / house.text)
        source, _ = read_source(found[-1])
        house = None if source is None else source.root
    if isinstance(house, tree.Mapping):
        logo = house.items.get("logo")
        if isinstance(logo, tree.Scalar) and logo.text:
            found.append(found[-1].parent / logo.text)
    return tuple(found)


def seen(paths: Iterable[Path]) -> Seen:
    """When each file was written, and how long it is; nothing where it is not there."""
    found: Seen = {}
    for path in paths:
        try:
            status = path.stat()
            found[path] = (status.st_mtime_ns, status.st_size)
        except (OSError, ValueError):
            found[path] = None
    return found


def wait(before: Seen) -> None:
    """Come back when any of the files is not as it was, and has been let be for a moment."""
    while (now := seen(before)) == before:
        time.sleep(PAUSE)
    while True:
        time.sleep(SETTLED)
        if (later := seen(before)) == now:
            return
        now = later
