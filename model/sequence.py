"""How the piece comes apart, and so how it goes together.

Directional blocking graphs (Wilson & Latombe 1994): for every direction, which part stops which.
A part and all that would have to move with it form a group; a group that is not everything comes off.
Taken apart again and again, the piece gives a tree of steps; read backwards it is the assembly.
A joint says the one way in which its parts part; free space never overrules that, but for a notch, which is open.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from model.meshes import Floats, Mesh
from model.piece import JointMade, Piece, Point
from model.travel import Facing, facing, way_left

ANY = 1e12  # mm: any way that ends at all
LIFT = 0.5  # mm beyond a joint's own depth before a part may turn aside
OPEN = ("notch over",)  # joints with open sides: which ways their parts part, the solids say
AXES6: tuple[Point, ...] = ((0, 0, 1), (0, 0, -1), (-1, 0, 0), (1, 0, 0), (0, -1, 0), (0, 1, 0))


@dataclass(frozen=True)
class Leg:
    """One straight stretch of a path, outwards: a direction and how far (inf: clear away)."""

    direction: Point
    distance: float


@dataclass(frozen=True)
class Move:
    """Parts that go in together; `path` is how they come out, so they go in along it backwards."""

    parts: tuple[str, ...]
    path: tuple[Leg, ...]


@dataclass(frozen=True)
class Stage:
    """One step of assembly: `moves` are added to `base`. A stage without moves puts loose parts together at once."""

    base: tuple[str, ...]
    moves: tuple[Move, ...]
    copies: tuple[Stage, ...] = ()  # the same stage for the other groups that are made alike

    @property
    def times(self) -> int:
        """How many alike are made."""
        return 1 + len(self.copies)

    @property
    def every(self) -> tuple[Stage, ...]:
        """The stage and its copies."""
        return (self, *self.copies)

    @property
    def parts(self) -> tuple[str, ...]:
        """Every part that is there when the stage is done."""
        return (*self.base, *(name for move in self.moves for name in move.parts))


@dataclass(frozen=True)
class _Removal:
    group: frozenset[str]
    path: tuple[Leg, ...]


class Sequencer:
    """Finds the stages for one piece."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.order = {name: i for i, name in enumerate(piece.parts)}
        self.meshes: dict[str, Mesh] = {name: part.mesh for name, part in piece.parts.items()}
        self.kind = {name: part.kind for name, part in piece.parts.items()}
        self.ways: dict[frozenset[str], list[JointMade]] = {}
        for joint in piece.joints:
            self.ways.setdefault(frozenset((joint.a, joint.b)), []).append(joint)
        self.assemblies = [frozenset(made.parts) for made in piece.assemblies]
        self.links = {*self.ways, *(frozenset((f.through, f.into)) for f in piece.fixings)}
        for whole in self.assemblies:  # it hangs together, with a loose bottom in its tray too
            *apart, most = sorted(self._clusters(whole), key=len)
            self.links |= {frozenset((min(most), min(cluster))) for cluster in apart}
        every = sorted(self._clusters(frozenset(piece.parts)), key=len)
        self.loose = every[:-1]  # all but the most of the piece stands, or lies, in it without joint or fixing
        self._travel: dict[tuple[str, str, Point], float] = {}
        self._stops: dict[tuple[str, str, Point], float] = {}
        self._facing: dict[tuple[str, Point, int], Facing] = {}

    @cached_property
    def directions(self) -> tuple[Point, ...]:
        """The six main directions, and the joints' own where they lie between."""
        found = list(AXES6)
        for joint in self.piece.joints:
            for sign in (1, -1):
                way = np.array(joint.direction) * sign
                if all(float(way @ np.array(d)) < 0.9999 for d in found):
                    found.append((float(way[0]), float(way[1]), float(way[2])))
        return tuple(found)

    def travel(self, mover: str, static: str, direction: Point) -> float:
        """How far one part can go past another (mm; inf: clear away)."""
        return self._kept(self._travel, mover, static, direction, 0.0)

    def stops(self, mover: str, static: str, direction: Point) -> bool:
        """Whether one part stands in the way of another at all, which is found sooner than how far off."""
        return self._kept(self._stops, mover, static, direction, ANY) != np.inf

    def _kept(
        self, known: dict[tuple[str, str, Point], float], mover: str, static: str, direction: Point, enough: float
    ) -> float:
        key = (mover, static, direction)
        if key not in known:
            distance = self._measured(mover, static, direction, enough)
            back = (-direction[0], -direction[1], -direction[2])
            known[key] = known[static, mover, back] = distance
        return known[key]

    def _measured(self, mover: str, static: str, direction: Point, enough: float) -> float:
        for joint in self.ways.get(frozenset((mover, static)), ()):
            out = -np.array(joint.direction) if mover == joint.a else np.array(joint.direction)
            if joint.kind not in OPEN and float(out @ np.array(direction)) < 0.99:
                return 0.0
        if _clear_of(self.meshes[mover].box, self.meshes[static].box, np.array(direction)):
            return float("inf")
        return way_left(self._turned(mover, direction, 1), self._turned(static, direction, -1), enough)

    def _turned(self, name: str, direction: Point, sign: int) -> Facing:
        key = (name, direction, sign)
        if key not in self._facing:
            self._facing[key] = facing(self.meshes[name], direction, sign)
        return self._facing[key]

    def stages(self) -> tuple[Stage, ...]:
        """All stages of the assembly in a buildable order."""
        return self._apart(frozenset(self.piece.parts))

    def _apart(self, group: frozenset[str]) -> tuple[Stage, ...]:
        if len(group) == 1:
            return ()
        removals = self._removals(group)
        if not removals:
            return (Stage((), tuple(Move((name,), ()) for name in self._sorted(group))),)
        chosen = self._alike(min(removals, key=lambda r: self._rank(r, group)), removals, group)
        rest = group.difference(*(removal.group for removal in chosen))
        inner = self._made(self._bases(rest)) + self._made([removal.group for removal in chosen])
        moves = tuple(Move(self._sorted(removal.group), removal.path) for removal in chosen)
        return (*inner, Stage(self._sorted(rest), moves))

    def _made(self, groups: list[frozenset[str]]) -> list[Stage]:
        """Stages that make the groups; groups of the same kinds are made alike, in one go."""
        by_kinds: dict[tuple[str, ...], list[frozenset[str]]] = {}
        for group in groups:
            by_kinds.setdefault(tuple(sorted(self.kind[n] for n in group)), []).append(group)
        made: list[Stage] = []
        for alike in by_kinds.values():
            first, *others = [self._apart(group) for group in alike]
            made += [
                replace(stage, copies=(*stage.copies, *(c for o in others if len(o) == len(first) for c in o[n].every)))
                for n, stage in enumerate(first)
            ]
            made += [stage for other in others if len(other) != len(first) for stage in other]
        return made

    def _sorted(self, names: Iterable[str]) -> tuple[str, ...]:
        return tuple(sorted(names, key=lambda name: self.order[name]))

    def _bases(self, rest: frozenset[str]) -> list[frozenset[str]]:
        """What has to be made before a removal goes back in: what hangs together, and what stands loose in it."""
        clusters = self._clusters(rest)
        loose = [cluster for cluster in clusters if cluster in self.loose]
        return [rest] if loose and len(loose) < len(clusters) else clusters

    def _joined(self, group: frozenset[str]) -> bool:
        """Whether the parts hang together by joints and fixings; what stands loose in the rest is left aside."""
        clusters = self._clusters(group)
        return len(clusters) == 1 or sum(cluster not in self.loose for cluster in clusters) == 1

    def _clusters(self, group: frozenset[str]) -> list[frozenset[str]]:
        """The parts of a group, those that hang together by joints and fixings in one cluster."""
        graph = {name: {o for pair in self.links if name in pair for o in pair if o in group} for name in group}
        return list(dict.fromkeys(_closure(name, graph) for name in self._sorted(group)))

    def _removals(self, group: frozenset[str]) -> list[_Removal]:
        """What comes off a group; an assembly comes off as one, wherever the solids allow it."""
        wholes = [made for made in self.assemblies if made < group]
        return self._off(group, wholes) or (self._off(group, []) if wholes else [])

    def _off(self, group: frozenset[str], wholes: list[frozenset[str]]) -> list[_Removal]:
        """What comes off a group, those of `wholes` unbroken."""
        kept = {name: whole - {name} for whole in wholes for name in whole}
        found: dict[tuple[frozenset[str], Point], _Removal] = {}
        for direction in self.directions:
            blockers = {
                mover: {s for s in group if s != mover and self.stops(mover, s, direction)}
                | kept.get(mover, frozenset())
                for mover in group
            }
            for name in self._sorted(group):
                together = _closure(name, blockers)
                if together != group:
                    path = (Leg(direction, float("inf")),)
                    found.setdefault((together, direction), _Removal(together, path))
        single = {next(iter(r.group)) for r in found.values() if len(r.group) == 1}
        lifted = [self._lifted(name, group) for name in self._sorted(group) if name not in single and name not in kept]
        return list(found.values()) + [removal for removal in lifted if removal is not None]

    def _lifted(self, name: str, group: frozenset[str]) -> _Removal | None:
        """A part that comes out of its joints one way, then leaves another."""
        joints = [joint for pair, some in self.ways.items() if name in pair and pair <= group for joint in some]
        if not joints:
            return None
        outs = {tuple(float(-c) if name == joint.a else float(c) for c in joint.direction) for joint in joints}
        if len(outs) != 1:
            return None
        out: Point = next(iter(outs))  # type: ignore[assignment]
        height = max(joint.travel for joint in joints) + LIFT
        if any(self.travel(name, other, out) < height for other in group if other != name):
            return None
        raised = np.eye(4)
        raised[:3, 3] = np.array(out) * height
        mesh = self.meshes[name].moved(raised)
        for direction in self.directions:
            if float(np.array(direction) @ np.array(out)) < -0.99:
                continue  # back the way it came
            front = facing(mesh, direction, 1)
            if all(way_left(front, self._turned(o, direction, -1), ANY) == np.inf for o in group if o != name):
                return _Removal(frozenset((name,)), (Leg(out, height), Leg(direction, float("inf"))))
        return None

    def _rank(self, removal: _Removal, group: frozenset[str]) -> tuple[object, ...]:
        """Loose parts come off before glued ones, upwards or sideways; then what closes the fewest joints at once.

        Of those, an assembly that was put together apart comes off first.
        """
        crossing = sum(
            any(joint.glued for joint in joints)
            for pair, joints in self.ways.items()
            if pair <= group and len(pair & removal.group) == 1
        )
        whole = self._joined(removal.group) and self._joined(group - removal.group)
        size = len(removal.group)
        parted = removal.group not in self.assemblies
        upwards = removal.path[0].direction[2]
        # most of the piece lifted off the rest is the rest pulled out from below; what is made at the bench can be
        # turned over for it
        down = self._stands(group) and (upwards < -0.99 or (upwards > 0.99 and 2 * size > len(group)))
        height = -max(float(self.meshes[name].box[1][2]) for name in removal.group)
        direction = self.directions.index(removal.path[0].direction)
        return (down, not whole, crossing, parted, size, round(height, 3), direction, self._sorted(removal.group))

    def _stands(self, group: frozenset[str]) -> bool:
        """Whether a group reaches down to what the piece stands on."""
        low = min(float(self.meshes[name].box[0][2]) for name in group)
        return low < min(float(mesh.box[0][2]) for mesh in self.meshes.values()) + LIFT

    def _alike(self, first: _Removal, removals: list[_Removal], group: frozenset[str]) -> list[_Removal]:
        """The chosen removal and every other one of the same kinds that can go in the same step."""
        kinds = Counter(self.kind[name] for name in first.group)
        chosen = [first]
        taken = set(first.group)
        ranked = sorted(removals, key=lambda r: self._rank(r, group))
        for other in ranked:
            if taken & other.group or Counter(self.kind[name] for name in other.group) != kinds:
                continue
            if len(taken) + len(other.group) >= len(group):
                continue
            chosen.append(other)
            taken |= other.group
        return sorted(chosen, key=lambda r: min(self.order[name] for name in r.group))


def _clear_of(mover: Floats, static: Floats, direction: Floats) -> bool:
    """Whether two boxes (2 x 3) cannot meet when one moves along a main direction: quick, and never wrong."""
    axis = int(np.argmax(np.abs(direction)))
    if abs(direction[axis]) < 1 - 1e-9:
        return False
    beside = np.delete(np.maximum(mover[0] - static[1], static[0] - mover[1]), axis)
    past = mover[0][axis] >= static[1][axis] if direction[axis] > 0 else mover[1][axis] <= static[0][axis]
    return bool(past or beside.max() >= 0)


def _closure(name: str, blockers: dict[str, set[str]]) -> frozenset[str]:
    """A part and everything that has to move with it."""
    todo, seen = [name], set()
    while todo:
        current = todo.pop()
        if current not in seen:
            seen.add(current)
            todo += blockers[current]
    return frozenset(seen)


def assembly(piece: Piece) -> tuple[Stage, ...]:
    """The stages in which a piece is put together, first to last."""
    return Sequencer(piece).stages()
