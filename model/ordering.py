"""An order of things of which some come before others, with as few changes between alike ones as can be seen ahead."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Ordered:
    """The things by number, first to last; and those that wait for each other, which have no order."""

    order: tuple[int, ...]
    locked: tuple[int, ...] = ()


def ordered(set_ups: Sequence[str], before: Iterable[tuple[int, int]]) -> Ordered:
    """Things 0 to n - 1, each with its set-up; `before`: pairs of which the first comes first.

    Of those that may come next, the first on the set-up that stands, else the first (Kahn 1962).
    """
    waits: dict[int, set[int]] = {n: set() for n in range(len(set_ups))}
    for first, then in before:
        waits[then].add(first)
    order: list[int] = []
    while waits:
        ready = [n for n, needs in waits.items() if not needs]
        if not ready:
            return Ordered(tuple(order), _circle(waits))
        stands = set_ups[order[-1]] if order else ""
        chosen = min(ready, key=lambda n: (not stands or set_ups[n] != stands, n))
        order.append(chosen)
        del waits[chosen]
        for needs in waits.values():
            needs.discard(chosen)
    return Ordered(tuple(order))


def _circle(waits: dict[int, set[int]]) -> tuple[int, ...]:
    """Things that wait for each other in a circle, shortest to tell: followed from the first till one comes again."""
    best: list[int] = []
    for start in waits:
        path = [start]
        while True:
            following = min(waits[path[-1]])
            if following in path:
                circle = path[path.index(following) :]
                break
            path.append(following)
        if not best or len(circle) < len(best):
            best = circle
    return tuple(reversed(best))
