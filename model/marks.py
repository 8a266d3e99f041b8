"""The letters of the parts: in the order first met, but for those that a design keeps from an earlier revision."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count

from model.alike import mark
from model.piece import Item


def lettered(items: Sequence[Item], kept: Mapping[str, Sequence[str]]) -> tuple[Item, ...]:
    """The items in the order of their marks; `kept` has the marks of a kind of part, in the order of its forms.

    The letters kept are taken by nothing else, whether their part is still there or not.
    """
    free = _free({letters for of_kind in kept.values() for letters in of_kind})
    left = {kind: iter(of_kind) for kind, of_kind in kept.items()}
    marked = [replace(item, mark=next(left.get(item.name, iter(())), None) or next(free)) for item in items]
    return tuple(sorted(marked, key=lambda item: (len(item.mark), item.mark)))


def _free(taken: set[str]) -> Iterator[str]:
    return (letters for letters in map(mark, count()) if letters not in taken)
