"""The piece taken apart: whole, its sub-assemblies in one piece; and each sub-assembly by itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from model.piece import Piece
from model.sub_assemblies import SubAssembly, taken_apart
from publish.explode import exploded
from publish.pictures import Pictorial, pictorial

Link = tuple[str, str, tuple[float, float, float]]


@dataclass(frozen=True)
class Shown:
    """Something that gets a balloon: the mark of an item or the number of a sub-assembly, how many, and its parts."""

    mark: str
    count: int
    parts: tuple[str, ...]
    group: SubAssembly | None = None


@dataclass(frozen=True)
class ExplodedView:
    """A picture of parts moved out, and all that is seen in it; `group`: the sub-assembly, None for the piece."""

    group: SubAssembly | None
    picture: Pictorial
    shown: tuple[Shown, ...]


def exploded_views(piece: Piece, links: Sequence[Link]) -> tuple[ExplodedView, ...]:
    """The piece, then its sub-assemblies in the order of their numbers."""
    apart = taken_apart(piece)
    shifts = exploded(piece, apart.stages)
    whole = pictorial(piece, tuple(piece.parts), shifts, links=links)
    groups = [
        Shown(str(group.number), len(group.copies), tuple(name for copy in group.copies for name in copy), group)
        for group in apart.groups
    ]
    views = [ExplodedView(None, whole, (*_items(piece, apart.loose), *groups))]
    for group in apart.groups:
        own = exploded(piece, group.stages)
        picture = pictorial(piece, group.parts, own, links=[link for link in links if {*link[:2]} <= {*group.parts}])
        views.append(ExplodedView(group, picture, _items(piece, group.parts)))
    return tuple(views)


def _items(piece: Piece, names: Iterable[str]) -> tuple[Shown, ...]:
    """Of every mark among some parts, how many and which."""
    here = set(names)
    found = []
    for item in piece.items:
        parts = tuple(name for name in (*item.parts, *item.mirrored) if name in here)
        if parts:
            found.append(Shown(item.mark, len(parts), parts))
    return tuple(found)
