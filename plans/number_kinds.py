"""What kind of number each length of a design file is: by it a hard conversion knows which rule makes it natural.

The schema says where lengths stand (as pydantic reads them); the tables here say which of them are no free choice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel

from plans import tree
from plans.fields import Gap, Gaps, Length, PositiveLength, WrittenCut, WrittenPosition
from plans.fixings import MachineBolt, Nail, WoodScrew
from plans.joints import Dowel
from plans.kinds import SaidByKind
from plans.library import dressed, rough_stock, sheet
from plans.natural import RuleName
from plans.pegs import Pegs
from plans.shaping import Chamfer
from plans.source import KeyPath
from plans.spec import BoardSpec, DesignSpec, PartSpec

# the language calls the same thing by the same word, so most rules go by the word
BY_WORD: dict[str, RuleName] = {
    "thick": "tool",
    "diameter": "drill",
    "countersunk": "drill",
    "radius": "radius",
    "corners": "radius",
    "eased": "radius",
    "thickness": "stock",
    "gap": "clearance",
    "fit": "clearance",
    "relief": "clearance",
    "room": "clearance",
    "play": "clearance",
}
BY_KIND: dict[tuple[type[BaseModel], str], RuleName] = {
    (Chamfer, "size"): "radius",
    (Dowel, "diameter"): "dowel",
    (Pegs, "diameter"): "dowel",
    (WoodScrew, "long"): "screw",
    (Nail, "long"): "nail",
    (MachineBolt, "long"): "bolt",
}
SHAPED = frozenset({"turned"})  # its diameters are set with a calliper, and its gaps are no clearances
LAID_OUT = frozenset({"repeat"})
LIKE_ITS_THICKNESS = frozenset({"thickness", "width", "shaping"})  # a square part stays square, a round one round
ON_HAND = "on hand"  # a board that lies there has the size it has
# of the uses of a named length the first of these says what it is
FIRST: tuple[RuleName, ...] = (
    *("bought", "exact", "stock", "dowel", "drill", "tool", "radius", "screw", "nail", "bolt", "clearance", "free"),
)
_LENGTHS = (Length, PositiveLength, Gap)
_PLACES = (WrittenPosition, WrittenCut)
MEASURED = "measured"  # on the piece that was built, which is the design as written
NOT_CONVERTED = frozenset({"house", "prices", "sizes", "lengths", "angles", "counts", "steps", "loads", MEASURED})


@dataclass(frozen=True)
class Written:
    """A formula that comes to a length, or a pair of them: where it stands and by which rule it becomes natural.

    `at_most`: what its stock yields in the other system, or how thick its sheet is there (mm).
    """

    path: KeyPath
    node: tree.Node
    rule: RuleName
    at_most: Fraction | None = None

    @property
    def is_pair(self) -> bool:
        """Whether it says a value for either system."""
        return isinstance(self.node, tree.Mapping) and set(self.node.items) == {"inch", "mm"}


def written_lengths(root: tree.Mapping) -> list[Written]:
    """Every length of a file, named ones first: these by the rule of what they are used for."""
    found = [one for one in _of_model(root, DesignSpec, (), frozenset()) if _is_formula(one)]
    named = root.items.get("lengths")
    if not isinstance(named, tree.Mapping):
        return found
    uses = _uses(found, named)
    return [_named(name, node, uses) for name, node in named.items.items()] + found


def _is_formula(one: Written) -> bool:
    return one.is_pair or (isinstance(one.node, tree.Scalar) and one.node.text is not None)


def _uses(found: list[Written], named: tree.Mapping) -> dict[str, list[Written]]:
    """The lengths that are a named one and nothing else, by its name; a name that stands for another one is that."""
    uses: dict[str, list[Written]] = {name: [] for name in named.items}
    for one in found:
        for text in _texts(one.node):
            uses.get(text, []).append(one)
    for _ in named.items:
        for name, node in named.items.items():
            for text in _texts(node):
                if text in uses and text != name:
                    uses[text] += [one for one in uses[name] if one not in uses[text]]
    return uses


def _texts(node: tree.Node) -> list[str]:
    nodes = node.items.values() if isinstance(node, tree.Mapping) else (node,)
    return [one.text.strip() for one in nodes if isinstance(one, tree.Scalar) and one.text]


def _named(name: str, node: tree.Node, uses: dict[str, list[Written]]) -> Written:
    rules = {one.rule for one in uses[name]}
    rule: RuleName = next((rule for rule in FIRST if rule in rules), "free")
    limits = [one.at_most for one in uses[name] if one.at_most is not None]
    return Written(("lengths", name), node, rule, min(limits) if limits else None)


def _of_model(node: tree.Node, model: type[BaseModel], path: KeyPath, inside: frozenset[str]) -> Iterator[Written]:
    if not isinstance(node, tree.Mapping):
        return
    hints = get_type_hints(model, include_extras=True)
    named = {info.alias or name: hints[name] for name, info in model.model_fields.items()}
    if model is BoardSpec and ON_HAND in node.items:
        inside |= {ON_HAND}
    for key, child in node.items.items():
        if key in named and not (model is DesignSpec and key in NOT_CONVERTED):
            rule = _rule(model, key, inside)
            for one in _of_hint(child, named[key], (*path, key), rule, inside | {key}):
                yield _of_a_part(one, node) if model is PartSpec and key in LIKE_ITS_THICKNESS else one


def _of_hint(node: tree.Node, hint: Any, path: KeyPath, rule: RuleName, inside: frozenset[str]) -> Iterator[Written]:
    """The lengths of a field that is read as `hint`."""
    if hint in _LENGTHS or hint in _PLACES:
        yield Written(path, node, rule)
    elif hint == Gaps:
        pair = isinstance(node, tree.Mapping) and not set(node.items) & {"inch", "mm"}
        yield from _of_hint(node, dict[str, Gap] if pair else Gap, path, rule, inside)
    elif get_origin(hint) is Annotated:
        inner, *marks = get_args(hint)
        tables = [mark.table for mark in marks if isinstance(mark, SaidByKind)]
        if not tables:
            yield from _of_hint(node, inner, path, rule, inside)
        elif isinstance(node, tree.Mapping):
            for kind, fields in node.items.items():
                if kind in tables[0]:
                    yield from _of_model(fields, tables[0][kind], (*path, kind), inside | {kind})
    elif get_origin(hint) in (Union, UnionType):
        for inner in get_args(hint):
            yield from _of_hint(node, inner, path, rule, inside)
    elif get_origin(hint) is tuple:
        many = node.items if isinstance(node, tree.Sequence) else ()
        for number, child in enumerate(many):
            yield from _of_hint(child, get_args(hint)[0], (*path, number), rule, inside)
    elif get_origin(hint) is dict and isinstance(node, tree.Mapping):
        for key, child in node.items.items():
            yield from _of_hint(child, get_args(hint)[1], (*path, key), rule, inside)
    elif isinstance(hint, type) and issubclass(hint, BaseModel):
        yield from _of_model(node, hint, path, inside)


def _rule(model: type[BaseModel], key: str, inside: frozenset[str]) -> RuleName:
    if ON_HAND in inside:
        return "exact"
    if (model, key) in BY_KIND:
        return BY_KIND[model, key]
    loose = (key == "diameter" and inside & SHAPED) or (key == "gap" and inside & LAID_OUT)
    return "free" if loose else BY_WORD.get(key, "free")


def _of_a_part(one: Written, part: tree.Mapping) -> Written:
    """The thickness of a part, and any size of it that is written alike: no more than its stock yields."""
    thick = part.items.get("thickness")
    if thick is None or _texts(thick) != _texts(one.node):
        return one
    stock = _text(part, "stock")
    called = _text(part, "sheet")
    if called:
        known = sheet(called, stock)
        sold = sheet(called, known.counterpart) if known else None
        return replace(one, rule="bought", at_most=Fraction(str(sold.true)) if sold else None)
    if dressed(stock) is not None:
        return replace(one, rule="exact")
    glued = part.items.get("glued up")
    layered = isinstance(glued, tree.Mapping) and _text(glued, "joined") == "face to face"
    rough = rough_stock(stock) if stock and not layered else None
    there = rough_stock(rough.counterpart) if rough else None
    limit = Fraction(str(there.surfaced)) if there else None
    return replace(one, rule="stock", at_most=limit)


def _text(node: tree.Mapping, key: str) -> str:
    found = node.items.get(key)
    return found.text or "" if isinstance(found, tree.Scalar) else ""
