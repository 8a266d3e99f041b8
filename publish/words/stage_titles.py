"""The titles of the steps of assembly."""

from __future__ import annotations

from model.copies import finished, wholes
from model.piece import Piece
from model.stages import Stage
from model.steps import Step
from plans.joints import GroovedPanel
from publish.edition import Edition
from publish.words.names import listed, plural
from publish.words.step_words import lifted_onto, slides_from

NAMED_AT_MOST = 3  # kinds of part in a title
HALF = 0.3  # share of the parts from which on one speaks of halves, where both have parts of a kind


def stage_title(edition: Edition, step: Step) -> str:
    """What a step of assembly is called; by all that it puts together where another one would be called the same."""
    title = _by_what_is_added(edition, step)
    others = [other for other in edition.steps if other.stage is not None and other is not step]
    if all(_by_what_is_added(edition, other) != title for other in others):
        return title
    kinds = dict.fromkeys(edition.piece.parts[name].kind for name in step.added)
    if not 1 < len(kinds) <= NAMED_AT_MOST:
        return title
    verb = "Glue up" if any(joint.glued for joint in step.joints) else "Put together"
    return f"{verb} the {listed(_plural_of(edition.piece, step, kind) for kind in kinds)}"


def _by_what_is_added(edition: Edition, step: Step) -> str:
    """What a step is called that has no namesake."""
    stage = step.stage
    assert stage is not None
    piece = edition.piece
    glued = any(joint.glued for joint in step.joints)
    going_in = dict.fromkeys(made.kind for made in wholes(piece, stage))
    if going_in and not glued:
        said = listed(kind if len(stage.moves) == 1 else plural(kind) for kind in going_in)
        return f"Slide in the {said}" if slides_from(step) else f"Set the {said} in place"
    onto = lifted_onto(piece, step)
    if onto is not None:
        return f"Set the rest on the {onto.kind}"
    new_base = set(stage.base) <= set(step.added)
    if stage.times > 1 or len(stage.turns) > 1:
        return _of_many(piece, step, stage, glued, new_base)
    new_moved = dict.fromkeys(
        piece.parts[name].kind for move in stage.moves for name in move.parts if name in step.added
    )
    if new_moved:
        return f"{'Glue' if glued else 'Fit'} the {listed(_plural_of(piece, step, kind) for kind in new_moved)}"
    return _of_made(piece, stage, glued)


def _of_many(piece: Piece, step: Step, stage: Stage, glued: bool, new_base: bool) -> str:
    """Of a step that makes several, or puts together several kinds in one go."""
    kinds = dict.fromkeys(piece.parts[name].kind for name in stage.parts if name in step.added)
    verb = ("Glue up" if new_base else "Glue") if glued else ("Put together" if new_base else "Fit")
    done = finished(piece, stage)
    if done is not None and new_base:
        return f"{verb} the {done.kind if stage.times == 1 else plural(done.kind)}"
    panels = [kind for kind in kinds if _floats(piece, kind)]
    if len(kinds) > NAMED_AT_MOST and panels:
        of = listed(_plural_of(piece, step, kind) for kind in panels)
        return f"{verb} the frame{'s' if stage.times > 1 else ''} of the {of}"
    return f"{verb} the {listed(_plural_of(piece, step, kind) for kind in kinds)}"


def _floats(piece: Piece, kind: str) -> bool:
    return any(isinstance(entry, GroovedPanel) and entry.of == kind for entry in piece.design.spec.joints)


def _of_made(piece: Piece, stage: Stage, glued: bool) -> str:
    """Of a step that joins what earlier ones made."""
    verb = "Glue" if glued else "Fit"
    if len(stage.moves) > 1:
        whole = next((made.kind for made in piece.assemblies if set(stage.parts) < set(made.parts)), None)
        return f"Join the frames of the {whole}" if whole else "Join the frames"
    moved = stage.moves[0].parts if stage.moves else ()
    kinds = dict.fromkeys(piece.parts[name].kind for name in moved)
    if len(kinds) == 1 and len(moved) > 1:
        return f"{'Glue' if glued else 'Lay'} in the {plural(next(iter(kinds)))}"
    there = {piece.parts[name].kind for name in stage.base}
    halves = HALF * len(stage.parts) <= len(moved) <= (1 - HALF) * len(stage.parts)
    if halves and there & set(kinds):
        return "Join the two halves"
    if len(kinds) > NAMED_AT_MOST:
        return "Join the two assemblies"
    many = {kind: sum(piece.parts[name].kind == kind for name in moved) for kind in kinds}
    said = listed(kind if count == 1 else plural(kind) for kind, count in many.items())
    return f"{verb} the {said} to the rest"


def _plural_of(piece: Piece, step: Step, kind: str) -> str:
    count = sum(piece.parts[name].kind == kind for name in step.added)
    return kind if count == 1 else plural(kind)
