"""Small questions of the search for an order: what is like what, what hangs on what, what is past another."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from model.meshes import Floats
from model.piece import Part

Like = tuple[str, str, str, tuple[int, ...]]


def like(part: Part) -> Like:
    """What a part is made of, which way it lies and its sizes to a millimetre."""
    sizes = tuple(round(size) for size in part.over_all)
    return part.spec.made_of, part.spec.runs, part.spec.thick, sizes


def clear_of(mover: Floats, static: Floats, direction: Floats) -> bool:
    """Whether two boxes (2 x 3) cannot meet when one moves along a main direction: quick, and never wrong."""
    axis = int(np.argmax(np.abs(direction)))
    if abs(direction[axis]) < 1 - 1e-9:
        return False
    beside = np.delete(np.maximum(mover[0] - static[1], static[0] - mover[1]), axis)
    past = mover[0][axis] >= static[1][axis] if direction[axis] > 0 else mover[1][axis] <= static[0][axis]
    return bool(past or beside.max() >= 0)


def beside(links: Iterable[frozenset[str]]) -> dict[str, set[str]]:
    """Every part and what joints, fixings and assemblies tie to it."""
    found: dict[str, set[str]] = {}
    for pair in links:
        for name in pair:
            found.setdefault(name, set()).update(pair - {name})
    return found


def closure(name: str, blockers: dict[str, set[str]], group: frozenset[str] | None = None) -> frozenset[str]:
    """A part and everything that has to move with it, within a group where one is given."""
    seen, todo = {name}, {name}
    while todo:
        following = set().union(*(blockers.get(one, ()) for one in todo)) - seen
        todo = following if group is None else following & group
        seen |= todo
    return frozenset(seen)
