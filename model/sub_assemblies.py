"""Groups of parts that are put together by themselves and go into the rest as one, by the order of assembly."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from model.piece import Piece
from model.stages import Stage

MANY = 20  # parts from which on a piece taken apart all at once is too crowded to read
LEAST = 3  # parts of a group worth a view of its own


@dataclass(frozen=True)
class SubAssembly:
    """A group that goes in as one; `copies` are all groups of the same marks, this one first.

    `stages`: those that put this one together, first to last.
    """

    number: int  # from 1, in the order in which they are put together
    parts: tuple[str, ...]
    copies: tuple[tuple[str, ...], ...]
    stages: tuple[Stage, ...]


@dataclass(frozen=True)
class TakenApart:
    """How a piece is shown apart: its sub-assemblies, the parts that go in one by one, and the stages of the rest."""

    groups: tuple[SubAssembly, ...]
    loose: tuple[str, ...]
    stages: tuple[Stage, ...]


def taken_apart(piece: Piece) -> TakenApart:
    """The sub-assemblies of a piece of many parts, or of one whose design names some; else all its parts are loose."""
    singles = [single for stage in piece.stages for single in stage.every]
    wanted = len(piece.parts) > MANY or any(len(made.parts) >= LEAST for made in piece.assemblies)
    found = [group for group in _groups(singles, set(piece.parts)) if len(group) >= LEAST] if wanted else []
    grouped = {name for group in found for name in group}
    rest = tuple(single for single in singles if not any(set(single.parts) <= group for group in found))
    loose = tuple(name for name in piece.parts if name not in grouped)
    return TakenApart(_numbered(piece, found, singles), loose, rest)


def _groups(singles: list[Stage], whole: set[str]) -> list[set[str]]:
    """What goes into the whole as one, and the parts of what is made before: down its stem, one stage after another."""
    last = next((single for single in reversed(singles) if set(single.parts) == whole), None)
    if last is None:
        return _made_within(singles, whole)
    moved = [set(move.parts) for move in last.moves if len(move.parts) > 1]
    base = set(last.base)
    return moved + (_groups(singles, base) if 1 < len(base) < len(whole) else [])


def _made_within(singles: list[Stage], base: set[str]) -> list[set[str]]:
    """The largest groups that stages make of a heap of parts."""
    made = [set(single.parts) for single in singles if set(single.parts) <= base]
    return [group for n, group in enumerate(made) if not any(group < other for other in made) and group not in made[:n]]


def _numbered(piece: Piece, found: list[set[str]], singles: list[Stage]) -> tuple[SubAssembly, ...]:
    """Groups of the same marks as one, in the order in which the stages finish them."""
    marks = {name: item.mark for item in piece.items for name in (*item.parts, *item.mirrored)}
    finished = {frozenset(single.parts): n for n, single in enumerate(singles)}
    alike: dict[tuple[tuple[str, int], ...], list[set[str]]] = {}
    for group in sorted(found, key=lambda group: finished.get(frozenset(group), len(singles))):
        alike.setdefault(tuple(sorted(Counter(marks[name] for name in group).items())), []).append(group)
    made = []
    for number, groups in enumerate(alike.values(), start=1):
        copies = tuple(tuple(name for name in piece.parts if name in group) for group in groups)
        own = tuple(single for single in singles if set(single.parts) <= groups[0])
        made.append(SubAssembly(number, copies[0], copies, own))
    return tuple(made)
