"""The counting: what to buy. Everything is taken off the piece; nothing is typed."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from model.cut_list import CutRow, cut_list
from model.glue import glue_area
from model.glued_up import glue_lines
from model.piece import Part, Piece
from plans.library import dressed, material, rough_stock, sheet, species
from plans.spec import PartSpec

BOARD_FOOT = 144 * 25.4**3  # mm3: 12 x 12 x 1 in (NHLA)


@dataclass(frozen=True)
class SheetRow:
    """Sheet goods of one kind and nominal thickness; `area` of the parts in mm2."""

    name: str
    nominal: str
    true: float
    pieces: int
    area: float


@dataclass(frozen=True)
class LumberRow:
    """Wood to buy of one kind and rough thickness: net of the rough sizes, and with the allowance for waste."""

    wood: str
    stock: str
    pieces: int
    longest: float
    widest: float
    board_feet: float
    board_feet_with_waste: float
    cubic_metres: float
    cubic_metres_with_waste: float


@dataclass(frozen=True)
class HardwareRow:
    """Fixings of one size, or one thing bought."""

    what: str
    count: int
    values: dict[str, float | str | int | None]
    note: str = ""
    finish: str = ""


def lumber(piece: Piece) -> tuple[LumberRow, ...]:
    """Wood to buy, by kind and rough thickness. Board feet by the NHLA rule: under 1 in thick counts as 1 in."""
    rows: dict[tuple[str, str], list[CutRow]] = {}
    for row in cut_list(piece):
        if row.solid and row.sawn:
            rows.setdefault((row.wood, row.stock or "to suit"), []).append(row)
    return tuple(_lumber_row(wood, stock, found, piece.design.spec.waste) for (wood, stock), found in rows.items())


def _lumber_row(wood: str, stock: str, rows: list[CutRow], waste: int) -> LumberRow:
    feet = cubic = 0.0
    for row in rows:
        face = sum(blank.width * blank.length * blank.count for blank in row.blanks)
        more_feet, more_cubic = measure_of(face, stock, row.thickness)
        feet, cubic = feet + more_feet, cubic + more_cubic
    more = 1 + waste / 100
    pieces = sum(row.item.quantity for row in rows)
    longest, widest = max(row.rough_length for row in rows), max(row.rough_width for row in rows)
    return LumberRow(wood, stock, pieces, longest, widest, feet, feet * more, cubic, cubic * more)


def measure_of(face: float, stock: str, thickness: float) -> tuple[float, float]:
    """Board feet and cubic metres of boards with a face of so many mm2; `thickness` where their stock is not known.

    Planed softwood is measured by its nominal size (PS 20).
    """
    known, planed = rough_stock(stock), dressed(stock)
    rough = planed.thickness if planed else known.rough if known else thickness
    share = planed.nominal[0] * planed.nominal[1] / planed.width if planed else max(rough, 25.4)
    return face * share / BOARD_FOOT, face * rough / 1e9


def sheet_goods(piece: Piece) -> tuple[SheetRow, ...]:
    """Sheet goods to buy, by kind and nominal thickness; how many sheets that takes is a matter of their layout."""
    rows: dict[tuple[str, str], list[CutRow]] = {}
    for row in cut_list(piece):
        if row.sheet:
            rows.setdefault((row.wood, row.stock or ""), []).append(row)
    return tuple(
        SheetRow(
            name,
            nominal,
            found[0].thickness,
            sum(row.item.quantity for row in found),
            sum(row.width * row.length * row.item.quantity for row in found),
        )
        for (name, nominal), found in rows.items()
    )


def hardware(piece: Piece) -> tuple[HardwareRow, ...]:
    """Fixings by size, then the loose pieces of the joints, then what the design says to buy."""
    count: Counter[tuple[str, str, tuple[tuple[str, object], ...]]] = Counter()
    for fixing in piece.fixings:
        finish = piece.design.spec.fixings[fixing.number].finish or ""
        count[fixing.kind, finish, tuple(sorted(fixing.values.items(), key=lambda pair: pair[0]))] += len(fixing.points)
    rows = [HardwareRow(kind, n, dict(values), finish=finish) for (kind, finish, values), n in count.items()]  # type: ignore[arg-type]
    rows += _loose_rows(piece)
    rows += [HardwareRow(supply.item, supply.count, {}, supply.note) for supply in piece.design.spec.supplies]
    return tuple(rows)


def _loose_rows(piece: Piece) -> list[HardwareRow]:
    """Pegs, dowels and the like, those of one size together (sizes to 0.01 mm: they come off many joints)."""
    count: Counter[tuple[str, tuple[tuple[str, float | str | int | None], ...]]] = Counter()
    for loose in (loose for joint in piece.joints for loose in joint.loose):
        values = {key: round(value, 2) if isinstance(value, float) else value for key, value in loose.values.items()}
        count[loose.what, tuple(sorted(values.items()))] += loose.count
    return [HardwareRow(what, number, dict(values)) for (what, values), number in count.items()]


def glue_total(piece: Piece) -> float:
    """Area for the glue of the design, all joints together, those between the boards of a part among them (mm2)."""
    joints = sum(glue_area(piece.parts[j.a], piece.parts[j.b]) for j in piece.joints if j.glued and not j.adhesive)
    return joints + sum(glue_lines(part) for part in piece.parts.values())


def adhesives(piece: Piece) -> dict[str, int]:
    """Every adhesive that is not the glue of the design, and how many joints it sticks."""
    return dict(Counter(joint.adhesive for joint in piece.joints if joint.adhesive))


def finish_area(piece: Piece) -> float:
    """Surface of all parts (mm2)."""
    return sum(part.eased_area for part in piece.parts.values())


def mass(part: Part) -> float | None:
    """Mass in kg, of wood at 12 % moisture; None for what is not in the tables."""
    known = density_of(part.spec)
    return None if known is None else part.eased_volume / 1e9 * known


def density_of(spec: PartSpec) -> float | None:
    """In kg/m3: what the design says of it, else what the tables do."""
    if spec.density is not None:
        return spec.density
    if spec.sheet is not None:
        board = sheet(spec.sheet, spec.stock)
        return None if board is None else board.density
    if spec.material is not None:
        known = material(spec.material)
        return None if known is None else known.density
    wood = species(spec.wood)
    return None if wood is None else wood.density()


def total_mass(piece: Piece) -> float | None:
    """Mass of the whole piece in kg; None where the wood of a part is not in the table."""
    masses = [mass(part) for part in piece.parts.values()]
    return None if None in masses else sum(m for m in masses if m is not None)
