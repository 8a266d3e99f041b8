"""A published set as data: what two revisions are compared by. It lies in the folder of the set.

Lengths in it are mm, as they are in the model; words are those of the pages.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from pydantic import TypeAdapter, ValidationError

from model.buying import purchases
from model.cut_list import cut_list
from model.piece import Item, Piece
from model.takeoff import hardware
from plans.units import System, UnitSystem
from publish.drawing.records import Image
from publish.edition import Edition, Leaf
from publish.words.as_built import buyer_notes
from publish.words.hardware import bought_words
from publish.words.lumber import boards_words
from publish.words.names import item_name
from publish.words.steps import step_words

FILE = "record.json"
DIGITS = 4  # of a mm: below what anybody can cut, above what floats leave


@dataclass(frozen=True)
class PartRecord:
    """One mark: its parts by name, what it is made of, and every size and setting of it as `name: value`s."""

    mark: str
    kind: str
    name: str
    parts: tuple[str, ...]
    mirrored: int
    made_of: str
    stock: str
    sizes: dict[str, tuple[float, ...]]
    words: dict[str, tuple[str, ...]]

    @property
    def quantity(self) -> int:
        """How many to make."""
        return len(self.parts)


@dataclass(frozen=True)
class SheetRecord:
    """One page, and what is on it but for its number, how many there are, and the revision."""

    key: str
    title: str
    number: int
    digest: str


@dataclass(frozen=True)
class StepRecord:
    """One step in words."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class EditionRecord:
    """One unit system: its pages, its steps, and its lists in words."""

    system: System
    sheets: tuple[SheetRecord, ...]
    steps: tuple[StepRecord, ...]
    hardware: dict[str, int]
    lumber: dict[str, str]  # boards and sheets to buy, by wood and stock
    as_built: tuple[str, ...] = ()  # what the buyer is told of the piece that was built


@dataclass(frozen=True)
class SetRecord:
    """The whole set."""

    plan: str
    stem: str
    revision: int
    date: str
    maker: str
    system: System
    step_inch: str  # the finest printed, as fractions
    step_mm: str
    lengths: dict[str, float]
    angles: dict[str, float]
    counts: dict[str, float]
    overall: tuple[float, float, float]
    parts: tuple[PartRecord, ...]
    editions: tuple[EditionRecord, ...]
    remade: SetRecord | None = None  # of the piece that it is re-made as in the other units

    @property
    def systems(self) -> set[System]:
        """The unit systems that it has an edition in."""
        return {edition.system for edition in self.editions} | (self.remade.systems if self.remade else set())

    def shown_in(self, system: System) -> SetRecord:
        """The record of the piece that the edition in `system` shows: itself where there is no other."""
        own = any(edition.system == system for edition in self.editions)
        return self if own or self.remade is None else self.remade

    def units(self, system: System) -> UnitSystem:
        """How its lengths are printed."""
        return UnitSystem(system, Fraction(self.step_inch if system == "inch" else self.step_mm))


_JSON = TypeAdapter(SetRecord)


def record(piece: Piece, editions: Sequence[tuple[Edition, Sequence[Leaf]]]) -> SetRecord:
    """What a set holds, from its editions and their pages."""
    spec = piece.design.spec
    return SetRecord(
        spec.plan,
        piece.design.stem,
        spec.revision,
        spec.date.isoformat(),
        spec.maker,
        piece.design.system,
        str(piece.design.step_inch),
        str(piece.design.step_mm),
        _rounded(spec.lengths),
        _rounded(spec.angles),
        _rounded(spec.counts),
        piece.size,
        tuple(_part(piece, item) for item in piece.items),
        tuple(_edition(edition, leaves) for edition, leaves in editions),
    )


def _rounded(values: dict[str, float]) -> dict[str, float]:
    return {name: round(value, DIGITS) for name, value in values.items()}


def written(one: SetRecord) -> str:
    """A record as JSON."""
    return _JSON.dump_json(one, indent=1).decode("utf-8") + "\n"


def read_back(text: bytes) -> SetRecord | None:
    """A record from JSON; nothing where it is none."""
    try:
        return _JSON.validate_json(text)
    except ValidationError:
        return None


def _part(piece: Piece, item: Item) -> PartRecord:
    part = piece.parts[item.shown]
    sizes: dict[str, list[float]] = {}
    words: dict[str, list[str]] = {}
    for feature in part.features:
        told: list[tuple[str, Any]] = [(size.name, size.value) for size in feature.sizes]
        told += [
            (f"{callout.what} {name}", value) for callout in feature.callouts for name, value in callout.values.items()
        ]
        for name, value in told:
            if isinstance(value, int | float) and not isinstance(value, bool):
                sizes.setdefault(name, []).append(round(float(value), DIGITS))
            elif value is not None:
                words.setdefault(name, []).append(str(value))
    spec = part.spec
    said = {"rings": spec.rings, "show face": spec.show_face, "from one board": spec.from_one_board, "note": spec.note}
    said |= {"marked to fit": ", ".join(spec.marked_to_fit)}
    words |= {name: [str(value)] for name, value in said.items() if value}
    row = next((row for row in cut_list(piece) if row.item.mark == item.mark), None)
    return PartRecord(
        item.mark,
        item.name,
        item_name(piece, item),
        (*item.parts, *item.mirrored),
        len(item.mirrored),
        part.spec.made_of,
        (row.stock if row else part.spec.stock) or "",
        {name: tuple(sorted(values)) for name, values in sizes.items()},
        {name: tuple(sorted(values)) for name, values in words.items()},
    )


def _edition(edition: Edition, leaves: Sequence[Leaf]) -> EditionRecord:
    bought: dict[str, int] = {}
    for row in hardware(edition.piece):
        name = bought_words(edition, row) + (f" ({row.note})" if row.note else "")
        bought[name] = bought.get(name, 0) + row.count
    steps = []
    for step in edition.steps:
        words = step_words(edition, step)
        steps.append(StepRecord(words.title, (*((words.caution,) if words.caution else ()), *words.text)))
    sheets = tuple(
        SheetRecord(leaf.key, leaf.title, number, _digest(leaf)) for number, leaf in enumerate(leaves, start=1)
    )
    boards = {f"{one.plan.wood}, {one.plan.stock}": boards_words(edition, one) for one in purchases(edition.piece)}
    return EditionRecord(edition.units.name, sheets, tuple(steps), bought, boards, tuple(buyer_notes(edition)))


def _digest(leaf: Leaf) -> str:
    found = hashlib.blake2b(
        repr((leaf.title, replace(leaf.info, sheet=0, sheets=0, revision=""))).encode(), digest_size=12
    )
    for item in leaf.body:
        if isinstance(item, Image):  # a few million bytes, of which no text has to be made
            found.update(item.pixels)
            item = replace(item, pixels=b"")
        found.update(repr(item).encode())
    return found.hexdigest()
