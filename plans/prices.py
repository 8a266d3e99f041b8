"""What the maker paid or was asked: prices of wood, sheets and other things, with their date."""

from typing import Annotated

from pydantic import Field, model_validator

from plans.fields import Day, Entry, Line, PositiveCount
from plans.kinds import refused

Money = Annotated[float, Field(gt=0, le=100_000)]
Currency = Annotated[str, Field(min_length=1, max_length=8)]


class WoodPrice(Entry):
    """The price of one wood in one rough thickness, by the board foot, the cubic metre or the board."""

    wood: Line
    stock: Line
    per_board_foot: Money | None = Field(default=None, alias="per board foot")
    per_cubic_metre: Money | None = Field(default=None, alias="per cubic metre")
    per_board: Money | None = Field(default=None, alias="per board")

    @model_validator(mode="after")
    def _one_price(self) -> "WoodPrice":
        said = (self.per_board_foot, self.per_cubic_metre, self.per_board)
        if sum(price is not None for price in said) != 1:
            raise refused("wrong-value", "one price is needed here", "say `per board foot: 9.50`, or `per board: 24`")
        return self


class SheetPrice(Entry):
    """The price of one sheet."""

    sheet: Line
    stock: Line
    each: Money


class OtherPrice(Entry):
    """Anything else that is bought: glue, finish, a box of screws."""

    item: Line
    count: PositiveCount = 1
    each: Money | None = Field(default=None, description="in a design, left out where the house file has it")


class Prices(Entry):
    """The maker's own price table: in the design, or in the house file for all designs."""

    date: Day
    currency: Currency = Field(description="as it stands before or after an amount: $, EUR")
    wood: tuple[WoodPrice, ...] = ()
    sheets: tuple[SheetPrice, ...] = ()
    other: tuple[OtherPrice, ...] = ()
