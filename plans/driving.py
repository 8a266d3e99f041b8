"""The numbers that drive a design, where each is written, and the design with other numbers in their place.

They are the `lengths` and `angles` that are numbers and not formulas of others; and, of a kind of part, the numbers
that are typed at the part itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from plans import tree
from plans.design import Design
from plans.formulas import evaluate, names_nothing, typed_numbers
from plans.problems import Place, Problem
from plans.quantities import Quantity, Refusal, as_angle, as_length
from plans.resolve import resolve
from plans.scope import SECTIONS
from plans.sizes import AS_BUILT, without_keys
from plans.source import KeyPath
from plans.units import UNIT_MM, System
from plans.wording import spoken

NumberKind = Literal["length", "angle"]
UNIT_WORD: dict[NumberKind, str] = {"length": "mm", "angle": "deg"}
TYPED: tuple[tuple[str, ...], ...] = (
    *(("length",), ("width",), ("thickness",)),
    *(("where", key) for key in ("left", "right", "front", "back", "bottom", "top", "measured at")),
    *(("lean", "foot to", key) for key in ("left", "right", "front", "back")),
    *(("cut to", key) for key in ("left", "right", "front", "back", "bottom", "top")),
)


@dataclass(frozen=True)
class Driving:
    """One number as it is typed: `text[start:end]` of what stands at `path`, worth `value` (mm or degrees)."""

    name: str  # `seat_length`, `leg.where.left`
    path: KeyPath
    kind: NumberKind
    value: float
    text: str
    start: int
    end: int
    units: System  # the meaning of a bare length there
    place: Place

    @property
    def written(self) -> str:
        """The number as it is typed."""
        return self.text[self.start : self.end]

    @property
    def system(self) -> System:
        """The units that it is typed in, its own or those of the file."""
        if "mm" in self.written:
            return "mm"
        return "inch" if re.search("in|ft|[\"'″′]", self.written) else self.units


def named_numbers(design: Design) -> tuple[Driving, ...]:
    """The `lengths` and `angles` that are not worked out from others."""
    found = []
    for section, kind in SECTIONS.items():
        values = design.source.root.items.get(section)
        if kind == "plain" or not isinstance(values, tree.Mapping):
            continue
        for name, node in values.items.items():
            path, text, units = _text_of(design, (section, name), node)
            if names_nothing(text):
                found += list(_at(design, name, kind, path, text, units, (0, len(text))))
    return tuple(found)


def typed_at(design: Design, parts: Iterable[str]) -> tuple[Driving, ...]:
    """The numbers typed at kinds of part: their sizes, their lean, and what is added to the sides they stand by."""
    return tuple(driving for part in parts for driving in _typed(design, part))


def _typed(design: Design, part: str) -> Iterator[Driving]:
    for keys in TYPED:
        path: KeyPath = ("parts", part, *keys)
        node = _node(design.source.root, path)
        if node is None:
            continue
        path, text, units = _text_of(design, path, node)
        name = spoken(("parts", part, *keys))
        for span in typed_numbers(text):
            yield from _at(design, name, "angle" if keys[0] == "lean" else "length", path, text, units, span)


def _text_of(design: Design, path: KeyPath, node: tree.Node) -> tuple[KeyPath, str, System]:
    """The formula that is read there: of a pair the member of the design's system."""
    if isinstance(node, tree.Mapping):
        member = node.items.get(design.system)
        text = member.text if isinstance(member, tree.Scalar) else None
        return (*path, design.system), text or "", design.system
    return path, (node.text or "") if isinstance(node, tree.Scalar) else "", design.spec.units


def _at(
    design: Design, name: str, kind: NumberKind, path: KeyPath, text: str, units: System, span: tuple[int, int]
) -> Iterator[Driving]:
    """The number at a span of a text; nothing where it is none of that kind."""
    start, end = span
    try:
        worth = evaluate(text[start:end], _Nothing(), UNIT_MM[units])
    except Refusal:
        return
    worth = as_angle(worth) if kind == "angle" else as_length(worth, UNIT_MM[units])
    if worth.dimension == ((0, 1) if kind == "angle" else (1, 0)):
        place = design.source.text_place(path, start)
        yield Driving(name, path, kind, float(worth.value), text, start, end, units, place)


class _Nothing:
    """What a number has to look up."""

    def value(self, name: str) -> Quantity:
        raise Refusal("unknown-name", name)

    def reference(self, part: str, what: str) -> Quantity:
        raise Refusal("unknown-name", part)


def with_numbers(design: Design, numbers: Mapping[Driving, float]) -> tuple[Design | None, tuple[Problem, ...]]:
    """The design with other numbers (mm, degrees) where these are typed, without its sizes and what was measured."""
    root = without_keys(design.source.root, ("sizes", *AS_BUILT))
    texts: dict[KeyPath, str] = {}
    # from the last to the first of a text, so that the places of the others hold
    for driving in sorted(numbers, key=lambda one: one.start, reverse=True):
        text = texts.get(driving.path, driving.text)
        texts[driving.path] = text[: driving.start] + _typed_as(numbers[driving], driving) + text[driving.end :]
    for path, text in texts.items():
        root = _put(root, path, text)
    return resolve(replace(design.source, root=root), design.system)


def _typed_as(value: float, driving: Driving) -> str:
    """A number as text that reads as exactly so much, whatever the units of the file."""
    return f"{'-' if value < 0 else ''}{abs(value):.9f} {UNIT_WORD[driving.kind]}"


def _node(root: tree.Mapping, path: KeyPath) -> tree.Node | None:
    node: tree.Node | None = root
    for key in path:
        node = node.items.get(str(key)) if isinstance(node, tree.Mapping) else None
    return node


def _put(mapping: tree.Mapping, path: KeyPath, text: str) -> tree.Mapping:
    key = str(path[0])
    node = mapping.items[key]
    if len(path) > 1:
        assert isinstance(node, tree.Mapping)
        return replace(mapping, items={**mapping.items, key: _put(node, path[1:], text)})
    return replace(mapping, items={**mapping.items, key: tree.Scalar(node.spot, text, plain=False)})
