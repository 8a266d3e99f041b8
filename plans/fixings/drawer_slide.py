"""Side-mounted drawer slides."""

from pydantic import Field

from plans.bought import Bought
from plans.fields import Length, Line, PartName, PositiveCount


class DrawerSlide(Bought):
    """Slides between the part `of` that is drawn out (the side of a drawer) and the part `on` beside it.

    The two stand apart by exactly what the slide is thick. Its middle lies along the middle of the
    strip where they face each other; its front end is `set back` from the front of that strip. Each
    half is screwed on through its own slotted holes.
    """

    of: PartName
    on: PartName
    size: Line
    set_back: Length = Field(default=0.0, alias="set back")
    count: PositiveCount | None = None
