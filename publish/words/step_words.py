"""What the words of a step are made of."""

from __future__ import annotations

from dataclasses import dataclass

from model.frames import nearest_side
from model.piece import AssemblyMade, Feature, Item, Piece, Value
from model.steps import Step
from publish.edition import Edition


@dataclass(frozen=True)
class StepWords:
    """A step: its title, a caution that comes first, and its sentences, and how long to wait after it."""

    title: str
    text: tuple[str, ...]
    caution: str = ""
    wait: str = ""


def features(edition: Edition, item: Item, *what: str) -> list[Feature]:
    """What was made on a part by the operations named."""
    part = edition.piece.parts[item.shown]
    return [f for f in part.features if f.operation is not None and f.operation.name in what]


def mm(values: dict[str, Value], name: str) -> float:
    """A value that is a number: a length in mm, an angle in degrees, a count."""
    value = values[name]
    assert isinstance(value, int | float)
    return float(value)


def lifted_onto(piece: Piece, step: Step) -> AssemblyMade | None:
    """The assembly that what was put together before is set on from above; none where a step does anything else."""
    stage = step.stage
    if stage is None or step.added or len(stage.moves) != 1 or any(joint.glued for joint in step.joints):
        return None
    path = stage.moves[0].path
    if len(path) != 1 or nearest_side(path[0].direction) != "top" or len(stage.moves[0].parts) <= len(stage.base):
        return None
    return next((made for made in piece.assemblies if set(made.parts) == set(stage.base)), None)


def slides_from(step: Step) -> str | None:
    """The side from which the parts of a stage slide in level, held by nothing; none where they do not."""
    assert step.stage is not None
    outs = {nearest_side(move.path[0].direction) for move in step.stage.moves if move.path}
    level = len(outs) == 1 and not outs & {"top", "bottom"}
    return outs.pop() if level and not step.fixings and not step.joints else None
