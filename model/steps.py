"""The steps of the build in an order that works: prepare, cut, joint, shape, dry-fit, glue, fix, finish.

True faces are kept until the last joint that needs them: mortises and tenons come before tapers and bevels.
A mortise is cut before the tenon that is fitted to it. Assembly follows the stages found from the solids.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from model.piece import FixingMade, Item, JointMade, Piece
from model.sequence import Stage

Thing = TypeVar("Thing")

# work on single parts, in the order of the shop; each is one step for all parts that need it
WORK: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("ends", ("sloped end",)),
    ("spline slots", ("spline slot",)),
    ("mortises", ("mortise",)),
    ("end grooves", ("end groove",)),
    ("tenons", ("tenon", "tongue", "saw cut")),
    ("bridles", ("bridle slot", "bridle cheek")),
    ("halvings", ("halving",)),
    ("notches", ("notch",)),
    ("grooves", ("housing", "groove")),
    ("rabbets", ("rabbet",)),
    ("tongues", ("edge tongue", "housed tongue", "housed end", "panel edge")),
    ("sliding dovetails", ("dovetail housing", "dovetail tongue")),
    ("dovetails", ("tails", "pins")),
    ("box joints", ("fingers",)),
    ("biscuit slots", ("biscuit slot",)),
    ("scribing", ("scribe",)),
    ("bevels", ("sloped edge",)),
    ("tapers", ("taper",)),
    ("curves", ("arc", "curve", "relief")),
    ("turning", ("turned",)),
    ("recesses", ("recess", "fitting recess")),
    ("holes", ("hole", "screw hole", "peg hole", "dowel hole", "fitting hole")),
    ("slots", ("slot", "hand hold")),
    ("mouldings", ("cove", "thumbnail")),
    ("easing", ("round over", "chamfer")),
)


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


def steps(piece: Piece, stages: tuple[Stage, ...]) -> tuple[Step, ...]:
    """Every step; each part and each fixing is used in exactly one assembly step."""
    made = tuple(item for item in piece.items if not piece.parts[item.shown].spec.supplied)
    solid = tuple(item for item in made if piece.parts[item.shown].spec.wood)
    glued = tuple(item for item in made if "gluing up" in _works(piece, item))
    prepared = (("mill", solid), ("glue up", glued), ("size", made))
    found = [Step(kind, items) for kind, items in prepared if items]
    for kind, operations in WORK:
        items = tuple(item for item in made if _works(piece, item) & set(operations))
        if items:
            found.append(Step(kind, items))
    if piece.joints:
        found.append(Step("dry fit", piece.items))
    found += _assembly(piece, stages)
    if piece.design.spec.finish is not None:
        found.append(Step("finish", piece.items))
    fitted = tuple(fixing for fixing in piece.fixings if fixing.last)
    if fitted:
        found.append(Step("fittings", (), fixings=fitted))
    if piece.design.spec.supplies:
        found.append(Step("supplies", ()))
    return tuple(found)


def _works(piece: Piece, item: Item) -> set[str]:
    """Names of the operations a part needs."""
    return {f.operation.name for f in piece.parts[item.shown].features if f.operation is not None}


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
