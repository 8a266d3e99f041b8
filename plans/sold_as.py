"""What is bought by a name, and the name of its counterpart where the other unit system is used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plans import tree
from plans.fixings import FIXINGS, SIZE_TABLES, WoodScrew
from plans.library import bought, metric_screw, rough_stock, screw, sheet
from plans.library.hardware import NONE
from plans.natural import spelled
from plans.number_kinds import ON_HAND
from plans.quantities import Refusal
from plans.scope import Scope
from plans.source import KeyPath
from plans.units import System


@dataclass(frozen=True)
class Sold:
    """A name in the file that is another one in the other system; `key` where its field is another one, too."""

    path: KeyPath
    node: tree.Scalar
    now: str
    key: str | None = None


def sold_as(root: tree.Mapping, scope: Scope, system: System) -> Iterator[Sold]:
    """Every name of stock, sheets and hardware that is another in `system`; what has no counterpart there stays."""
    parts = root.items.get("parts")
    for name, part in (parts.items if isinstance(parts, tree.Mapping) else {}).items():
        yield from _stock(("parts", name), part, system)
    for number, board in enumerate(_listed(root, "boards")):
        if isinstance(board, tree.Mapping) and ON_HAND not in board.items:
            yield from _stock(("boards", number), board, system)
    for number, entry in enumerate(_listed(root, "fixings")):
        if isinstance(entry, tree.Mapping) and len(entry.items) == 1:
            ((kind, fields),) = entry.items.items()
            if kind in FIXINGS and isinstance(fields, tree.Mapping):
                path: KeyPath = ("fixings", number, kind)
                found = _screw if FIXINGS[kind] is WoodScrew else _size
                yield from found(path, kind, fields, scope, system)


def _listed(root: tree.Mapping, section: str) -> tuple[tree.Node, ...]:
    found = root.items.get(section)
    return found.items if isinstance(found, tree.Sequence) else ()


def _stock(path: KeyPath, entry: tree.Node, system: System) -> Iterator[Sold]:
    """Rough thickness, or the nominal one of a sheet (`wood` in a list of boards names sheets too)."""
    if not isinstance(entry, tree.Mapping):
        return
    node = entry.items.get("stock")
    if not isinstance(node, tree.Scalar) or node.text is None:
        return
    called = next((one.text for key in ("sheet", "wood") if isinstance(one := entry.items.get(key), tree.Scalar)), None)
    known = (called and sheet(called, node.text)) or rough_stock(node.text)
    if known and known.system != system:
        yield Sold((*path, "stock"), node, known.counterpart)


def _size(path: KeyPath, kind: str, fields: tree.Mapping, scope: Scope, system: System) -> Iterator[Sold]:
    node = fields.items.get("size")
    if FIXINGS[kind] not in SIZE_TABLES or not isinstance(node, tree.Scalar) or node.text is None:
        return
    known = bought(SIZE_TABLES[FIXINGS[kind]], node.text)
    there = (known.inch if system == "inch" else known.mm) if known else NONE
    if known and there != NONE and there not in (node.text, NONE):
        yield Sold((*path, "size"), node, there)


def _screw(path: KeyPath, kind: str, fields: tree.Mapping, scope: Scope, system: System) -> Iterator[Sold]:
    """A wood screw goes by its gauge, or by its diameter."""
    field = "gauge" if system == "mm" else "diameter"
    node = fields.items.get(field)
    if not isinstance(node, tree.Scalar):
        return
    try:
        value = scope.number(node.text, "plain" if field == "gauge" else "length").value
    except Refusal:
        return  # told where it is read
    if field == "gauge" and (known := screw(int(value))):
        yield Sold((*path, field), node, spelled(Fraction(str(known.metric_diameter)), "mm"), "diameter")
    elif field == "diameter" and (known := metric_screw(float(value))):
        yield Sold((*path, field), node, str(known.gauge), "gauge")
