"""What holds a table top to its frame and lets it move."""

from typing import Literal

from pydantic import Field

from plans.bought import Bought
from plans.fields import PartName, PositiveCount, PositiveLength


class TopFastener(Bought):
    """A button, a figure-eight disc or a bent clip that holds the part `of` (a rail) to the part `to` (the top).

    They stand in a row along the edge of the rail where the two touch, on the side that faces the
    middle of the top. A `button` is a block of hardwood with a tongue in a slot of the rail, screwed
    to the top; a `z clip` a bent strip of steel in a saw kerf; a `figure eight` two joined discs, one
    let in flush with the rail's edge and free to swing. A slot is `play` longer to either side, and deeper, than the
    tongue in it, so that the top can move.
    """

    of: PartName
    to: PartName
    form: Literal["button", "figure eight", "z clip"]
    play: PositiveLength | None = Field(
        default=None,
        description="how much longer a slot is to either side than its tongue; 1/16 in or 1.5 mm unless said",
    )
    per_place: PositiveCount = Field(default=2, alias="per place")
    count: PositiveCount | None = None
