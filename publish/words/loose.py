"""Loose pieces of joints: pegs, dowels, wedges and the like, by name and by what is done with them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import numpy as np

from model.grain import grain
from model.piece import Piece, Value
from model.steps import Step
from plans.joints import GroovedPanel
from publish.edition import Edition
from publish.words.names import counted
from publish.words.step_words import mm

Values = dict[str, Value]


def _round(noun: str) -> Callable[[Edition, Values], str]:
    def name(edition: Edition, values: Values) -> str:
        size = f"{edition.drill(mm(values, 'diameter'))} × {edition.measure(mm(values, 'long'))}"
        return f"{size} {noun}, {values['wood']}" if "wood" in values else f"{size} {noun}"

    return name


def _wedge(edition: Edition, values: Values) -> str:
    n = edition.number
    size = f"{n(mm(values, 'wide'))} × {edition.measure(mm(values, 'long'))}"
    return f"{size} wedge, {n(mm(values, 'thick'))} at the thick end, {values['wood']}"


def _loose_tenon(edition: Edition, values: Values) -> str:
    n = edition.number
    size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))} × {edition.measure(mm(values, 'long'))}"
    return f"{size} loose tenon, {values['wood']}, grain along its length"


def _strip(noun: str) -> Callable[[Edition, Values], str]:
    def name(edition: Edition, values: Values) -> str:
        n = edition.number
        size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))} × {edition.measure(mm(values, 'long'))}"
        return f"{size} {noun}, {values['wood']}"

    return name


def _biscuit(edition: Edition, values: Values) -> str:
    return f"size {values['size']} biscuit"


LOOSE_NAMES: dict[str, Callable[[Edition, Values], str]] = {
    "peg": _round("peg"),
    "breadboard peg": _round("peg"),
    "wedge": _wedge,
    "dowel": _round("dowel"),
    "biscuit": _biscuit,
    "loose tenon": _loose_tenon,
    "spline": _strip("spline, grain across the joint"),
    "key": _strip("key"),
}

ALONG = 0.7  # cosine: an end of the panel, not an edge

# what is done with them when the joint is closed
LOOSE_ACTS: dict[str, str] = {
    "peg": "Point {pieces} at one end, drive them through while the joint is clamped, and pare them flush.",
    "breadboard peg": "Glue only the middle sixth of the tongue: the panel must be free to move. Drive {pieces} "
    "with no glue in the slots, and pare them flush.",
    "wedge": "Put glue on {pieces} and drive them into the saw cuts in turn; saw them off when dry.",
    "spline": "Glue {pieces} into the slots of one side first, then close the corners.",
    "key": "When the glue is dry, saw the slots across the corners, glue in {pieces}, and pare them flush.",
    "dowel": "Glue {pieces} into the holes of one part first, then close the joint.",
    "biscuit": "Brush it into the slots of both parts as well, push in {pieces} and close at once. Shift the parts "
    "until they lie flush: the biscuits swell and then hold them.",
    "loose tenon": "Glue {pieces} into one part first, then close the joint; ease their edges where the bit leaves "
    "round corners.",
}

# the same where the joint is not glued
DRY_ACTS = {"biscuit": "Push {pieces} into the slots of one part, without glue, and close the joint over them."}
# what goes in while the glue is wet, before the joint is looked over and left
WET = {"dowel", "biscuit", "loose tenon", "spline"}


def pinned_words(piece: Piece, step: Step) -> list[str]:
    """How a floating panel is kept in the middle, where a step closes a frame round the ends of one."""
    entries = piece.design.spec.joints
    ends = [
        joint
        for joint in step.joints
        if isinstance(entry := entries[joint.number], GroovedPanel)
        and entry.pinned
        and abs(float(grain(piece.parts[joint.a]) @ np.array(joint.direction))) > ALONG
    ]
    if not ends:
        return []
    return [
        f"In the middle of {'the groove' if len(ends) == 1 else 'each groove'} that takes an end of a panel put a spot "
        "of glue as wide as a thumb. The panel then keeps its middle. The rest of its edge stays dry and free to move."
    ]


def loose_words(step: Step, *, wet: bool) -> list[str]:
    """A sentence for each kind of loose piece that the joints of a step take.

    `wet` are those that go in while the glue is, else those that are driven or let in when the joint is closed.
    """
    count: Counter[tuple[str, bool]] = Counter()
    for joint in step.joints:
        for loose in joint.loose:
            if (loose.what in WET) is wet:
                count[loose.what, joint.glued] += loose.count
    return [
        (LOOSE_ACTS if glued else LOOSE_ACTS | DRY_ACTS)[what].format(pieces=f"the {counted(many, what)}")
        for (what, glued), many in count.items()
    ]
