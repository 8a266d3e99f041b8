"""A hard conversion: the same design re-made in sizes natural to the other unit system.

It is the tree of the file with other numbers in it, as a size is (`plans/sizes.py`): all that follows knows nothing of
it, formulas follow by themselves, and every number keeps the place where it was written. Pairs are taken as they are.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from plans import tree
from plans.literals import Dimension, Literal, literals
from plans.natural import RuleName, natural, spelled
from plans.number_kinds import MEASURED, Written, written_lengths
from plans.problems import Place
from plans.quantities import Refusal
from plans.scope import open_scope
from plans.sold_as import Sold, sold_as
from plans.source import KeyPath, Source, plain
from plans.units import System

UNIT_WORDS: dict[System, str] = {"inch": "in", "mm": "mm"}
_DIMENSIONS: dict[str, Dimension] = {"length": (1, 0), "angle": (0, 1), "plain": (0, 0)}


@dataclass(frozen=True)
class Change:
    """One number of the file that is another one in the other system, and the rule it came by.

    `written` and `now` are the whole formulas it stands in; `before` and `after` it itself, in mm, None for a name one
    asks for over the counter.
    """

    path: KeyPath
    place: Place
    written: str
    now: str
    rule: RuleName
    before: Fraction | None = None
    after: Fraction | None = None


@dataclass(frozen=True)
class _Edit:
    text: str
    key: str | None = None


def remade(source: Source, system: System) -> tuple[Source, tuple[Change, ...]]:
    """The file as it reads when it is re-made in `system`, and every number that changed, in the order of the file.

    Lengths that are written in `system` already stand. What cannot be read is left as it is: reading tells of it.
    """
    scope = open_scope(source.data)
    if system == scope.units:
        return source, ()
    dimensions = {name: _DIMENSIONS[one.kind] for name, one in scope.named.items()}
    edits: dict[KeyPath, _Edit] = {("units",): _Edit(system)}
    changes: list[Change] = []
    for sold in sold_as(source.root, scope, system):
        edits[sold.path] = _Edit(sold.now, sold.key)
        changes.append(_of_sold(source, sold))
    for one in written_lengths(source.root):
        if one.path in edits:
            continue
        if one.is_pair:
            changes += _of_pair(source, one, system)
        elif isinstance(one.node, tree.Scalar) and one.node.text is not None:
            found = rewritten(one, one.node.text, dimensions, scope.units, system)
            if found is not None:
                edits[one.path] = _Edit(found[0])
                changes += [
                    Change(one.path, source.place(one.path), one.node.text, found[0], *told) for told in found[1]
                ]
    root = _with(source.root, (), edits)
    assert isinstance(root, tree.Mapping)
    root = replace(root, items={key: node for key, node in root.items.items() if key != MEASURED})
    in_order = sorted(changes, key=lambda change: (change.place.line, change.place.column))
    return replace(source, root=root), tuple(in_order)


def rewritten(
    one: Written, text: str, dimensions: dict[str, Dimension], units: System, system: System
) -> tuple[str, list[tuple[RuleName, Fraction, Fraction]]] | None:
    """A formula with natural lengths in it, and each that changed, by its rule; None where all is as it was."""
    try:
        # what is no name of a number is a part, or will be told of: it measures a length or nothing that matters
        found = literals(text, lambda name: dimensions.get(name, (1, 0)), units)
    except Refusal:
        return None
    told = []
    now = text
    for literal in sorted(found, key=lambda each: -each.start):
        if literal.is_unit:
            now = f"{now[: literal.end]} * {spelled(literal.mm, units)}{now[literal.end :]}"
        elif literal.system != system and literal.mm:
            rule = _rule(one, literal, text)
            after = natural(literal.mm, rule, system, one.at_most)
            written = spelled(after, system) if after != literal.mm else _with_its_unit(text, literal)
            now = now[: literal.start] + _divided_by(text, literal, written) + now[literal.end :]
            if after != literal.mm:
                told.append((rule, literal.mm, after))
    return None if now == text else (now, told[::-1])


def _rule(one: Written, literal: Literal, text: str) -> RuleName:
    """The rule of the field, where the literal is all of it; in a formula it is one length among others."""
    whole = literal.start == 0 and literal.end == len(text.rstrip())
    return one.rule if whole or one.rule in ("clearance", "exact") else "free"


def _with_its_unit(text: str, literal: Literal) -> str:
    """A literal as it is written, now that another unit goes without saying."""
    written = text[literal.start : literal.end].strip()
    return f"{written} {UNIT_WORDS[literal.system]}" if literal.bare else written


def _divided_by(text: str, literal: Literal, written: str) -> str:
    """In brackets where it divides: what follows `/` could be read in two ways."""
    return f"({written})" if text[: literal.start].rstrip().endswith("/") else written


def _of_sold(source: Source, sold: Sold) -> Change:
    return Change(sold.path, source.place(sold.path), sold.node.text or "", sold.now, "bought")


def _of_pair(source: Source, one: Written, system: System) -> Iterator[Change]:
    """A pair whose members differ; nothing where either cannot be worked out by itself."""
    raw = {key: str(text) for key, text in plain(one.node).items()}
    other: System = "inch" if system == "mm" else "mm"
    try:
        values = [open_scope(source.data, member).number(raw, "length").value for member in (other, system)]
    except Refusal:
        return
    before, after = (Fraction(value) for value in values)
    if before != after:
        yield Change(one.path, source.place(one.path), raw[other], raw[system], "pair", before, after)


def _with(node: tree.Node, path: KeyPath, edits: dict[KeyPath, _Edit]) -> tree.Node:
    """The tree with other texts; a node that is not edited is itself."""
    if isinstance(node, tree.Scalar):
        return node if path not in edits else replace(node, text=edits[path].text, plain=False)
    if isinstance(node, tree.Sequence):
        return replace(node, items=tuple(_with(child, (*path, n), edits) for n, child in enumerate(node.items)))
    items, keys = {}, dict(node.keys)
    for key, child in node.items.items():
        edit = edits.get((*path, key))
        name = edit.key if edit is not None and edit.key is not None else key
        keys[name] = node.keys[key]
        items[name] = _with(child, (*path, key), edits)
    return replace(node, items=items, keys=keys)
