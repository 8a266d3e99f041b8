"""A maker's house on the sheets: on every one of them, over nothing else, and legible in black and white."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import ContentStream

from plans.house import LINE_CONTRAST, TEXT_CONTRAST, WHITE, contrast
from publish.drawing.records import Image, Label, Record, Sheet
from publish.drawing.style import A4, HOUSE, LETTER, Colours, HouseStyle, Imprint, Logo, Paper
from publish.drawing.title_block import Framed, SheetInfo, frame, text_page
from publish.writers.pdf import Document, pdf_bytes

TOUCH = 0.05  # mm
UNPRINTED_EDGE = 5.0  # mm that common printers leave white (from memory)
INFO = SheetInfo(
    title="Front rail of the upper case, left",
    project="A plan with rather a long name for its title block",
    sheet=3,
    sheets=27,
    mark="AB",
    quantity="2 + 2 mirrored",
    material="Northern red oak, 8/4",
    scale="1 : 2.5",
    units="Dimensions in millimetres",
    projection="third",
    revision="12",
    maker="A shop <b>& sons</b>, the long one by the river",
)


def house(wide: int, high: int, licence: str = "Licence: one shop. <i>&amp;") -> HouseStyle:
    logo = Logo(wide, high, bytes(3 * wide * high))
    colours = Colours(headings=(0.12, 0.25, 0.31), bands=(0.9, 0.92, 0.93))
    return replace(HOUSE, colours=colours, imprint=Imprint("A shop", licence, logo))


@pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)
@pytest.mark.parametrize("shape", [(20, 20), (200, 20), (20, 200)])
@pytest.mark.parametrize("surround", [frame, text_page])
def test_logo_and_words_keep_clear_of_each_other(paper: Paper, shape: tuple[int, int], surround) -> None:
    style = house(*shape, licence="A licence line that is as long as one may be. " * 3)
    made: Framed = surround(INFO, paper, style)
    labels = [r for r in made.records if isinstance(r, Label) and r.string.strip()]
    (logo,) = [r for r in made.records if isinstance(r, Image)]
    assert logo.width / logo.height == pytest.approx(shape[0] / shape[1])
    for a, b in combinations([r.box for r in (*labels, logo)], 2):
        assert not a.grown(-TOUCH).meets(b.grown(-TOUCH)), (a, b)
    for record in made.records:
        assert paper.box.grown(-UNPRINTED_EDGE).holds(record.box)
        assert not made.free.meets(record.box) or not isinstance(record, Label | Image) or record in _marks(made)


def _marks(made: Framed) -> list[Record]:
    """What stands in the corner kept for the mark."""
    return [r for r in made.records if any(box.holds(r.box) for box in made.obstacles)]


def test_the_words_are_plain_text_on_the_page() -> None:
    style = house(30, 20)
    sheets = [Sheet(str(n), "t", A4, s(INFO, A4, style).records) for n, s in enumerate((frame, text_page))]
    reader = pypdf.PdfReader(io.BytesIO(pdf_bytes(sheets, Document("t"))), strict=True)
    for page in reader.pages:
        assert "Licence: one shop. <i>&amp;" in page.extract_text()
        assert len(page.images) == 1


def test_without_a_house_nothing_is_added() -> None:
    assert HOUSE.imprint == Imprint()
    for surround in (frame, text_page):
        assert not [r for r in surround(INFO, A4, HOUSE).records if isinstance(r, Image)]


def test_our_own_colours_are_legible_in_black_and_white() -> None:
    from publish.drawing.style import CAUTION, GREY

    for colour in (GREY, CAUTION, HOUSE.colours.headings):
        assert contrast(colour, WHITE) >= TEXT_CONTRAST
    assert contrast(HOUSE.colours.bands, (0.0, 0.0, 0.0)) >= 12


def test_no_line_is_thinner_than_the_standard_allows_or_too_pale(rail_set: Path) -> None:
    """ISO 128-2: no line below 0.18 mm, wide to narrow 2:1 (from memory); WCAG 2.1: 3:1 for what must be seen.

    Read from the operators of the pages: w sets a width, RG and G the colour of lines, S draws (PDF 1.7, 8.4 and 8.5).
    """
    for path in sorted(rail_set.glob("*.pdf")):
        widths, colours = set(), set()
        for page in pypdf.PdfReader(path, strict=True).pages:
            content = page.get_contents()
            assert content is not None
            width, colour = 1.0, (0.0, 0.0, 0.0)
            for operands, operator in ContentStream(content, None).operations:
                if operator == b"w":
                    width = float(operands[0]) / 72 * 25.4
                elif operator == b"RG":
                    colour = tuple(float(value) for value in operands)
                elif operator == b"G":
                    colour = (float(operands[0]),) * 3
                elif operator in (b"S", b"s", b"B", b"b"):
                    widths.add(round(width, 3))
                    colours.add(colour)
        assert min(widths) >= 0.18, path.name
        assert all(contrast(colour, WHITE) >= LINE_CONTRAST for colour in colours), (path.name, colours)
    assert HOUSE.pens.visible.width == pytest.approx(2 * HOUSE.pens.dimension.width)
