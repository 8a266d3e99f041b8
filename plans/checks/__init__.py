"""What can be checked without building the piece. One file a subject; each gives problems, none raises."""

from collections.abc import Callable, Iterator

from plans.checks.assemblies import check_assemblies
from plans.checks.boards import check_board_list, check_from_one_board, check_glued_up
from plans.checks.directions import check_directions
from plans.checks.edges import check_edges
from plans.checks.fixings import check_fixings
from plans.checks.joinery import check_joinery
from plans.checks.materials import check_materials
from plans.checks.measured import check_measured
from plans.checks.own_steps import check_own_steps
from plans.checks.paper import check_paper
from plans.checks.prices import check_prices
from plans.checks.reading import Reading
from plans.checks.shapes import check_shapes
from plans.problems import Problem

CHECKS: tuple[Callable[[Reading], Iterator[Problem]], ...] = (
    check_directions,
    check_assemblies,
    check_shapes,
    check_edges,
    check_joinery,
    check_fixings,
    check_materials,
    check_paper,
    check_glued_up,
    check_from_one_board,
    check_board_list,
    check_prices,
    check_own_steps,
    check_measured,
)


def check_reading(reading: Reading) -> list[Problem]:
    """Every finding of every check."""
    return [problem for check in CHECKS for problem in check(reading)]


__all__ = ["CHECKS", "Reading", "check_reading"]
