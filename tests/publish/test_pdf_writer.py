"""The PDF read back by pypdf, and by qpdf and poppler where they are installed."""

from __future__ import annotations

import io
import shutil
import subprocess
from pathlib import Path as FilePath

import numpy as np
import pypdf
import pytest

from publish.drawing.box import Box
from publish.drawing.lettering import set_text
from publish.drawing.records import Circle, Label, Line, Link, Record, Sheet, arc_path, image_from_array, polyline
from publish.drawing.style import A3, A4, HOUSE, LETTER, TABLOID, Paper, Pen
from publish.writers.pdf import Document, pdf_bytes

DOCUMENT = Document("Bench <b>&", "A. Maker", "Plans", "bench", "en-GB")
PIXELS = np.arange(4 * 6 * 3, dtype=np.uint8).reshape(4, 6, 3)


def items() -> tuple[Record, ...]:
    return (
        *set_text("Cut to 1 3⁄4″ (<i>x</i>) & a<b", 20.0, 100.0, 4.0, "semibold"),
        *set_text("bold", 20.0, 90.0, 4.0, "bold"),
        *set_text("italic", 20.0, 80.0, 4.0, "italic", rotation=90),
        Line(0, 0, 25.4, 25.4, Pen(0.3, dash=(1.0, 0.5))),
        Circle(50, 50, 10, HOUSE.pens.visible),
        polyline([(1, 1), (2, 2), (3, 1)], fill=(0, 0, 0), closed=True),
        arc_path((60, 60), 10, 0.0, 2.0, HOUSE.pens.visible),
        image_from_array(PIXELS, 100, 20, 30),
        Link(Box(10, 10, 30, 30), "two"),
        Link(Box(10, 10, 30, 30), "nowhere"),
    )


def plan_set() -> list[Sheet]:
    return [
        Sheet("one", "Cover (first)", LETTER, items(), 0, "C"),
        Sheet("two", "Leg", A4, items(), 1, "2"),
        Sheet("three", "Rail", LETTER, (), 3),
    ]


@pytest.fixture(scope="module")
def made() -> bytes:
    return pdf_bytes(plan_set(), DOCUMENT)


@pytest.fixture(scope="module")
def read(made: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(made), strict=True)


def test_same_sheets_same_bytes(made: bytes) -> None:
    assert pdf_bytes(plan_set(), DOCUMENT) == made


@pytest.mark.parametrize(
    ("paper", "mm"),
    [(LETTER, (279.4, 215.9)), (TABLOID, (431.8, 279.4)), (A4, (297, 210)), (A3, (420, 297))],
)
def test_papers_are_the_published_sizes(paper: Paper, mm: tuple[float, float]) -> None:
    """ISO 216 (A4, A3) and ANSI Y14.1 (A 11 x 8.5 in, B 17 x 11 in, from memory)."""
    assert (paper.width, paper.height) == pytest.approx(mm, abs=0.001)


def test_page_boxes_are_exactly_the_paper(read: pypdf.PdfReader) -> None:
    for page, size in zip(read.pages, [(792, 612), (841.890, 595.276), (792, 612)], strict=True):
        for box in (page.mediabox, page.cropbox, page.trimbox):
            assert (float(box.left), float(box.bottom)) == (0, 0)
            assert (float(box.right), float(box.top)) == pytest.approx(size, abs=1e-6)


def fonts_of(read: pypdf.PdfReader) -> dict[str, pypdf.generic.DictionaryObject]:
    fonts = {}
    for page in read.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            fonts[font.get_object()["/BaseFont"]] = font.get_object()
    return fonts


def test_only_embedded_subset_fonts(read: pypdf.PdfReader) -> None:
    fonts = fonts_of(read)
    assert {name.partition("+")[2] for name in fonts} == {
        "SourceSansPro-Semibold",
        "SourceSansPro-Bold",
        "SourceSansPro-It",
    }
    for name, font in fonts.items():
        assert len(name.partition("+")[0]) == len("/ABCDEF")
        assert "/FontFile2" in font["/FontDescriptor"]
        assert "/ToUnicode" in font


def test_what_the_file_says_of_itself(read: pypdf.PdfReader) -> None:
    catalog = read.trailer["/Root"]
    assert catalog["/Lang"] == "en-GB"
    assert catalog["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert read.metadata is not None
    assert (read.metadata.title, read.metadata.author, read.metadata.subject) == ("Bench <b>&", "A. Maker", "Plans")


def test_bookmarks_labels_and_links_lead_to_their_sheets(read: pypdf.PdfReader) -> None:
    first, (second, (third,)) = read.outline
    assert [b.title for b in (first, second, third)] == ["Cover (first)", "Leg", "Rail"]
    assert [read.get_destination_page_number(b) for b in (first, second, third)] == [0, 1, 2]
    assert read.page_labels == ["C", "2", "3"]
    annotations = [a.get_object() for a in read.pages[0]["/Annots"]]
    assert len(annotations) == 1, "a link to no sheet is left out"
    target = annotations[0].get("/Dest") or annotations[0]["/A"]["/D"]
    assert target[0] == read.pages[1].indirect_reference


def test_pictures_come_back_to_the_byte(read: pypdf.PdfReader) -> None:
    (picture,) = [x for x in read.pages[0]["/Resources"]["/XObject"].values()]
    assert picture.get_object().get_data() == PIXELS.tobytes()


def test_user_text_is_plain_text(read: pypdf.PdfReader) -> None:
    assert "<i>x</i>) & a<b" in read.pages[0].extract_text()


def test_a_line_of_an_inch_is_72_points(made: bytes, read: pypdf.PdfReader) -> None:
    content = read.pages[0].get_contents()
    assert content is not None
    assert b"n 0 0 m 72 72 l S" in content.get_data()


def test_no_sheets_or_equal_keys_are_our_own_error() -> None:
    with pytest.raises(ValueError):
        pdf_bytes([], DOCUMENT)
    with pytest.raises(ValueError):
        pdf_bytes([plan_set()[0], plan_set()[0]], DOCUMENT)


def test_an_image_of_the_wrong_kind_is_refused() -> None:
    with pytest.raises(ValueError):
        image_from_array(np.zeros((2, 2, 4), np.uint8), 0, 0, 10)


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_nothing_wrong(made: bytes, tmp_path: FilePath) -> None:
    (tmp_path / "plan.pdf").write_bytes(made)
    done = subprocess.run(["qpdf", "--check", tmp_path / "plan.pdf"], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler is not installed")
def test_a_stacked_fraction_is_found_as_typed(made: bytes, tmp_path: FilePath) -> None:
    (tmp_path / "plan.pdf").write_bytes(made)
    done = subprocess.run(
        ["pdftotext", "-l", "1", tmp_path / "plan.pdf", "-"], capture_output=True, text=True, check=True
    )
    assert "Cut to 1 3/4" in done.stdout


def test_labels_hold_only_what_the_face_has() -> None:
    assert Label(0, 0, "a\u200a\x07木", 4.0).string == "a ?"
