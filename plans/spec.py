"""What a design file may say: the whole schema, in the order a maker writes it."""

from math import inf
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, WithJsonSchema, model_validator

from plans.fields import (
    Day,
    Density,
    Entry,
    Gaps,
    Length,
    Line,
    Mark,
    NamedValues,
    OneOrMore,
    PartName,
    PositiveCount,
    PositiveLength,
    Words,
    WrittenCut,
)
from plans.fixings import FIXINGS, Fixing
from plans.glued_up import GluedUp
from plans.house import HouseSpec, InAFile
from plans.joints import JOINTS, Joint
from plans.kinds import SaidByKind, refused
from plans.measured import DidDifferently, Measured
from plans.own_steps import OwnStep
from plans.placing import Assembly, Lean, Repeat, Where
from plans.prices import Prices
from plans.shaping import SHAPINGS, Shaping
from plans.sides import Axis, Side, third_axis

JointEntry = Annotated[Joint, SaidByKind(JOINTS, "joint")]
FixingEntry = Annotated[Fixing, SaidByKind(FIXINGS, "fixing")]
ShapingEntry = Annotated[Shaping, SaidByKind(SHAPINGS, "shaping")]

# editors take a bare 0.5 for a number
FinestMm = Annotated[Literal["0.5", "1"], WithJsonSchema({"enum": ["0.5", "1", 0.5, 1]})]
Conversion = Literal["soft", "hard"]
Percent = Annotated[float, Field(ge=0, le=30)]
Weight = Annotated[float, Field(gt=0, le=5000)]
Rings = Literal["flat", "rift", "quarter", "any"]
Direction = Literal["length", "width"]


class PartSpec(Entry):
    """One kind of part, of one of `wood`, `sheet` (plywood, MDF, hardboard) and `material` (stone, glass, metal)."""

    wood: str = Field(default="", max_length=120)
    sheet: Line | None = Field(default=None, description="sheet goods: plywood, MDF, hardboard")
    material: Line | None = Field(default=None, description="neither wood nor sheet goods: stone, glass, metal")
    density: Density | None = Field(default=None, description="in kg/m3, of a material that is not in the table")
    supplied: bool = Field(default=False, description="made by others: it is bought, and not cut")
    rings: Rings = "any"
    stock: str | None = Field(
        default=None,
        description="rough thickness it is milled from: 4/4; a dressed size: 2x4; of a sheet, its nominal thickness",
    )
    glued_up: GluedUp | None = Field(default=None, alias="glued up", description="the boards it is made of")
    runs: Axis = Field(description="the way the grain, and its length, runs")
    thick: Axis = Field(description="the way its thickness is measured")
    length: PositiveLength | None = None
    width: PositiveLength | None = None
    thickness: PositiveLength | None = None
    where: Where
    lean: Lean | None = None
    follows: PartName | None = Field(default=None, description="leans as that part does, round the way this one runs")
    cut_to: dict[Side, WrittenCut] = Field(default_factory=dict, alias="cut to")
    gap: Gaps = Field(default_factory=dict, description="how far it ends short of what it is cut to")
    shaping: tuple[ShapingEntry, ...] = ()
    mirror: OneOrMore[Axis] = ()
    repeat: Repeat | None = None
    show_face: Side | None = Field(default=None, alias="show face")
    from_one_board: Line | None = Field(
        default=None, alias="from one board", description="a word; all parts that say the same one match in grain"
    )
    marked_to_fit: OneOrMore[Direction] = Field(
        default=(), alias="marked to fit", description="sizes that are marked in their place; cut a little over first"
    )
    note: str = ""

    @property
    def made_of(self) -> str:
        """Its wood, sheet or material."""
        return self.wood or self.sheet or self.material or ""

    @property
    def wide(self) -> Axis:
        """The way its width is measured."""
        return third_axis(self.runs, self.thick)

    def size(self, axis: Axis) -> float | None:
        """Its stated size along a direction (mm); nothing where it follows from what it is cut to."""
        return {self.runs: self.length, self.thick: self.thickness}.get(axis, self.width)

    @property
    def width_at_most(self) -> float:
        """The stated width (mm); no limit where it follows from what the part is cut to."""
        return inf if self.width is None else self.width

    @property
    def thickness_at_most(self) -> float:
        """The stated thickness (mm); no limit where it follows from what the part is cut to."""
        return inf if self.thickness is None else self.thickness

    @property
    def has_face_grain(self) -> bool:
        """Whether it is of sheet goods with a veneer on either face."""
        return self.sheet is not None and "plywood" in self.sheet.lower()


class Supply(Entry):
    """Something bought and not drawn: hooks, plugs, felt pads."""

    item: Line
    count: PositiveCount
    note: str = ""


class Across(Entry):
    """How far a defect reaches across a board, from its lower edge as the layout lies."""

    start: Length = Field(alias="from")
    end: Length = Field(alias="to")


class Defect(Entry):
    """A stretch of a board that is cut out: a knot, a split, sapwood; over the whole width unless `across` is said."""

    start: Length = Field(alias="from", description="from the left end of the board")
    end: Length = Field(alias="to")
    across: Across | None = None


class BoardSpec(Entry):
    """Boards the maker can get, or has; `count` of them, as many as it takes where none is said."""

    stock: str = Field(description="rough thickness: 4/4, 8/4")
    wood: str | None = Field(default=None, description="of that wood only")
    width: PositiveLength
    length: PositiveLength
    count: PositiveCount | None = None
    on_hand: bool = Field(default=False, alias="on hand", description="used before any is bought")
    defects: tuple[Defect, ...] = ()


class Saw(Entry):
    """How boards are broken down."""

    kerf: Length = Field(default=25.4 / 8, description="what the saw takes; 1/8 in or 3 mm unless said")
    end_trim: Length = Field(
        default=25.4, alias="end trim", description="cut off each end first; 1 in or 25 mm unless said"
    )
    edge_allowance: Length = Field(
        default=25.4 / 4, alias="edge allowance", description="left on a width for jointing; 1/4 in or 6 mm unless said"
    )
    end_allowance: Length = Field(
        default=25.4, alias="end allowance", description="left on a length for squaring; 1 in or 25 mm unless said"
    )
    least_offcut_length: Length = Field(
        default=304.8, alias="least offcut length", description="worth keeping from here"
    )
    least_offcut_width: Length = Field(default=50.8, alias="least offcut width", description="worth keeping from here")
    first: Literal["rip", "crosscut"] = "rip"
    stages: int = Field(default=3, ge=2, le=4, description="how often sheets are cut the other way; 3 unless said")


# what stands for the defaults of a saw where one measures in millimetres (common practice, as those are)
METRIC_SAW = {
    "kerf": "3 mm",
    "end trim": "25 mm",
    "edge allowance": "6 mm",
    "end allowance": "25 mm",
    "least offcut length": "300 mm",
    "least offcut width": "50 mm",
}


class RevisionNote(Entry):
    """One line of the revision history."""

    revision: PositiveCount
    date: Day
    what: Words


class Finish(Entry):
    """What goes on the surface."""

    name: Line
    coats: PositiveCount = 1
    note: str = ""


class Moisture(Entry):
    """The moisture the wood may come to in use, per cent of its dry weight, driest and dampest."""

    driest: Percent = Field(alias="from")
    dampest: Percent = Field(alias="to")

    @model_validator(mode="after")
    def _in_order(self) -> "Moisture":
        if self.driest >= self.dampest:
            raise refused("wrong-size", "`from` must be below `to`", "say the driest first, as in `{from: 6, to: 11}`")
        return self


class Air(Entry):
    """The air of a season: its temperature, in one scale or the other, and its relative humidity in per cent."""

    celsius: float | None = Field(default=None, ge=-30, le=60)
    fahrenheit: float | None = Field(default=None, ge=-22, le=140)
    humidity: float = Field(ge=5, le=95)

    @model_validator(mode="after")
    def _one_scale(self) -> "Air":
        if (self.celsius is None) == (self.fahrenheit is None):
            raise refused("wrong-value", "the temperature is needed once", "say `celsius` or `fahrenheit`")
        return self


class Climate(Entry):
    """Where the piece will stand: the air of its driest and of its dampest season."""

    dry: Air
    damp: Air


class Load(Entry):
    """What a kind of part has to carry: a weight, which all parts of the kind share alike, or so much on each area."""

    part: PartName
    pounds: Weight | None = None
    kilograms: Weight | None = None
    pounds_per_square_foot: Weight | None = Field(default=None, alias="pounds per square foot")
    kilograms_per_square_metre: Weight | None = Field(default=None, alias="kilograms per square metre")
    at: Literal["spread", "middle"] = "spread"

    @model_validator(mode="after")
    def _one_weight(self) -> "Load":
        said = (self.pounds, self.kilograms, self.pounds_per_square_foot, self.kilograms_per_square_metre)
        if sum(weight is not None for weight in said) != 1:
            raise refused("wrong-value", "one weight is needed here", "say `pounds: 200`, or `kilograms: 90`")
        return self


def _once_each(marks: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    every = [letters for of_kind in marks.values() for letters in of_kind]
    if len(set(every)) < len(every):
        raise refused("wrong-value", "a letter stands for two kinds of part", "give each a letter of its own")
    return marks


Marks = Annotated[dict[PartName, OneOrMore[Mark]], AfterValidator(_once_each)]


class DesignSpec(Entry):
    """A design file. (`lengths`, `angles` and `counts` are read first: they are the scope.)"""

    plan: Line
    revision: PositiveCount
    date: Day
    maker: Line
    about: str = ""
    licence: str = ""
    house: Annotated[HouseSpec | None, InAFile()] = Field(
        default=None, description="the maker's own name, logo, colours, licence line and prices, or their file"
    )
    units: Literal["inch", "mm"]
    other_units: Conversion = Field(
        default="soft",
        alias="other units",
        description="the edition in the other units: `soft` shows the same piece, `hard` re-makes it in natural sizes",
    )
    finest: Literal["1/8", "1/16", "1/32", "1/64"] = Field(default="1/16", description="finest step printed in inches")
    finest_mm: FinestMm = Field(default="0.5", alias="finest mm", description="finest step printed in millimetres")
    projection: Literal["third angle", "first angle"] = "third angle"
    lengths: NamedValues = Field(default_factory=dict)
    angles: NamedValues = Field(default_factory=dict)
    counts: NamedValues = Field(default_factory=dict)
    sizes: dict[Line, dict[str, Any]] = Field(
        default_factory=dict, description="other sizes by name: values that differ, and kinds of part to `leave out`"
    )
    wood: str = Field(default="", max_length=120, description="of every part that does not say what it is made of")
    parts: dict[str, PartSpec] = Field(min_length=1)
    assemblies: dict[str, Assembly] = Field(default_factory=dict)
    joints: tuple[JointEntry, ...] = ()
    fixings: tuple[FixingEntry, ...] = ()
    supplies: tuple[Supply, ...] = ()
    steps: tuple[OwnStep, ...] = Field(default=(), description="your own hand in the steps: pinned, reworded, added")
    glue: str = ""
    finish: Finish | None = None
    boards: tuple[BoardSpec, ...] = ()
    saw: Saw = Field(default_factory=Saw)
    stands: Literal["on the floor", "on the wall"] = "on the floor"
    moisture: Moisture | None = Field(default=None, description="moisture of the wood in use, 6 to 11 % unless said")
    climate: Climate | None = Field(default=None, description="the air it will stand in, instead of `moisture`")
    loads: tuple[Load, ...] = ()
    waste: PositiveCount = Field(default=20, description="allowance for waste, per cent, added to the lumber to buy")
    prices: Prices | None = Field(default=None, description="what the maker paid or was asked, for a cost estimate")
    revisions: tuple[RevisionNote, ...] = ()
    measured: tuple[Measured, ...] = Field(default=(), description="what was measured on the finished piece")
    did_differently: tuple[DidDifferently, ...] = Field(
        default=(), alias="did differently", description="what was made otherwise than the design says, in words"
    )
    marks: Marks = Field(
        default_factory=dict,
        description="letters that kinds of part keep from earlier revisions; of several forms, in their order",
    )
