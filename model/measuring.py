"""What the model has where the maker measured: sizes of parts, distances between sides, sizes over all. All mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from model.piece import Part, Piece
from model.reach import reach
from plans.fields import Position, SizeOfPart, Term
from plans.measured import Measured, Overall
from plans.sides import SIDE_AXIS, SIDE_SIGN, Axis
from plans.suggest import did_you_mean, listed

if TYPE_CHECKING:
    import cadquery as cq

SAME = 1e-4  # mm
AT_THE_END = 12.0  # mm past the end of a part: a height that near is taken for its end
INSIDE = 0.01  # mm
OVER_ALL = ("length", "width", "thickness")
NUMBER: dict[Overall, int] = {"width": 0, "depth": 1, "height": 2}


@dataclass(frozen=True)
class Absent:
    """Why there is nothing to be measured at a place, and what to do."""

    message: str
    hint: str


def measure(piece: Piece, entry: Measured) -> float | Absent:
    """What the piece has there; a distance with its sign: from the first place to the second."""
    if entry.overall is not None:
        return piece.size[NUMBER[entry.overall]]
    if entry.size is not None:
        return _size(piece, entry, entry.size)
    assert entry.between is not None and entry.axis is not None
    return _between(piece, entry, entry.between, entry.axis)


def by_fixings(piece: Piece, entry: Measured) -> bool:
    """Whether it is a size that a fixing makes: the place of a screw hole."""
    if entry.size is None:
        return False
    found = _sizes(piece, entry, entry.size, _first(piece, entry.size.part))
    return any(one.family == "fixing" for one in found)


def _first(piece: Piece, kind: str) -> Part:
    return next(part for part in piece.parts.values() if part.kind == kind)


def _size(piece: Piece, entry: Measured, size: SizeOfPart) -> float | Absent:
    part = _first(piece, size.part)
    if size.name in OVER_ALL:
        return part.over_all[OVER_ALL.index(size.name)]
    found = list(_sizes(piece, entry, size, part))
    if not found:
        names = dict.fromkeys((*OVER_ALL, *(s.name for f in part.features for s in f.sizes if s.role != "overall")))
        hint = did_you_mean(size.name, names) or f"there are {listed(names)}"
        with_that = f" with the {entry.meets}" if entry.meets else ""
        return Absent(f"a {size.part} has no '{size.name}'{with_that}", hint)
    if max(one.value for one in found) - min(one.value for one in found) > SAME:
        return Absent(f"a {size.part} has several sizes called '{size.name}'", _which(found))
    return found[0].value


def _which(found: Sequence[_Found]) -> str:
    """How to say which of several sizes is meant."""
    told = {"meets": {one.meets for one in found if one.meets}, "along": {str(one.along) for one in found}}
    choices = [f"`{key}: {listed(sorted(some))}`" for key, some in told.items() if len(some) > 1]
    return f"say {' and '.join(choices)}" if choices else "measure it `between` two sides instead"


@dataclass(frozen=True)
class _Found:
    """A size of a part: what kind of work made it, the kind of part it meets there, its direction and its length."""

    family: str
    meets: str | None
    along: Axis
    value: float


def _sizes(piece: Piece, entry: Measured, size: SizeOfPart, part: Part) -> Iterator[_Found]:
    """The sizes of that name on a part."""
    for feature in part.features:
        other = piece.parts[feature.other].kind if feature.other in piece.parts else None
        for one in feature.sizes:
            if one.name == size.name and entry.meets in (None, other) and entry.along in (None, one.along):
                yield _Found(feature.family, other, one.along, one.value)


def _between(piece: Piece, entry: Measured, places: tuple[Position, ...], axis: Axis) -> float | Absent:
    level = entry.measured_at
    for term in (term for place in places for term in place.terms if level is not None):
        low, high = reach(_solid(_first(piece, term.part)), "up-down", None)
        if level is not None and not low - AT_THE_END <= level <= high + AT_THE_END:
            return Absent(f"the {term.part} has nothing at that height", "measure it lower or higher")
    first, second = (_place(piece, place, level) for place in places)
    return second - first


def _place(piece: Piece, position: Position, level: float | None) -> float:
    return position.offset + sum(term.factor * _side(piece, term, level) for term in position.terms)


def _side(piece: Piece, term: Term, level: float | None) -> float:
    """Where a side is, as the design speaks of it: of the first of its kind, or the outermost; without its joints."""
    parts = [part for part in piece.parts.values() if part.kind == term.part]
    chosen = [_solid(part) for part in (parts if term.every else parts[:1])]
    reaches = [reach(solid, SIDE_AXIS[term.side], _within(solid, level)) for solid in chosen]
    return min(low for low, _ in reaches) if SIDE_SIGN[term.side] < 0 else max(high for _, high in reaches)


def _within(solid: cq.Shape, level: float | None) -> float | None:
    """A height as near as the solid comes to it: just inside its end, where it is at the end."""
    if level is None:
        return None
    low, high = reach(solid, "up-down", None)
    return min(max(level, low + INSIDE), high - INSIDE)


def _solid(part: Part) -> cq.Shape:
    return (part.unjoined or part.sharp).moved(part.at)
