"""Both sets of both designs as files: read back by qpdf, poppler and pypdf, none of which wrote them."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import Destination

from publish.drawing.records import Sheet
from publish.edition import Edition
from publish.words.names import item_name

# ANSI Y14.1 size A, and ISO 216 A4 at 72 points an inch; both lying (from memory)
PAPER = {"inch": (792.0, 612.0), "mm": (297 / 25.4 * 72, 210 / 25.4 * 72)}
LANGUAGE = {"inch": "en-US", "mm": "en-GB"}
MARK_COLUMN = 25.0  # points at the left of a row: its mark and nothing else
Outline = list[tuple[int, str, int]]


def run(*command: str) -> str:
    if shutil.which(command[0]) is None:
        pytest.skip(f"{command[0]} is not installed")
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="session")
def read(set_pdf: Path) -> pypdf.PdfReader:
    return pypdf.PdfReader(set_pdf, strict=True)


def test_qpdf_finds_nothing_wrong(set_pdf: Path) -> None:
    said = run("qpdf", "--check", str(set_pdf))
    assert "No syntax or stream encoding errors" in said and "WARNING" not in said


def test_poppler_and_pypdf_see_the_same_pages(
    set_pdf: Path, read: pypdf.PdfReader, edition: Edition, set_sheets: Sequence[Sheet]
) -> None:
    size = pytest.approx(PAPER[edition.units.name], abs=0.01)
    said = run("pdfinfo", "-box", "-f", "1", "-l", "99", str(set_pdf))
    boxes = re.findall(r"Page +(\d+) (\w+Box): +(\S+) +(\S+) +(\S+) +(\S+)", said)
    assert {int(number) for number, *_ in boxes} == set(range(1, len(set_sheets) + 1))
    for _, name, left, bottom, right, top in boxes:
        assert (float(left), float(bottom)) == (0.0, 0.0), name
        assert (float(right), float(top)) == size, name
    assert set(re.findall(r"Page +\d+ rot: +(\d+)", said)) == {"0"}
    assert len(read.pages) == len(set_sheets) == int(re.search(r"Pages: +(\d+)", said)[1])  # type: ignore[index]
    for page in read.pages:
        for box in (page.mediabox, page.cropbox, page.trimbox, page.bleedbox, page.artbox):
            assert (float(box.left), float(box.bottom)) == (0.0, 0.0)
            assert (float(box.right), float(box.top)) == size


def test_every_font_is_embedded_and_subset(set_pdf: Path, read: pypdf.PdfReader) -> None:
    heading, rule, *rows = run("pdffonts", str(set_pdf)).splitlines()
    assert heading.split()[:2] == ["name", "type"] and rows
    spans = [match.span() for match in re.finditer("-+", rule)]
    for row in rows:
        name, kind, _, embedded, subset, text, *_ = (row[start:end].strip() for start, end in spans)
        assert (kind, embedded, subset, text) == ("TrueType", "yes", "yes", "yes"), row
        assert re.fullmatch(r"[A-Z]{6}\+SourceSans\S*", name), row
    for page in read.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            entry = font.get_object()
            assert entry["/Subtype"] == "/TrueType" and "/FontFile2" in entry["/FontDescriptor"]


def test_no_image_or_font_is_fetched_from_elsewhere(read: pypdf.PdfReader) -> None:
    """No actions but jumps within the file, no attached files, no scripts (PDF 1.7, 12.6)."""
    assert not {"/OpenAction", "/AA", "/AcroForm"} & set(read.root_object)
    assert not {"/JavaScript", "/EmbeddedFiles"} & set(read.root_object.get("/Names", {}))
    for page in read.pages:
        for note in page.get("/Annots", []):
            entry = note.get_object()
            assert entry["/Subtype"] == "/Link" and "/A" not in entry


def test_the_document_says_what_it_is(set_pdf: Path, read: pypdf.PdfReader, edition: Edition) -> None:
    spec, name = edition.piece.design.spec, edition.units.name
    title = f"{spec.plan}, plan set, {name} edition"
    assert read.metadata is not None
    assert (read.metadata.title, read.metadata.author) == (title, spec.maker)
    assert read.root_object["/Lang"] == LANGUAGE[name]
    viewer = read.root_object["/ViewerPreferences"]
    assert viewer["/PrintScaling"] == "/None" and viewer["/DisplayDocTitle"] is not None
    said = run("pdfinfo", str(set_pdf))
    assert re.search(rf"^Title: +{re.escape(title)}$", said, re.MULTILINE)
    assert re.search(r"^JavaScript: +no$", said, re.MULTILINE)


def test_pages_are_labelled_as_their_title_blocks_number_them(
    read: pypdf.PdfReader, set_sheets: Sequence[Sheet]
) -> None:
    assert read.page_labels == [str(number) for number in range(1, len(set_sheets) + 1)]
    for number, page in enumerate(read.pages[1:], start=2):  # the cover has no title block
        assert re.search(rf"\b{number} / {len(set_sheets)}\b", page.extract_text())


def outline(read: pypdf.PdfReader) -> Outline:
    """The bookmarks in order: depth, title, page from 0."""
    found: Outline = []

    def walk(entries: list[Destination | list[Destination]], depth: int) -> None:
        for entry in entries:
            if isinstance(entry, list):
                walk(entry, depth + 1)
            else:
                page = read.get_destination_page_number(entry)
                assert page is not None
                found.append((depth, str(entry.title), page))

    walk(read.outline, 0)  # type: ignore[arg-type]
    return found


def test_every_part_sheet_has_its_bookmark(
    read: pypdf.PdfReader, edition: Edition, set_sheets: Sequence[Sheet]
) -> None:
    marks = outline(read)
    assert marks[0] == (0, edition.piece.design.spec.plan, 0)
    assert [page for *_, page in marks] == sorted({page for *_, page in marks})
    where = {title: page for _, title, page in marks}
    for item in edition.piece.items:
        name = item_name(edition.piece, item)
        page = where[f"{item.mark}  {name[:1].upper()}{name[1:]}"]
        assert set_sheets[page].key == f"part-{item.mark}"
        text = read.pages[page].extract_text()
        assert name.lower() in text.lower() and re.search(rf"^{item.mark}$", text, re.MULTILINE)


def links(page: pypdf.PageObject, read: pypdf.PdfReader) -> list[tuple[tuple[float, ...], int]]:
    """Each link of a page: its rectangle (points) and the page it leads to, from 0."""
    found = []
    for note in page.get("/Annots", []):
        entry = note.get_object()
        target = entry["/Dest"]
        target = read.named_destinations[target] if isinstance(target, str) else target
        place = target.page if isinstance(target, Destination) else target[0]
        rectangle = tuple(float(value) for value in entry["/Rect"])
        found.append((rectangle, next(n for n, p in enumerate(read.pages) if p.indirect_reference == place)))
    return found


@pytest.mark.parametrize("key", ["cut-list", "exploded"])
def test_lists_lead_to_the_drawings(
    key: str, set_pdf: Path, read: pypdf.PdfReader, edition: Edition, set_sheets: Sequence[Sheet]
) -> None:
    """What stands at the left of a link, read off by poppler, is the mark of the sheet it leads to."""
    led_to = []
    for number in (n for n, sheet in enumerate(set_sheets) if sheet.key.startswith(key)):
        high = float(read.pages[number].mediabox.height)
        for (left, bottom, _, top), target in links(read.pages[number], read):
            crop = [("-x", left), ("-y", high - top), ("-W", MARK_COLUMN), ("-H", top - bottom)]
            sides = [word for name, value in crop for word in (name, str(round(value)))]
            page = str(number + 1)
            mark = run("pdftotext", "-f", page, "-l", page, *sides, str(set_pdf), "-").strip()
            if mark.isdigit():  # a sub-assembly, which has a view of its own
                assert set_sheets[target].key.startswith("exploded-")
                continue
            mark = mark.rstrip("0123456789")  # a board of a part leads to the part
            assert set_sheets[target].key == f"part-{mark}"
            led_to.append(mark)
    made = [item for item in edition.piece.items if not edition.piece.parts[item.shown].spec.supplied]
    listed = made if key == "cut-list" else edition.piece.items
    assert sorted(set(led_to)) == sorted(item.mark for item in listed)
