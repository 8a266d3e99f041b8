"""The fit check: one file a check, one code a check."""

from collections.abc import Callable, Iterable

from model.checks import (
    board_too_long,
    caul_needed,
    cross_grain_glue,
    cross_grain_screws,
    end_grain_glue,
    fixings_clear,
    gap_closes,
    gap_narrows,
    gap_not_kept,
    glue_faces,
    heavy_part,
    little_beside_head,
    little_glue,
    little_under_head,
    locked_parts,
    loose_joint,
    may_rack,
    measured_not_found,
    mortises_meet,
    narrow_shoulder,
    nearly_flush,
    nearly_touching,
    needs_glue_up,
    not_as_built,
    not_judged,
    notch_binds,
    openings,
    order_as_written,
    panel_binds,
    panel_comes_out,
    part_not_held,
    printed_numbers,
    rings_hard_to_get,
    sags,
    same_place,
    screw_comes_out,
    screw_holds_little,
    screw_in_end_grain,
    screw_meets_part,
    screw_near_edge,
    screws_cross,
    short_grain,
    slot_short,
    small_part,
    sound_solids,
    step_disagrees,
    step_not_found,
    steps_lock,
    stock_too_thin,
    tenon_bottoms,
    tenon_short,
    thin_tenon,
    thin_wall,
    tips_over,
    two_ways_in,
    weak_notch,
)
from model.piece import Piece
from plans.problems import Problem

Check = Callable[[Piece], list[Problem]]

# space, joints, fixings and movement: what the numbers of a drawing must keep
FITS: dict[str, Check] = {
    "same-place": same_place.check,
    "fixing-in-the-way": fixings_clear.check,
    "nearly-touching": nearly_touching.check,
    "nearly-flush": nearly_flush.check,
    "glue-faces-apart": glue_faces.check,
    "blocked-opening": openings.check,
    "gap-narrows": gap_narrows.check,
    "gap-not-kept": gap_not_kept.check,
    "thin-wall": thin_wall.check,
    "mortises-meet": mortises_meet.check,
    "short-grain": short_grain.check,
    "weak-notch": weak_notch.check,
    "tenon-short": tenon_short.check,
    "tenon-bottoms": tenon_bottoms.check,
    "narrow-shoulder": narrow_shoulder.check,
    "thin-tenon": thin_tenon.check,
    "loose-joint": loose_joint.check,
    "little-glue": little_glue.check,
    "end-grain-glue": end_grain_glue.check,
    "screw-meets-part": screw_meets_part.check,
    "screws-cross": screws_cross.check,
    "screw-comes-out": screw_comes_out.check,
    "screw-holds-little": screw_holds_little.check,
    "screw-near-edge": screw_near_edge.check,
    "screw-in-end-grain": screw_in_end_grain.check,
    "little-under-head": little_under_head.check,
    "little-beside-head": little_beside_head.check,
    "gap-closes": gap_closes.check,
    "panel-binds": panel_binds.check,
    "panel-comes-out": panel_comes_out.check,
    "slot-too-short": slot_short.check,
    "cross-grain-glue": cross_grain_glue.check,
    "cross-grain-screws": cross_grain_screws.check,
    "notch-binds": notch_binds.check,
}

CHECKS: dict[str, Check] = {
    "unsound-solid": sound_solids.check,
    **FITS,
    "part-not-held": part_not_held.check,
    "stock-too-thin": stock_too_thin.check,
    "needs-glue-up": needs_glue_up.check,
    "board-too-long": board_too_long.check,
    "rings-hard-to-get": rings_hard_to_get.check,
    "small-part": small_part.check,
    "locked-parts": locked_parts.check,
    "order-as-written": order_as_written.check,
    "two-ways-in": two_ways_in.check,
    "caul-needed": caul_needed.check,
    "step-not-found": step_not_found.check,
    "steps-lock": steps_lock.check,
    "step-disagrees": step_disagrees.check,
    "measured-not-found": measured_not_found.check,
    "not-as-built": not_as_built.check,
    "sags": sags.check,
    "tips-over": tips_over.check,
    "heavy-part": heavy_part.check,
    "may-rack": may_rack.check,
    "not-judged": not_judged.check,
}


def check_fit(piece: Piece, *, as_printed: bool = True) -> tuple[Problem, ...]:
    """Every finding of every check, the checks in the order of the table; last, of the piece as its numbers print.

    A warning about parts that are in an error is left out: it may well go when the error is cured.
    """
    found = [problem for check in CHECKS.values() for problem in check(piece)]
    if as_printed and not any(problem.severity == "error" for problem in found):
        found += printed_numbers.check_with(piece, FITS, printed_numbers.keys(found))
    return tuple(without_consequences(found))


def without_consequences(problems: Iterable[Problem]) -> list[Problem]:
    """Without the warnings and notes on parts that an error is about."""
    every = list(problems)
    in_error = [set(problem.parts) for problem in every if problem.severity == "error"]
    return [
        problem
        for problem in every
        if problem.severity == "error"
        or not problem.parts
        or not any(
            set(problem.parts) <= names or (len(names) > 1 and names <= set(problem.parts)) for names in in_error
        )
    ]
