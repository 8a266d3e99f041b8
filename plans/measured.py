"""The piece as it was built: what the maker measured on it, and what was done differently.

measured:
  - {size: leg.length, is: 17 3/16}
  - {between: [long rail.bottom, floor], is: 13 3/4, give or take: 1/16}
  - {overall: height, is: 17 3/8, decided: note}
did differently:
  - {what: "The cross bearer is let in from below.", decided: note}
"""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from plans.fields import (
    Entry,
    Length,
    PartName,
    Position,
    PositiveLength,
    Words,
    WrittenPosition,
    WrittenSize,
)
from plans.kinds import refused
from plans.sides import SIDE_AXIS, Axis
from plans.units import INCH, System

# half of the smallest division of a tape, which is as near as one reads it (common practice)
READ_TO: dict[System, float] = {"inch": float(INCH) / 32, "mm": 0.5}  # mm

Decision = Literal["adopt", "note", "slip"]
Overall = Literal["width", "depth", "height"]
DECIDED = Field(
    default=None,
    description="what is made of the difference: the design is to follow (`adopt`), the buyer is told (`note`), "
    "or the piece was made wrong there (`slip`)",
)


def _from_0(mm: float) -> float:
    if mm < 0:
        raise refused("wrong-size", "what is measured cannot be below 0", "measure from one side to the other")
    return mm


def _two(places: tuple[Position, ...]) -> tuple[Position, ...]:
    if len(places) != 2:
        raise refused("wrong-value", "a distance is measured between two places", "as in `[rail.top, floor]`")
    return places


Distance = Annotated[Length, AfterValidator(_from_0)]


class Measured(Entry):
    """One thing measured on the finished piece: a size of a part, the distance between two sides, or a size over all.

    Of several sizes of one name on a part, `meets` and `along` say which is meant.
    """

    size: WrittenSize | None = Field(default=None, description="a size of a part, as `leg.length`")
    between: Annotated[tuple[WrittenPosition, ...], AfterValidator(_two)] | None = Field(
        default=None,
        description="two places, as `[rail.top, floor]`",
        json_schema_extra={"minItems": 2, "maxItems": 2},
    )
    overall: Overall | None = Field(default=None, description="a size of the whole piece")
    value: Distance = Field(alias="is", description="what was measured")
    give_or_take: PositiveLength | None = Field(
        default=None,
        alias="give or take",
        description="how far the measuring may be out; 1/32 in or 0.5 mm unless said",
    )
    meets: PartName | None = Field(default=None, description="of a joint: the part it is with")
    along: Axis | None = Field(default=None, description="the direction in which the size runs")
    measured_at: Length | None = Field(
        default=None, alias="measured at", description="the height at which leaning sides are measured"
    )
    decided: Decision | None = DECIDED
    note: Words | None = Field(default=None, description="your words about it")

    @model_validator(mode="after")
    def _one_place(self) -> "Measured":
        if sum(said is not None for said in (self.size, self.between, self.overall)) != 1:
            raise refused(
                "measured-needs-one",
                "one place is measured here",
                "say `size: leg.length`, `between: [rail.top, floor]`, or `overall: height`",
            )
        for key, wrong, cure in (
            ("meets", self.meets is not None and self.size is None, "say it of a `size`"),
            ("along", self.along is not None and self.size is None, "say it of a `size`"),
            ("measured at", self.measured_at is not None and self.between is None, "say it of `between`"),
        ):
            if wrong:
                raise refused("wrong-value", f"`{key}` does not go with this place", cure)
        return self

    @property
    def axis(self) -> Axis | None:
        """The direction in which the two places of `between` lie apart."""
        sides = [term.side for place in self.between or () for term in place.terms]
        return SIDE_AXIS[sides[0]] if sides else None

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of part it is measured on; none for the piece over all."""
        named = [self.size.part] if self.size else [t.part for place in self.between or () for t in place.terms]
        return tuple(dict.fromkeys(named))

    def tolerance(self, units: System) -> float:
        """How far the measuring may be out (mm), as said or as one reads a tape of those units."""
        return READ_TO[units] if self.give_or_take is None else self.give_or_take


class DidDifferently(Entry):
    """Something made otherwise than the design says, in words."""

    what: Words
    decided: Decision | None = DECIDED
