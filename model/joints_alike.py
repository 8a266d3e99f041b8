"""Joints that are made alike: of one kind and with the same sizes, wherever in the piece they are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model.piece import Feature, JointMade, Piece, Value

NEAR = 0.01  # mm or degrees: sizes that differ by less are one
SLIGHT = 0.25  # degrees: less is not worth a word on a drawing, so it makes no joint another
UNCUT = {"glued face"}  # nothing is cut for it, so there is nothing to draw
TOLD = {"slope", "size"}  # words among the values that say how large something is; the others say where it is
ANGLES = {"off square", "turned", "walls", "floor"}
_Sizes = tuple[tuple[str, str, tuple[tuple[str, Value], ...]], ...]


@dataclass(frozen=True)
class AlikeJoints:
    """Joints made alike, as they come in the design; the first one stands for all where one is shown."""

    joints: tuple[JointMade, ...]
    pairs: tuple[tuple[str, str], ...]  # marks: what goes in, and into what; each pair once
    into: tuple[Feature, ...]  # what is cut into the one that takes the other
    of: tuple[Feature, ...]  # what is cut on the one that goes in

    @property
    def shown(self) -> JointMade:
        """The joint that is drawn: the first of which both halves are told."""
        return self.joints[0]


def joints_alike(piece: Piece) -> tuple[AlikeJoints, ...]:
    """Every distinct joint of the piece for which something is cut, in the order of the design."""
    found: dict[tuple[str, bool, _Sizes], list[tuple[JointMade, _Sizes]]] = {}
    untold: list[JointMade] = []
    for joint in piece.joints:
        of, into = features_of(piece, joint)
        if of or into:
            if {feature.kind for feature in (*of, *into)} - UNCUT:
                found.setdefault((joint.kind, joint.glued, _sizes(into)), []).append((joint, _sizes(of)))
        elif joint.kind not in UNCUT:
            untold.append(joint)
    groups = [some for same in found.values() for some in _told_apart(same)]
    for joint in untold:
        _told_with(joint, groups).append(joint)
    return tuple(_together(piece, some) for some in groups)


def _told_with(joint: JointMade, groups: list[list[JointMade]]) -> list[JointMade]:
    """The group of the joint whose cut serves this one too: one groove takes two panels side by side."""

    def near(some: list[JointMade]) -> tuple[bool, bool]:
        same = [other for other in some if other.number == joint.number]
        return any(other.b == joint.b for other in same), bool(same)

    best = max(groups, key=near, default=None)
    if best is None or not near(best)[1]:
        groups.append(best := [])
    return best


def features_of(piece: Piece, joint: JointMade) -> tuple[tuple[Feature, ...], tuple[Feature, ...]]:
    """What a joint made on the part that goes in, and on the one that takes it."""
    return _features(piece, joint.a, joint.b), _features(piece, joint.b, joint.a)


def _features(piece: Piece, own: str, other: str) -> tuple[Feature, ...]:
    return tuple(f for f in piece.parts[own].features if f.other == other and f.family == "joint")


def _told_apart(same: list[tuple[JointMade, _Sizes]]) -> list[list[JointMade]]:
    """By the half that goes in too; a panel tells its edge once for all its grooves, so nothing told fits any."""
    groups: dict[_Sizes, list[JointMade]] = {}
    for joint, sizes in sorted(same, key=lambda pair: not pair[1]):
        groups.setdefault(sizes if sizes or not groups else next(iter(groups)), []).append(joint)
    return list(groups.values())


def _together(piece: Piece, joints: list[JointMade]) -> AlikeJoints:
    marks = {name: item.mark for item in piece.items for name in (*item.parts, *item.mirrored)}
    pairs = dict.fromkeys((marks[joint.a], marks[joint.b]) for joint in joints)
    of, into = features_of(piece, joints[0])
    return AlikeJoints(tuple(joints), tuple(pairs), into, of)


def _sizes(features: Iterable[Feature]) -> _Sizes:
    """What is cut, by kind and by every value that says how large it is; where it lies does not count."""
    told = [
        (feature.kind, callout.what, tuple(sorted(_told(callout.values).items(), key=lambda item: item[0])))
        for feature in features
        for callout in feature.callouts
    ]
    return tuple(sorted(told, key=str))


def _told(values: dict[str, Value]) -> dict[str, Value]:
    channel = {"long", "wide", "deep"} <= set(values)  # it runs as far as its part does
    return {
        name: _rounded(name, value)
        for name, value in values.items()
        if not (channel and name == "long") and (not isinstance(value, str) or name in TOLD)
    }


def _rounded(name: str, value: Value) -> Value:
    if not isinstance(value, float):
        return value
    if name in ANGLES and value < SLIGHT:
        return 0.0
    return round(value / (0.1 if name in ANGLES else NEAR))
