"""The order in which parts can be built: each after those it is placed by, follows or is cut to.

An assembly that is set, repeated or mirrored is a step of its own, after its parts; what is placed by one of its
parts from outside comes after that.
"""

from collections.abc import Mapping
from itertools import pairwise

from plans.fields import Position
from plans.placing import Assembly, Node, Repeat, SetBy
from plans.sides import SIDES
from plans.source import KeyPath
from plans.spec import DesignSpec, PartSpec

Needs = dict[str, tuple[str, ...]]


def needed_by(part: PartSpec) -> Needs:
    """The parts that `part` must be built after, and the keys of it that speak of them first."""
    found = _of_where(part.where)
    _take(found, part.where.measured_at, "where", "measured at")
    if part.follows is not None:
        found.setdefault(part.follows, ("follows",))
    for side, target in part.cut_to.items():
        _take(found, target.level, "cut to", side)
        if target.part is not None:
            found.setdefault(target.part, ("cut to", side))
    _of_repeat(found, part.repeat)
    return found


def needed_by_assembly(made: Assembly) -> Needs:
    """The parts outside that an assembly is set by, and the keys of it that speak of them first."""
    found = {} if made.where is None else _of_where(made.where)
    _of_repeat(found, made.repeat)
    return found


def _take(found: Needs, position: Position | None, *keys: str) -> None:
    for term in position.terms if position else ():
        found.setdefault(term.part, keys)


def _of_where(where: SetBy) -> Needs:
    found: Needs = {}
    for side in SIDES:
        _take(found, getattr(where, side), "where", side)
    for axis, on in where.centred.items():
        if on is not None:
            found.setdefault(on, ("where", "centred", axis))
    return found


def _of_repeat(found: Needs, repeat: Repeat | None) -> None:
    for side, position in (repeat.between or {}).items() if repeat else ():
        _take(found, position, "repeat", "between", side)


def assembly_of(assemblies: Mapping[str, Assembly], part: str) -> str | None:
    """The assembly that a part belongs to; the first one, where a wrong design names it in two."""
    return next((name for name, made in assemblies.items() if part in made.parts), None)


def build_order(spec: DesignSpec) -> list[Node]:
    """The parts and assemblies, each after those it needs, else as written. A read design has no loops."""
    order, loop = sort_nodes(spec.parts, spec.assemblies)
    assert loop is None, f"parts in a loop: {loop}"
    return order


def sort_nodes(
    parts: Mapping[str, PartSpec], assemblies: Mapping[str, Assembly]
) -> tuple[list[Node], list[Node] | None]:
    """An order of building, and the first ring of things that need each other (None when there is none)."""
    needs = _needs(parts, assemblies)
    order: dict[Node, None] = {}
    while len(order) < len(needs):
        before = len(order)
        for node in needs:
            if node not in order and all(other in order for other in needs[node]):
                order[node] = None
        if len(order) == before:
            return list(order), _ring(needs, order)
    return list(order), None


def _needs(parts: Mapping[str, PartSpec], assemblies: Mapping[str, Assembly]) -> dict[Node, list[Node]]:
    needs: dict[Node, list[Node]] = {}
    for name, part in parts.items():
        own = assembly_of(assemblies, name)
        others = [other for other in needed_by(part) if other in parts and other != name]
        needs["parts", name] = [node for other in others for node in _as_placed(other, own, assemblies)]
        if own is not None and (lead := assemblies[own].lead) not in (name, *others) and lead in parts:
            needs["parts", name] += [("parts", lead)] if _in_its_middle(part) else []
    for name, made in assemblies.items():
        if made.moved:
            outside = [other for other in needed_by_assembly(made) if other in parts and other not in made.parts]
            inside: list[Node] = [("parts", part) for part in made.parts if part in parts]
            needs["assemblies", name] = inside + [n for o in outside for n in _as_placed(o, name, assemblies)]
    return needs


def _as_placed(part: str, own: str | None, assemblies: Mapping[str, Assembly]) -> list[Node]:
    """What has to be done before `part` stands where others, of the assembly `own` or of none, may measure from it."""
    other = assembly_of(assemblies, part)
    if other is None or other == own or not assemblies[other].moved:
        return [("parts", part)]
    return [("parts", part), ("assemblies", other)]


def _in_its_middle(part: PartSpec) -> bool:
    """Whether the middle of what a part belongs to says where it, or its mirror image, stands."""
    return bool(part.mirror) or None in part.where.centred.values()


def _ring(needs: dict[Node, list[Node]], built: dict[Node, None]) -> list[Node]:
    """A ring among the things that cannot be built, e.g. parts a, b, a; it begins with a part that names the next."""
    walk = [next(node for node in needs if node not in built)]
    while True:
        following = next(node for node in needs[walk[-1]] if node not in built)
        if following in walk:
            return [*walk[walk.index(following) :], following]
        walk.append(following)


def named_at(spec_parts: Mapping[str, PartSpec], assemblies: Mapping[str, Assembly], ring: list[Node]) -> KeyPath:
    """Where in the file the first of a ring of needs is written that a key speaks of."""
    for node, following in pairwise(ring):
        section, name = node
        needs = needed_by(spec_parts[name]) if section == "parts" else needed_by_assembly(assemblies[name])
        named = [following[1]] if following[0] == "parts" else list(assemblies[following[1]].parts)
        for other in named:
            if other in needs:
                return (section, name, *needs[other])
    return ring[0]
