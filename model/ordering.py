"""An order of things of which some come before others, with as few changes between alike ones as can be seen ahead."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter


@dataclass(frozen=True)
class Ordered:
    """The things by number, first to last; or, where there is no order, things that wait for each other in a circle."""

    order: tuple[int, ...]
    locked: tuple[int, ...] = ()


def ordered(set_ups: Sequence[str], before: Iterable[tuple[int, int]]) -> Ordered:
    """Things 0 to n - 1, each with its set-up; `before`: pairs of which the first comes first.

    Of those that may come next, the first on the set-up that stands, else the first (Kahn 1962).
    """
    waits = TopologicalSorter[int](dict.fromkeys(range(len(set_ups)), ()))
    for first, then in before:
        waits.add(then, first)
    try:
        waits.prepare()
    except CycleError as error:
        return Ordered((), tuple(error.args[1][1:]))
    order: list[int] = []
    ready: list[int] = []
    while waits.is_active():
        ready += waits.get_ready()
        stands = set_ups[order[-1]] if order else ""
        chosen = min(ready, key=lambda n: (not stands or set_ups[n] != stands, n))
        ready.remove(chosen)
        waits.done(chosen)
        order.append(chosen)
    return Ordered(tuple(order))
