"""The house style of the drawing office: papers, pens, lettering heights and spacings.

Lengths are paper millimetres unless a name ends in `_pt`. Sources: ISO 216 and ANSI Y14.1 for the papers, ISO 128 for
the 2:1 ratio of wide to narrow lines, ISO 3098 for lettering of 2.5 mm, DIN 406-11 and US practice for the 10 mm and
7.5 mm between dimension lines (ISO 129-1 carries no figure); all from memory, and common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from publish.drawing.box import Box

POINT = 25.4 / 72
"""One typographic point, mm."""

Colour = tuple[float, float, float]
"""Red, green, blue, each 0 to 1."""

BLACK: Colour = (0.0, 0.0, 0.0)
GREY: Colour = (0.38, 0.38, 0.38)
WHITE: Colour = (1.0, 1.0, 1.0)
CAUTION: Colour = (0.70, 0.24, 0.05)

Projection = Literal["third", "first"]
Reading = Literal["upright", "aligned"]


def points(value: float) -> float:
    """`value` typographic points in mm."""
    return value * POINT


@dataclass(frozen=True)
class Paper:
    """A sheet of paper, landscape, in points, as the page box of a PDF states it."""

    name: str
    width_pt: float
    height_pt: float

    @property
    def width(self) -> float:
        """Width, mm."""
        return self.width_pt * POINT

    @property
    def height(self) -> float:
        """Height, mm."""
        return self.height_pt * POINT

    @property
    def box(self) -> Box:
        """The whole sheet, mm."""
        return Box(0.0, 0.0, self.width, self.height)

    def turned(self) -> Paper:
        """The same paper the other way up."""
        return Paper(self.name, self.height_pt, self.width_pt)


LETTER = Paper("Letter", 792.0, 612.0)
TABLOID = Paper("Tabloid", 1224.0, 792.0)
A4 = Paper("A4", 841.890, 595.276)
A3 = Paper("A3", 1190.551, 841.890)


NARROW, WIDE, FRAME = 0.18, 0.36, 0.5
"""Line widths, mm: nothing thinner than `NARROW`, the least of the standard, comes whole out of a copier."""


@dataclass(frozen=True)
class Pen:
    """How a line is drawn: width mm, never below `NARROW`, colour, dash lengths mm (empty: unbroken)."""

    width: float
    colour: Colour = BLACK
    dash: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        """Hold the least width, whoever made the pen."""
        object.__setattr__(self, "width", max(self.width, NARROW))


def _pen(width: float, grey: float = 0.0, dash_pt: tuple[float, ...] = ()) -> Pen:
    return Pen(width, (grey, grey, grey), tuple(points(d) for d in dash_pt))


@dataclass(frozen=True)
class Pens:
    """The lines of the house; visible to dimension is 2:1, and none is thinner than 0.18 mm, as ISO 128 asks."""

    visible: Pen
    pictorial: Pen
    hidden: Pen
    dimension: Pen
    centre: Pen
    smooth: Pen
    explosion: Pen
    fraction_bar: Pen
    rule: Pen
    cell: Pen
    balloon: Pen
    leader: Pen
    frame: Pen


HOUSE_PENS = Pens(
    visible=_pen(WIDE),
    pictorial=_pen(0.28),
    hidden=_pen(NARROW, 0.35, (3.2, 1.8)),
    dimension=_pen(NARROW),
    centre=_pen(NARROW, 0.0, (9.0, 1.8, 1.8, 1.8)),
    smooth=_pen(NARROW, 0.55),
    explosion=_pen(NARROW, 0.35, (7.0, 2.0, 1.2, 2.0)),
    fraction_bar=_pen(NARROW),
    rule=_pen(NARROW, 0.55),
    cell=_pen(0.21),
    balloon=_pen(0.32),
    leader=_pen(NARROW),
    frame=_pen(FRAME),
)


@dataclass(frozen=True)
class Lettering:
    """Font sizes (the em, mm). The face's capitals are 0.66 em: `dimension` gives capitals of 2.5 mm (ISO 3098)."""

    dimension: float = 2.5 / 0.66
    callout: float = 2.5 / 0.66
    body: float = points(10.5)
    small: float = points(8.5)
    caption: float = points(6.5)
    value: float = points(11.0)
    sheet_title: float = points(14.0)
    heading: float = points(12.5)
    page_title: float = points(17.0)
    cover_title: float = points(30.0)
    balloon: float = points(11.0)
    leading: float = 1.36
    also_scale: float = 0.84


@dataclass(frozen=True)
class Spacing:
    """Distances round a view, mm. `tight_*` are the least allowed where the house's own do not fit."""

    first_row: float = 10.0
    next_row: float = 7.5
    tight_first_row: float = 8.0
    tight_next_row: float = 6.5
    extension_gap: float = points(2.0)
    extension_overshoot: float = points(5.0)
    arrow_length: float = points(6.9)
    arrow_width: float = points(2.3)
    arrows_outside_below: float = points(16.0)
    arrow_tail: float = points(8.0)
    text_gap: float = 0.9
    text_clearance: float = 0.75
    leader_landing: float = 3.0
    frame_margin: float = points(28.0)
    title_block_height: float = points(46.0)
    frame_padding: float = 5.0
    balloon_radius: float = 4.2
    anchor_dot: float = 0.55


@dataclass(frozen=True)
class Colours:
    """What a maker may colour: headings and titles, and the bands behind the heads of tables."""

    headings: Colour = BLACK
    bands: Colour = (0.93, 0.93, 0.92)


@dataclass(frozen=True)
class Logo:
    """A picture: `pixels` is rows of 8-bit RGB from the top, `columns` x `rows`."""

    columns: int
    rows: int
    pixels: bytes

    def within(self, width: float, height: float) -> tuple[float, float]:
        """Its width and height (mm), as large as fits."""
        scale = min(width / self.columns, height / self.rows)
        return self.columns * scale, self.rows * scale


@dataclass(frozen=True)
class Imprint:
    """The maker's own words and picture on every sheet."""

    name: str = ""
    licence: str = ""
    logo: Logo | None = None


@dataclass(frozen=True)
class HouseStyle:
    """Everything that makes a sheet look like ours, or like the maker's; one object, handed down."""

    pens: Pens = HOUSE_PENS
    lettering: Lettering = Lettering()
    spacing: Spacing = Spacing()
    colours: Colours = Colours()
    imprint: Imprint = Imprint()
    reading: Reading = "upright"
    """Values on vertical dimension lines: "upright" (all read from the bottom) or "aligned" (from the right)."""


HOUSE = HouseStyle()
