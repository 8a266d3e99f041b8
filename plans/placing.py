"""Where things stand: how a part is set, leans and is repeated, and parts that are placed as one."""

from typing import Literal

from pydantic import Field

from plans.fields import (
    Angle,
    Centred,
    Corner,
    Entry,
    Length,
    OneOrMore,
    PartName,
    PositiveCount,
    PositiveLength,
    SwingAngle,
    WrittenPosition,
)
from plans.sides import Axis, Side


class SetBy(Entry):
    """Where the outermost sides of something stand."""

    left: WrittenPosition | None = None
    right: WrittenPosition | None = None
    front: WrittenPosition | None = None
    back: WrittenPosition | None = None
    bottom: WrittenPosition | None = None
    top: WrittenPosition | None = None
    centred: Centred = Field(
        default_factory=dict,
        description="directions in which it is centred: on the piece, or on the part named "
        "(`centred: left-right`, `centred: [left-right, front-back]`, `centred: {left-right: leg}`)",
    )


class Where(SetBy):
    """Where a part stands: one statement for each of the three directions."""

    measured_at: WrittenPosition | None = Field(
        default=None, alias="measured at", description="the height at which a leaning part is measured"
    )


class Lean(Entry):
    """How far a part leans out of upright: where its foot goes, seen from the front and from the side."""

    foot_to: dict[Side, Angle] = Field(alias="foot to", min_length=1, max_length=2)


class Repeat(Entry):
    """The same again, side by side.

    `between` two places they stand with equal gaps, at both ends too; `filling` spreads them with equal gaps over a
    width; `gap` is the room between neighbours, `spacing` from centre to centre. Exactly one of the four. But for
    `between`, the row is centred where the one would stand, or begins there and runs on `from` that side.
    """

    along: Axis
    count: PositiveCount
    between: dict[Side, WrittenPosition] | None = None
    filling: PositiveLength | None = None
    gap: Length | None = None
    spacing: PositiveLength | None = None
    start: Side | None = Field(default=None, alias="from", description="the side on which the first of the row stands")


class Opens(Entry):
    """How far something opens: pulled out by a length, or swung.

    What swings turns about the pin of its hinges, or about the arris named by two of its outermost sides, and moves
    off `towards` a side.
    """

    left: PositiveLength | None = None
    right: PositiveLength | None = None
    front: PositiveLength | None = None
    back: PositiveLength | None = None
    bottom: PositiveLength | None = None
    top: PositiveLength | None = None
    angle: SwingAngle | None = None
    towards: Side | None = None
    about: Corner | None = Field(default=None, description="two sides, as in `back bottom`; not needed with hinges")

    @property
    def pulled(self) -> dict[Side, float]:
        """How far (mm) it is pulled out, by side."""
        sides: tuple[Side, ...] = ("left", "right", "front", "back", "bottom", "top")
        return {side: mm for side in sides if (mm := getattr(self, side)) is not None}


class Assembly(Entry):
    """Parts that are placed, repeated and mirrored as one: a drawer, a door, a frame.

    The first part leads: the others are centred on it, and mirrored in its middle, where else it would be the
    middle of the piece. `where` then sets the whole, direction by direction.
    """

    parts: OneOrMore[PartName] = Field(min_length=1)
    where: SetBy | None = None
    mirror: OneOrMore[Axis] = ()
    repeat: Repeat | None = None
    opens: Opens | None = None

    @property
    def lead(self) -> str:
        """The kind of part that the others are centred on."""
        return self.parts[0]

    @property
    def moved(self) -> bool:
        """Whether its parts end up elsewhere, or more often, than they were made."""
        return self.where is not None or bool(self.mirror) or self.repeat is not None


Node = tuple[Literal["parts", "assemblies"], str]  # something to be placed, by its path in the file
