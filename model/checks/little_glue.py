"""A glued joint holds by long grain on long grain: there must be enough of it."""

from __future__ import annotations

from model.checks.finding import finding, once_a_kind
from model.glue import glue_area, long_grain_area
from model.holding import depth_into
from model.piece import Piece
from plans.joints import Bridle, LooseTenon, MortiseAndTenon
from plans.problems import Problem

SHARE = 0.4  # of the section of the part that is held (rule of thumb of this house)


def check(piece: Piece) -> list[Problem]:
    """Tenons and tongues with little long-grain face for the size of their part."""
    found = []
    for joint in piece.joints:
        a, b = piece.parts[joint.a], piece.parts[joint.b]
        entry = piece.design.spec.joints[joint.number]
        if not isinstance(entry, MortiseAndTenon | Bridle | LooseTenon):
            continue
        area = long_grain_area(a, b) + (_of_loose(entry) if isinstance(entry, LooseTenon) else 0.0)
        wanted = SHARE * a.over_all[1] * a.over_all[2]
        if area >= wanted:
            continue
        # cheeks across the grain of the other part: ample to bear on, so it only has to be kept from pulling out
        bears = not isinstance(entry, LooseTenon) and glue_area(a, b) >= wanted
        found.append(
            finding(
                "little-glue",
                "note" if bears else "warning",
                f"the {joint.kind} of {a.name} and {b.name} has little long grain to glue"
                + (": it bears a load, but something else has to keep it from pulling out" if bears else ""),
                piece.design.joint_place(joint.number),
                "turn the tenon so that its cheeks lie along both grains"
                if bears
                else "make the tenon longer or wider",
                (a.name, b.name),
                f"{area:.0f} mm2 of long grain",
                f"at least {wanted:.0f} mm2",
            )
        )
    return once_a_kind(piece, found)


def _of_loose(entry: LooseTenon) -> float:
    """The cheeks of loose tenons in the part that holds them less deep (mm2)."""
    return 2.0 * entry.wide * min(depth_into(entry)) * entry.per_place
