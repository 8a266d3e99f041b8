"""Other sizes of one design: a named set of values, parts that are left out, or a size made to measure.

A size is the same file with some of its values put in the place of others. Everything keeps the place where it was
written, so that what is wrong with a size is told where its value stands.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, get_args, get_type_hints

from pydantic import BaseModel

from plans import tree
from plans.fields import PartName
from plans.fixings import FIXINGS
from plans.joints import JOINTS
from plans.problems import Problem
from plans.scope import SECTIONS
from plans.source import Source
from plans.suggest import did_you_mean, listed
from plans.yaml_errors import Spot

LEAVE_OUT = "leave out"
AS_BUILT = ("measured", "did differently")  # of the piece that was built, which was of no other size
TO_MEASURE = "made to measure"


@dataclass(frozen=True)
class Choice:
    """Which size is wanted: a named one, values of one's own by name (formulas), both, or the design as it stands."""

    size: str | None = None
    values: tuple[tuple[str, str], ...] = ()

    @property
    def title(self) -> str:
        """What the size is called; nothing for the design as it stands."""
        return ", ".join(word for word in (self.size, TO_MEASURE if self.values else None) if word)

    @property
    def slug(self) -> str:
        """The same as a piece of a file name."""
        return re.sub(r"[^\w]+", "-", self.title).strip("-")


BASE = Choice()


def size_names(source: Source) -> tuple[str, ...]:
    """The sizes that a file names, in the order written."""
    sizes = source.root.items.get("sizes")
    return tuple(sizes.items) if isinstance(sizes, tree.Mapping) else ()


def sized(source: Source, choice: Choice) -> tuple[Source, tuple[Problem, ...]]:
    """The file as it reads for one size, and what stands in the way of that."""
    root, problems = without_keys(source.root, AS_BUILT), []
    if choice.size is not None:
        found = _size(source, choice.size)
        if isinstance(found, Problem):
            return source, (found,)
        for name, node in found.items.items():
            if name == LEAVE_OUT:
                root, wrong = _without(source, root, node)
                problems += wrong
            else:
                root, wrong = _valued(source, root, name, node, found.keys[name])
                problems += wrong
    for name, text in choice.values:
        spot = next((n.spot for n in _named(root, name)), root.spot)
        root, wrong = _valued(source, root, name, tree.Scalar(spot, text, plain=False), spot)
        problems += wrong
    if choice.title:
        called = root.items.get("plan")
        if isinstance(called, tree.Scalar) and called.text:
            root = _put(root, "plan", replace(called, text=f"{called.text}, {choice.title}"))
    return replace(source, root=root), tuple(problems)


def _size(source: Source, name: str) -> tree.Mapping | Problem:
    names = size_names(source)
    sizes = source.root.items.get("sizes")
    found = sizes.items.get(name) if isinstance(sizes, tree.Mapping) else None
    if isinstance(found, tree.Mapping):
        return found
    if found is not None:
        message, hint = f"the size '{name}' names no values", "write `{seat_length: 60}`, or `{leave out: shelf}`"
        return Problem("wrong-value", "error", message, source.place(("sizes", name)), hint)
    known = f"the sizes are {listed(names)}" if names else "name sizes under `sizes:` in the design file"
    message = f"no size is called '{name}'"
    return Problem("size-not-named", "error", message, source.place(("sizes",)), did_you_mean(name, names) or known)


def _named(root: tree.Mapping, name: str) -> Iterator[tree.Node]:
    for section in SECTIONS:
        values = root.items.get(section)
        if isinstance(values, tree.Mapping) and name in values.items:
            yield values.items[name]


def _valued(
    source: Source, root: tree.Mapping, name: str, node: tree.Node, spot: Spot
) -> tuple[tree.Mapping, list[Problem]]:
    """With another value for one of the named numbers."""
    every = []
    for section in SECTIONS:
        values = root.items.get(section)
        if isinstance(values, tree.Mapping):
            every += list(values.items)
            if name in values.items:
                return _put(root, section, _put(values, name, node)), []
    message = f"a size can change what stands under `lengths`, `angles` and `counts`, and '{name}' does not"
    hint = did_you_mean(name, [*every, LEAVE_OUT]) or f"there are {listed(every)}" if every else "name the number first"
    return root, [Problem("unknown-name", "error", message, source.at(spot), hint)]


def _without(source: Source, root: tree.Mapping, node: tree.Node) -> tuple[tree.Mapping, list[Problem]]:
    """Without some kinds of part, and the joints, fixings, loads and assemblies that are theirs."""
    parts = root.items.get("parts")
    known = parts.items if isinstance(parts, tree.Mapping) else {}
    named = node.items if isinstance(node, tree.Sequence) else (node,)
    gone: set[str] = set()
    problems = []
    for one in named:
        name = " ".join(str(one.text).split()) if isinstance(one, tree.Scalar) else ""
        if name in known:
            gone.add(name)
            continue
        hint = did_you_mean(name, known) or "name parts, as in `leave out: [shelf, bearer]`"
        problems.append(
            Problem("unknown-part", "error", f"no part is called '{name}' to be left out", source.at(one.spot), hint)
        )
    if isinstance(parts, tree.Mapping):
        left = {name: entry for name, entry in known.items() if name not in gone}
        root = _put(root, "parts", replace(parts, items=left))
    root = _entries(root, "joints", lambda entry: _of_a_kind(entry, JOINTS, gone))
    root = _entries(root, "fixings", lambda entry: _of_a_kind(entry, FIXINGS, gone))
    root = _entries(root, "loads", lambda entry: _thinned(entry, ("part",), gone))
    assemblies = root.items.get("assemblies")
    if isinstance(assemblies, tree.Mapping):
        thinned = {name: _thinned(entry, ("parts",), gone) for name, entry in assemblies.items.items()}
        items = {name: entry for name, entry in thinned.items() if entry is not None}
        root = _put(root, "assemblies", replace(assemblies, items=items))
    return root, problems


def without_keys(root: tree.Mapping, keys: Sequence[str]) -> tree.Mapping:
    """A file without some of its sections."""
    return replace(root, items={key: node for key, node in root.items.items() if key not in keys})


def _put(mapping: tree.Mapping, key: str, node: tree.Node) -> tree.Mapping:
    keys = mapping.keys if key in mapping.keys else {**mapping.keys, key: node.spot}
    return replace(mapping, items={**mapping.items, key: node}, keys=keys)


def _entries(root: tree.Mapping, section: str, left: Callable[[tree.Node], tree.Node | None]) -> tree.Mapping:
    """A list with each entry as `left` leaves it; entries of which nothing is left go."""
    found = root.items.get(section)
    if not isinstance(found, tree.Sequence):
        return root
    entries = tuple(entry for entry in map(left, found.items) if entry is not None)
    return _put(root, section, replace(found, items=entries))


def _of_a_kind(entry: tree.Node, table: Mapping[str, type[BaseModel]], gone: set[str]) -> tree.Node | None:
    """A joint or a fixing without the parts that are gone; nothing where one of the two it joins is."""
    if not isinstance(entry, tree.Mapping) or len(entry.items) != 1:
        return entry
    ((kind, fields),) = entry.items.items()
    if kind not in table:
        return entry
    left = _thinned(fields, part_fields(table[kind]), gone)
    return None if left is None else _put(entry, kind, left)


def part_fields(kind: type[BaseModel]) -> tuple[str, ...]:
    """The fields of a joint or a fixing that name parts, as they are written."""
    hints = get_type_hints(kind, include_extras=True)
    fields = kind.model_fields
    return tuple(fields[name].alias or name for name, hint in hints.items() if name in fields and _names_parts(hint))


def _names_parts(hint: Any) -> bool:
    return hint == PartName or any(_names_parts(inner) for inner in get_args(hint))


def _thinned(entry: tree.Node, fields: Sequence[str], gone: set[str]) -> tree.Node | None:
    """An entry without the parts that are gone; nothing where a field names none any more."""
    if not isinstance(entry, tree.Mapping):
        return entry
    for name in fields:
        node = entry.items.get(name)
        if isinstance(node, tree.Scalar) and _is_gone(node, gone):
            return None
        if isinstance(node, tree.Sequence) and any(_is_gone(one, gone) for one in node.items):
            left = tuple(one for one in node.items if not _is_gone(one, gone))
            if not left:
                return None
            entry = _put(entry, name, replace(node, items=left))
    return entry


def _is_gone(node: tree.Node, gone: set[str]) -> bool:
    return isinstance(node, tree.Scalar) and " ".join(str(node.text).split()) in gone
