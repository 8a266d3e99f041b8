"""The pages of a plan set, in the order a buyer works. A page that would be empty gives no leaf."""

from collections.abc import Callable

from publish.edition import Edition, Leaf
from publish.pages import part_sheets

PAGES: tuple[Callable[[Edition], list[Leaf]], ...] = (part_sheets.leaves,)


def leaves(edition: Edition) -> list[Leaf]:
    """Every page of the set."""
    return [leaf for page in PAGES for leaf in page(edition)]
