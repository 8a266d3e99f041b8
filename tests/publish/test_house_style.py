"""A maker's house on the sheets: on every one of them, over nothing else, and legible in black and white."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import combinations

import pypdf
import pytest

from plans.house import TEXT_CONTRAST, WHITE, contrast
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
