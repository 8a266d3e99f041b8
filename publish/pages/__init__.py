"""The pages of a plan set, in the order a buyer works. A page that would be empty gives no leaf."""

from collections.abc import Callable

from publish.edition import Edition, Leaf
from publish.pages import (
    board_layouts,
    build_overview,
    cover,
    cuts,
    exploded,
    guide,
    hardware,
    history,
    joint_details,
    lumber,
    overall,
    part_sheets,
    sections,
    set_ups,
    size_table,
    step_pages,
)

PAGES: tuple[Callable[[Edition], list[Leaf]], ...] = (
    cover.leaves,
    guide.leaves,
    overall.leaves,
    sections.leaves,
    size_table.leaves,
    exploded.leaves,
    lumber.leaves,
    cuts.leaves,
    hardware.leaves,
    board_layouts.leaves,
    set_ups.leaves,
    part_sheets.leaves,
    joint_details.leaves,
    build_overview.leaves,
    step_pages.leaves,
    history.leaves,
)


def leaves(edition: Edition) -> list[Leaf]:
    """Every page of the set."""
    return [leaf for page in PAGES for leaf in page(edition)]
