"""The end of one part let into a groove across another: a housing, or dado."""

from pydantic import Field

from plans.fields import Entry, Length, PartName, PositiveCount, PositiveLength, Side


class Housing(Entry):
    """A housing, through or stopped.

    The end (or edge) of the `of` part that is cut to the face of the `into` part goes on `deep` past that face,
    into a groove as wide as the part is thick, and open wherever the part comes to an edge of the other. With
    `stopped` the groove ends that far short of a side of the part, which is notched there to cover it. With
    `thick` only a tongue goes in, in the middle of the thickness or `flush` with one face (bare-faced).
    """

    of: PartName
    into: PartName
    deep: PositiveLength
    stopped: dict[Side, PositiveLength] = Field(
        default_factory=dict, description="how far the groove stops short of a side of the part that goes in"
    )
    thick: PositiveLength | None = Field(
        default=None, description="thickness of the tongue; the whole part unless said"
    )
    flush: Side | None = Field(default=None, description="the face a thinner tongue is flush with; centred unless said")
    fit: Length | None = Field(default=None, description="room for glue at each cheek; 0.1 mm unless said")
    relief: Length = Field(default=0.0, description="extra depth of the groove; none unless said")
    glue: bool = True
    count: PositiveCount | None = None
