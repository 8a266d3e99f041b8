"""One edition of a plan set: the piece and its pictures, in one unit system on one paper. Pages are made from it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Literal

from model.piece import Item, Piece
from model.sizes import SizeMade
from model.steps import Step
from plans.units import UnitSystem, inches, millimetres
from publish.drawing.box import Box
from publish.drawing.imprint import licence_line
from publish.drawing.records import Record, Sheet
from publish.drawing.style import A4, HOUSE, LETTER, HouseStyle, Paper, Projection
from publish.drawing.title_block import Framed, SheetInfo, frame, text_page
from publish.drawn import Drawn

PAPERS: dict[str, Paper] = {"inch": LETTER, "mm": A4}
UNIT_WORDS: dict[str, str] = {"inch": "Dimensions in inches", "mm": "Dimensions in millimetres"}
PROJECTIONS: dict[str, Projection] = {"third angle": "third", "first angle": "first"}
Surround = Literal["drawing", "text", "bare"]


@dataclass(frozen=True)
class Leaf:
    """A page before it knows its number: its content and what its title block is to say."""

    key: str
    title: str
    body: tuple[Record, ...]
    info: SheetInfo
    surround: Surround = "text"
    level: int | None = 0


@dataclass(frozen=True)
class Edition:
    """What every page needs."""

    piece: Piece
    steps: tuple[Step, ...]
    drawn: Drawn
    units: UnitSystem
    style: HouseStyle = HOUSE
    sizes: tuple[SizeMade, ...] = ()  # this one first; none where the design comes in one size

    @property
    def paper(self) -> Paper:
        """The paper of this unit system."""
        return PAPERS[self.units.name]

    @property
    def projection(self) -> Projection:
        """Third or first angle, as the design says."""
        return PROJECTIONS[self.piece.design.spec.projection]

    @cached_property
    def text_area(self) -> Box:
        """Where the content of a page of text goes."""
        return text_page(self.info("", ""), self.paper, self.style).free

    @cached_property
    def drawing_area(self) -> Box:
        """Where the content of a drawing sheet goes."""
        return frame(self.info("", ""), self.paper, self.style).free

    def mark_corner(self, mark: str) -> tuple[Box, ...]:
        """What the mark in the corner of a drawing sheet takes of its area."""
        return frame(self.info("", "", mark=mark), self.paper, self.style).obstacles

    def info(self, title: str, caption: str, **fields: str) -> SheetInfo:
        """The title block of a page; sheet numbers come at the end."""
        spec = self.piece.design.spec
        info = SheetInfo(
            title=title,
            project=spec.plan,
            sheet=0,
            sheets=0,
            units=UNIT_WORDS[self.units.name],
            revision=str(spec.revision),
            maker=self.style.imprint.name or spec.maker,
            caption=caption,
            projection=self.projection,
        )
        return replace(info, **fields)  # type: ignore[arg-type]

    def number(self, mm: float) -> str:
        """A length as printed, without its unit."""
        return self.units.length(mm)

    def measure(self, mm: float) -> str:
        """A length as printed, with its unit."""
        return f"{self.units.length(mm)} {self.units.suffix}"

    def drill(self, mm: float) -> str:
        """A drill size: drills are sold in steps of 1/64 in and 0.5 mm, whatever step the lengths are printed to."""
        return inches(mm, Fraction(1, 64)) if self.units.name == "inch" else millimetres(mm, Fraction(1, 2))

    def part_sheet(self, item: Item) -> str:
        """The key of the sheet a part is drawn on."""
        return f"part-{item.mark}"


def sheets(edition: Edition, leaves: list[Leaf], of: int | None = None) -> list[Sheet]:
    """Number the pages and put the frame round each; `of`: how many there are, where others follow."""
    made = []
    for number, leaf in enumerate(leaves, start=1):
        info = replace(leaf.info, sheet=number, sheets=of or len(leaves))
        framed = _surround(edition, leaf, info)
        around = framed.records if framed else tuple(licence_line(edition.paper, edition.style))
        records = (*around, *leaf.body)
        made.append(Sheet(leaf.key, leaf.title, edition.paper, records, leaf.level, str(number)))
    return made


def _surround(edition: Edition, leaf: Leaf, info: SheetInfo) -> Framed | None:
    if leaf.surround == "drawing":
        return frame(info, edition.paper, edition.style)
    if leaf.surround == "text":
        return text_page(info, edition.paper, edition.style)
    return None
