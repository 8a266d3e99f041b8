"""The order in which parts can be built: each after those it is placed by, follows or is cut to."""

from collections.abc import Mapping

from plans.fields import Position
from plans.sides import SIDES
from plans.spec import DesignSpec, PartSpec


def needed_by(part: PartSpec) -> dict[str, tuple[str, ...]]:
    """The parts that `part` must be built after, and the keys of it that speak of them first."""
    found: dict[str, tuple[str, ...]] = {}

    def take(position: Position | None, *keys: str) -> None:
        for term in position.terms if position else ():
            found.setdefault(term.part, keys)

    for side in SIDES:
        take(getattr(part.where, side), "where", side)
    take(part.where.measured_at, "where", "measured at")
    for axis, on in part.where.centred.items():
        if on is not None:
            found.setdefault(on, ("where", "centred", axis))
    if part.follows is not None:
        found.setdefault(part.follows, ("follows",))
    for side, target in part.cut_to.items():
        take(target.level, "cut to", side)
        if target.part is not None:
            found.setdefault(target.part, ("cut to", side))
    return found


def build_order(spec: DesignSpec) -> list[str]:
    """The names of the parts, each after those it needs, else as written. A read design has no loops."""
    order, loop = sort_parts(spec.parts)
    assert loop is None, f"parts in a loop: {loop}"
    return order


def sort_parts(parts: Mapping[str, PartSpec]) -> tuple[list[str], list[str] | None]:
    """An order of building, and the first ring of parts that need each other (None when there is none)."""
    needs = {
        name: [other for other in needed_by(part) if other in parts and other != name] for name, part in parts.items()
    }
    order: dict[str, None] = {}
    while len(order) < len(parts):
        before = len(order)
        for name in parts:
            if name not in order and all(other in order for other in needs[name]):
                order[name] = None
        if len(order) == before:
            return list(order), _ring(needs, order)
    return list(order), None


def _ring(needs: dict[str, list[str]], built: dict[str, None]) -> list[str]:
    """A ring among the parts that cannot be built, e.g. [a, b, a]."""
    walk = [next(name for name in needs if name not in built)]
    while True:
        following = next(name for name in needs[walk[-1]] if name not in built)
        if following in walk:
            return [*walk[walk.index(following) :], following]
        walk.append(following)
