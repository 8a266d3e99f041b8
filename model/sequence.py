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

from model.blocking import Like, beside, clear_of, closure, like
from model.gathering import gathered
from model.meshes import Mesh
from model.piece import JointMade, Piece, Point
from model.stages import Leg, Move, Stage
from model.travel import Facing, facing, way_left

ANY = 1e12  # mm: any way that ends at all
LIFT = 0.5  # mm beyond a joint's own depth before a part may turn aside
A_LOOK = 200  # what comparing two meshes along a way costs, in look-ups of what is known
EFFORT = 1_200_000  # of those, before one gives up: some seven seconds
OPEN = ("notch over",)  # joints with open sides: which ways their parts part, the solids say
AXES6: tuple[Point, ...] = ((0, 0, 1), (0, 0, -1), (-1, 0, 0), (1, 0, 0), (0, -1, 0), (0, 1, 0))


@dataclass(frozen=True)
class _Removal:
    group: frozenset[str]
    path: tuple[Leg, ...]


class TooLarge(Exception):
    """The order takes more to find than one waits for."""


class Sequencer:
    """Finds the stages for one piece."""

    def __init__(self, piece: Piece) -> None:
        self.piece = piece
        self.order = {name: i for i, name in enumerate(piece.parts)}
        self.meshes: dict[str, Mesh] = {name: part.mesh for name, part in piece.parts.items()}
        self.kind = {name: part.kind for name, part in piece.parts.items()}
        self.like = {name: like(part) for name, part in piece.parts.items()}
        self.ways: dict[frozenset[str], list[JointMade]] = {}
        for joint in piece.joints:
            self.ways.setdefault(frozenset((joint.a, joint.b)), []).append(joint)
        self.assemblies = [frozenset(made.parts) for made in piece.assemblies]
        self.links = {*self.ways, *(frozenset((f.through, f.into)) for f in piece.fixings)}
        self.beside = beside(self.links)
        for whole in self.assemblies:  # it hangs together, with a loose bottom in its tray too
            *apart, most = sorted(self._clusters(whole), key=len)
            self.links |= {frozenset((min(most), min(cluster))) for cluster in apart}
            self.beside = beside(self.links)
        every = sorted(self._clusters(frozenset(piece.parts)), key=len)
        self.loose = every[:-1]  # all but the most of the piece stands, or lies, in it without joint or fixing
        self.effort = 0
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
        self.effort += 1
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
        if clear_of(self.meshes[mover].box, self.meshes[static].box, np.array(direction)):
            return float("inf")
        self.effort += A_LOOK
        if self.effort > EFFORT:
            raise TooLarge
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
        by_likes: dict[tuple[Like, ...], list[frozenset[str]]] = {}
        for group in groups:
            by_likes.setdefault(self._likes(group), []).append(group)
        made: list[Stage] = []
        for alike in by_likes.values():
            first, *others = [self._apart(group) for group in alike]
            same = [other for other in others if self._same_way(first, other)]
            made += [
                replace(stage, copies=(*stage.copies, *(c for o in same for c in o[n].every)))
                for n, stage in enumerate(first)
            ]
            made += [stage for other in others if other not in same for stage in other]
        return made

    def _likes(self, group: Iterable[str]) -> tuple[Like, ...]:
        """What the parts of a group are like: groups of like parts are put together alike, whatever they are called."""
        return tuple(sorted(self.like[name] for name in group))

    def _same_way(self, one: tuple[Stage, ...], other: tuple[Stage, ...]) -> bool:
        """Whether two groups go together in stages that are alike, one by one."""
        return len(one) == len(other) and all(
            [self._likes(move.parts) for move in a.moves] == [self._likes(move.parts) for move in b.moves]
            and self._likes(a.parts) == self._likes(b.parts)
            and a.times == b.times
            for a, b in zip(one, other, strict=True)
        )

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
        left = dict.fromkeys(self._sorted(group))
        found = []
        while left:
            cluster = closure(next(iter(left)), self.beside, group)
            found.append(cluster)
            for name in cluster:
                del left[name]
        return found

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
                together = closure(name, blockers)
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

        Of those, an assembly that was put together apart comes off first, or the rest is lifted off it where it is what
        the rest stands on: nothing is pulled out from under a piece.
        """
        crossing = sum(
            any(joint.glued for joint in joints)
            for pair, joints in self.ways.items()
            if pair <= group and len(pair & removal.group) == 1
        )
        rest = group - removal.group
        whole = self._joined(removal.group) and self._joined(rest)
        size = len(removal.group)
        parted = removal.group not in self.assemblies and rest not in self.assemblies
        pulled = self._stands(removal.group) and not self._stands(rest)
        upwards = removal.path[0].direction[2]
        # most of the piece lifted off the rest is the rest pulled out from below; what is made at the bench can be
        # turned over for it
        lifts_most = upwards > 0.99 and 2 * size > len(group) and rest not in self.assemblies
        down = self._stands(group) and (upwards < -0.99 or lifts_most)
        height = -max(float(self.meshes[name].box[1][2]) for name in removal.group)
        direction = self.directions.index(removal.path[0].direction)
        return (
            down,
            not whole,
            crossing,
            pulled,
            parted,
            size,
            round(height, 3),
            direction,
            self._sorted(removal.group),
        )

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


def assembly(piece: Piece) -> tuple[Stage, ...]:
    """The stages in which a piece is put together, first to last; kind by kind as written where that is too much."""
    try:
        return gathered(piece, Sequencer(piece).stages())
    except TooLarge:
        return as_written(piece)


def as_written(piece: Piece) -> tuple[Stage, ...]:
    """The declared order where none is worked out: each kind of part added to those before it in the file.

    Its moves have no path: that tells it from what was found.
    """
    kinds: dict[str, list[str]] = {}
    for name, part in piece.parts.items():
        kinds.setdefault(part.kind, []).append(name)
    first, *others = kinds.values()
    there = tuple(first if others else first[:1])
    stages = []
    for names in others or [first[1:]]:
        stages.append(Stage(there, tuple(Move((name,), ()) for name in names)))
        there = (*there, *names)
    return tuple(stages)
