"""The house style of a design: ours, with what its maker puts in."""

from __future__ import annotations

from dataclasses import replace

from plans.design import Design
from publish.drawing.style import HOUSE, Colours, HouseStyle, Imprint, Logo, Pens


def style_of(design: Design) -> HouseStyle:
    """The style of every sheet of a design."""
    house = design.spec.house
    if house is None:
        return replace(HOUSE, imprint=Imprint(licence=_licence(design, "")))
    said, ours = house.colours, HOUSE.colours
    read = design.logo
    logo = None if read is None else Logo(read.columns, read.rows, read.pixels)
    return replace(
        HOUSE,
        pens=_ruled(HOUSE.pens, said.rules) if said.rules else HOUSE.pens,
        colours=Colours(said.headings or ours.headings, said.bands or ours.bands),
        imprint=Imprint(house.name or "", _licence(design, house.licence or ""), logo),
    )


def _ruled(pens: Pens, colour: tuple[float, float, float]) -> Pens:
    """Frames and heavy rules in the maker's colour; lines that draw the piece stay black."""
    return replace(pens, frame=replace(pens.frame, colour=colour), cell=replace(pens.cell, colour=colour))


def _licence(design: Design, line: str) -> str:
    """The licence line of every sheet; of a size made to measure it says so."""
    if not design.choice.values:
        return line
    values = ", ".join(f"{name.replace('_', ' ')} {' '.join(text.split())}" for name, text in design.choice.values)
    return f"{line} Made to measure: {values}.".strip()
