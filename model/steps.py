"""The steps of the build in an order that works: prepare, cut, joint, shape, dry-fit, glue, fix, finish.

What comes before what is said by the rules of `works.py`, by the stages found from the solids and by the maker.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeVar

from model.once import once
from model.ordering import ordered
from model.piece import FixingMade, Item, JointMade, Piece
from model.stages import Stage
from model.templates import templates
from model.works import RULES, SET_UP, WORKS, Rule
from plans.own_steps import OwnStep

Thing = TypeVar("Thing")
ON_THE_FLOOR = 0.5  # mm


@dataclass(frozen=True)
class Step:
    """One step: its kind, the items worked on, and for an assembly step its stage and what is used."""

    kind: str
    items: tuple[Item, ...]
    stage: Stage | None = None
    stage_number: int | None = None
    added: tuple[str, ...] = ()  # parts that join the piece here, every copy of the stage counted
    joints: tuple[JointMade, ...] = ()
    fixings: tuple[FixingMade, ...] = ()
    last: bool = False  # the whole piece stands when it is done
    own: tuple[OwnStep, ...] = ()  # what the maker says of it
    joined: tuple[Step, ...] = ()  # work that is told in the same step

    @property
    def every(self) -> tuple[Step, ...]:
        """The step and what is told with it."""
        return (self, *self.joined)


@dataclass(frozen=True)
class Planned:
    """The steps; entries of the maker that found none, by number; and steps that lock each other by pins."""

    steps: tuple[Step, ...]
    not_found: tuple[int, ...] = ()
    locked: tuple[Step, ...] = ()


def steps(piece: Piece, stages: tuple[Stage, ...]) -> tuple[Step, ...]:
    """Every step; each part and each fixing is used in exactly one assembly step."""
    return planned(piece, stages).steps


@once
def plan_of(piece: Piece) -> Planned:
    """The steps of a piece as it goes together by itself."""
    return planned(piece, piece.stages)


def planned(piece: Piece, stages: tuple[Stage, ...]) -> Planned:
    """The steps with the hand of the maker in them; pins that cannot be kept are left out, and told."""
    found, not_found = _with_own(piece, _found(piece, stages))
    guests = _guests(found)
    rules, pins = _before(piece, found), _pinned(piece, found)
    set_ups = [SET_UP.get(step.kind, step.kind) for step in found]
    made = ordered(set_ups, _of_hosts([*rules, *pins], guests))
    locked = tuple(found[n] for n in made.locked)
    if locked:
        guests = {}
        made = ordered(set_ups, rules)
    return Planned(_joined(found, made.order, guests), not_found, locked)


def _guests(found: Sequence[Step]) -> dict[int, int]:
    """Steps that the maker tells with another, and with which; by number."""
    hosts = {step.kind: n for n, step in reversed(list(enumerate(found)))}
    named = {n: own.joined_to for n, step in enumerate(found) for own in step.own if own.joined_to}
    return {n: hosts[host] for n, host in named.items() if host in hosts and hosts[host] not in named}


def _of_hosts(pairs: Sequence[tuple[int, int]], guests: dict[int, int]) -> list[tuple[int, int]]:
    """Pairs of what comes first, a guest told as its host."""
    both = [(guests.get(a, a), guests.get(b, b)) for a, b in pairs]
    return [(a, b) for a, b in both if a != b]


def _joined(found: Sequence[Step], order: Sequence[int], guests: dict[int, int]) -> tuple[Step, ...]:
    """The steps in order; what is told together begins with what the shop does first."""
    made = []
    for n in order:
        if n not in guests:
            first, *others = [found[k] for k in sorted({n, *(g for g, host in guests.items() if host == n)})]
            made.append(replace(first, joined=tuple(others)))
    return tuple(made)


def _found(piece: Piece, stages: tuple[Stage, ...]) -> list[Step]:
    """What there is to do, in the order of the shop."""
    made = tuple(item for item in piece.items if not piece.parts[item.shown].spec.supplied)
    solid = tuple(item for item in made if piece.parts[item.shown].spec.wood)
    found = []
    for work in WORKS:
        items = tuple(item for item in made if works_of(piece, item) & set(work.operations))
        items = {"mill": solid, "size": made}.get(work.kind, items)
        if work.kind == "templates":
            marks = {mark for template in templates(piece) for mark in template.marks}
            items = tuple(item for item in made if item.mark in marks)
        if items:
            found.append(Step(work.kind, items))
    if piece.joints:
        found.append(Step("dry fit", piece.items))
    assembled = _assembly(piece, stages)
    if any(joint.glued for joint in piece.joints):
        found.append(Step("sand", piece.items))
    found += assembled
    if piece.design.spec.stands == "on the floor" and len(piece.parts) > 1 and _feet(piece) > 1:
        found.append(Step("level", ()))
    if piece.design.spec.finish is not None:
        found.append(Step("finish", piece.items))
    fitted = tuple(fixing for fixing in piece.fixings if fixing.last)
    if fitted:
        found.append(Step("fittings", (), fixings=fitted))
    if piece.design.spec.supplies:
        found.append(Step("supplies", ()))
    return found


def works_of(piece: Piece, item: Item) -> set[str]:
    """Names of the operations a part needs."""
    return {f.operation.name for f in piece.parts[item.shown].features if f.operation is not None}


def _feet(piece: Piece) -> int:
    return sum(float(part.mesh.box[0][2]) < ON_THE_FLOOR for part in piece.parts.values())


def _before(piece: Piece, found: Sequence[Step]) -> list[tuple[int, int]]:
    """Pairs of steps, by number, of which the first has to come first."""
    pairs = []
    for i, first in enumerate(found):
        for j, then in enumerate(found):
            if i != j and (any(_holds(piece, rule, first, then) for rule in RULES) or _goes_into(first, then)):
                pairs.append((i, j))
    return [*pairs, *_levelled(piece, found)]


def _holds(piece: Piece, rule: Rule, first: Step, then: Step) -> bool:
    if first.kind not in rule.first or then.kind not in rule.then:
        return False
    if rule.on == "same part":
        return bool({item.mark for item in first.items} & {item.mark for item in then.items})
    if rule.on == "met part":
        one, other = _names(first.items), _names(then.items)
        return any((j.a in one and j.b in other) or (j.b in one and j.a in other) for j in piece.joints)
    return True


def _names(items: Sequence[Item]) -> set[str]:
    return {name for item in items for name in (*item.parts, *item.mirrored)}


def _goes_into(first: Step, then: Step) -> bool:
    """Whether what the first stage puts together goes into the second."""
    if first.stage is None or then.stage is None:
        return False
    return any(set(a.parts) < set(b.parts) for a in first.stage.every for b in then.stage.every)


def _levelled(piece: Piece, found: Sequence[Step]) -> list[tuple[int, int]]:
    """The feet are levelled when all that is glued is dry, and before a top goes on that stands on nothing."""
    level = next((n for n, step in enumerate(found) if step.kind == "level"), None)
    if level is None:
        return []
    pairs = []
    for n, step in enumerate(found):
        if step.stage is None:
            continue
        moved = [name for move in step.stage.moves for name in move.parts]
        stands = any(float(piece.parts[name].mesh.box[0][2]) < ON_THE_FLOOR for name in moved)
        late = step.last and not stands and not any(joint.glued for joint in step.joints)
        pairs.append((level, n) if late else (n, level))
    return pairs


def _with_own(piece: Piece, found: list[Step]) -> tuple[list[Step], tuple[int, ...]]:
    """The steps with what the maker says of them, and those split off or added; and the entries that fit none."""
    missing = []
    for number, own in enumerate(piece.design.spec.steps):
        at = next((n for n, step in enumerate(found) if is_meant(piece, step, own.called, own.apart)), None)
        if own.new is not None:
            found.append(Step("own", (), own=(own,)))
        elif at is None:
            missing.append(number)
        elif own.apart:
            here = tuple(item for item in found[at].items if piece.parts[item.shown].kind in own.apart)
            rest = tuple(item for item in found[at].items if item not in here)
            whole = found[at]
            found[at] = replace(whole, items=here, own=(own,))
            if rest:
                found.insert(at + 1, replace(whole, items=rest))
        else:
            found[at] = replace(found[at], own=(*found[at].own, own))
    return found, tuple(missing)


def is_meant(piece: Piece, step: Step, called: str, apart: Sequence[str] = ()) -> bool:
    """Whether a step is the one called so: a work, a part that goes in, or the title of one of the maker's own."""
    if apart and not any(piece.parts[item.shown].kind in apart for item in step.items):
        return False
    if step.kind == "own":
        return step.own[0].new == called
    return step.kind == called or any(piece.parts[name].kind == called for name in step.added)


def _pinned(piece: Piece, found: Sequence[Step]) -> list[tuple[int, int]]:
    pairs = []
    for n, step in enumerate(found):
        for own in step.own:
            for k, other in enumerate(found):
                if k == n:
                    continue
                if any(is_meant(piece, other, called) for called in own.before):
                    pairs.append((n, k))
                if any(is_meant(piece, other, called) for called in own.after):
                    pairs.append((k, n))
    return pairs


def _assembly(piece: Piece, stages: tuple[Stage, ...]) -> list[Step]:
    by_name = {name: item for item in piece.items for name in (*item.parts, *item.mirrored)}
    placed: set[str] = set()
    closed: set[int] = set()
    driven: set[int] = set()
    found = []
    for number, stage in enumerate(stages):
        added = tuple(name for single in stage.every for name in single.parts if name not in placed)
        placed.update(added)
        joints: list[JointMade] = []
        fixings: list[FixingMade] = []
        for single in stage.every:
            here = set(single.parts)
            joints += _new(piece.joints, closed, partial(_joint_within, here))
            fixings += _new(piece.fixings, driven, partial(_driven_within, here))
        items = tuple(dict.fromkeys(by_name[name] for name in added))
        last = number == len(stages) - 1
        found.append(Step("stage", items, stage, number, added, tuple(joints), tuple(fixings), last))
    return found


def _joint_within(here: set[str], joint: JointMade) -> bool:
    return {joint.a, joint.b} <= here


def _driven_within(here: set[str], fixing: FixingMade) -> bool:
    return not fixing.last and {fixing.through, fixing.into} <= here


def _new(things: Sequence[Thing], used: set[int], fits: Callable[[Thing], bool]) -> list[Thing]:
    """The things not used yet that fit; they are used from now on."""
    chosen = [(i, thing) for i, thing in enumerate(things) if i not in used and fits(thing)]
    used.update(i for i, _ in chosen)
    return [thing for _, thing in chosen]
