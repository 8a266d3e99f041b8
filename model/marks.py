"""The letters of the parts: in the order first met, but for those that a design keeps from an earlier revision."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count

from model.alike import mark
from model.piece import Item


def lettered(items: Sequence[Item], kept: Mapping[str, str]) -> tuple[Item, ...]:
    """The items in the order of their marks; `kept` has the mark of a kind of part, of which it is the first form.

    The letters kept are taken by nothing else, whether their part is still there or not.
    """
    free = _free(set(kept.values()))
    given: set[str] = set()
    marked = []
    for item in items:
        own = kept.get(item.name) if item.name not in given else None
        given.add(item.name)
        marked.append(replace(item, mark=own or next(free)))
    return tuple(sorted(marked, key=lambda item: (len(item.mark), item.mark)))


def _free(taken: set[str]) -> Iterator[str]:
    return (letters for letters in map(mark, count()) if letters not in taken)
