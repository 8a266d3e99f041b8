"""What stands on the pages of both sets: nothing over anything else, nothing left out, every step numbered."""

from __future__ import annotations

import re
import subprocess
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from html import unescape
from itertools import combinations
from pathlib import Path
from shutil import which
from typing import NamedTuple

import pytest

from model.piece import Item
from model.works import WORKS
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.shaping.hole import Hole
from plans.shaping.notch import Notch
from publish.drawing.box import Box, Segment, segment_meets_box
from publish.drawing.records import Label, Line, Move, Record, Sheet
from publish.drawing.records import Path as Outline
from publish.edition import Edition
from publish.part_views import END_TELLS, HIDDEN_HELPS, SUNK
from publish.words.callouts import CALLOUTS
from publish.words.steps import WRITERS
from publish.words.tools import TOOLS

TOUCH = 0.05  # mm: letters set side by side may touch
UNPRINTED_EDGE = 5.0  # mm that common printers leave white (from memory)
LEFTOVER = re.compile(r"\b(None|nan|NaN|inf|null|True|False|TODO)\b|[{}<>\[\]_]|&\w+;|\\")


class Word(NamedTuple):
    """A word as poppler finds it; points from the top left of the page."""

    text: str
    box: Box


@cache
def words(pdf: Path) -> list[list[Word]]:
    """The words of every page."""
    if which("pdftotext") is None:
        pytest.skip("pdftotext is not installed")
    said = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    found: list[list[Word]] = []
    for page in said.split("<page ")[1:]:
        rows = re.findall(r'xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">(.*?)</word>', page)
        found.append([Word(unescape(text), Box(*map(float, box))) for *box, text in rows])
    return found


def lines(page: list[Word]) -> list[str]:
    """The words of a page in lines: one beside the other, fractions among them."""
    left = sorted(page, key=lambda word: word.box.left)
    found: list[list[Word]] = []
    for word in left:
        line = next((line for line in found if _goes_on(line[-1].box, word.box)), None)
        if line is None:
            found.append([word])
        else:
            line.append(word)
    return [" ".join(word.text for word in line) for line in found]


def _goes_on(before: Box, after: Box) -> bool:
    shared = min(before.top, after.top) - max(before.bottom, after.bottom)
    return -1.0 < after.left - before.right < 7.0 and shared > 0.5 * min(before.height, after.height)


def text(sheet: Sheet) -> list[Label]:
    return [record for record in sheet.items if isinstance(record, Label) and record.string.strip()]


def segments(records: Sequence[Record]) -> Iterator[Segment]:
    """Every straight line drawn with a pen."""
    for record in records:
        if isinstance(record, Line):
            yield Segment(record.x0, record.y0, record.x1, record.y1)
        elif isinstance(record, Outline) and record.pen is not None:
            at = record.steps[0].to
            for step in record.steps:
                if not isinstance(step, Move):
                    yield Segment(*at, *step.to)
                at = step.to


def test_no_text_stands_on_text(set_sheets: Sequence[Sheet]) -> None:
    """By the layout's own boxes; a built fraction is a numerator and a denominator that keep clear of each other."""
    for sheet in set_sheets:
        for a, b in combinations(text(sheet), 2):
            assert not a.box.grown(-TOUCH).meets(b.box.grown(-TOUCH)), (sheet.key, a.string, b.string)


def test_no_words_stand_on_words_in_the_file(set_pdf: Path, set_sheets: Sequence[Sheet]) -> None:
    """By poppler's boxes, which run from the lowest to the highest letter of the face: the middle of each counts."""
    for sheet, page in zip(set_sheets, words(set_pdf), strict=True):
        assert page, sheet.key
        for a, b in combinations(page, 2):
            middles = (word.box.grown(-0.3, -0.25 * word.box.height) for word in (a, b))
            first, second = middles
            assert not first.meets(second), (sheet.key, a, b)


def test_no_line_runs_through_text(set_sheets: Sequence[Sheet]) -> None:
    for sheet in set_sheets:
        # the sign of a caution stands in its triangle
        boxes = [(label.string, label.box.grown(-2 * TOUCH)) for label in text(sheet) if label.string != "!"]
        for segment in segments(sheet.items):
            met = [string for string, box in boxes if segment_meets_box(segment, box)]
            assert not met, (sheet.key, segment, met)


def test_everything_lies_on_the_printed_part_of_the_page(set_sheets: Sequence[Sheet]) -> None:
    for sheet in set_sheets:
        inside = sheet.paper.box.grown(-UNPRINTED_EDGE)
        assert all(inside.holds(record.box) for record in sheet.items), sheet.key


def test_no_placeholder_is_left_over(set_pdf: Path) -> None:
    for number, page in enumerate(words(set_pdf), start=1):
        left = [word.text for word in page if LEFTOVER.search(word.text)]
        assert not left, (number, left)


def part_text(item: Item, pdf: Path, sheets: Sequence[Sheet]) -> list[str]:
    """The lines of all sheets of a part."""
    own = re.compile(rf"part-{item.mark}(-\d+)?")
    return [
        line for sheet, page in zip(sheets, words(pdf), strict=True) if own.fullmatch(sheet.key) for line in lines(page)
    ]


def said_of(what: str, lines: Sequence[str]) -> int:
    """How many of a thing the callouts of a sheet speak of: `3× 11/64 SCREW HOLE` is three."""
    return sum(int((re.match(r"(\d+)×", line) or [0, 1])[1]) for line in lines if what in line)


def test_every_part_says_what_is_made_in_it(edition: Edition, set_pdf: Path, set_sheets: Sequence[Sheet]) -> None:
    """Counted from the joints and fixings of the piece and the holes of the design, not from the drawn features."""
    piece = edition.piece
    screws = [fixing for fixing in piece.fixings if fixing.kind == "wood screw"]
    tenons = []
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if isinstance(entry, MortiseAndTenon):
            tenons.append((joint, 2 if entry.twin or entry.split else 1))
    for item in piece.items:
        printed = part_text(item, set_pdf, set_sheets)
        assert printed, item.mark
        holes = [shaping for shaping in piece.parts[item.shown].spec.shaping if isinstance(shaping, Hole)]
        notches = sum(isinstance(shaping, Notch) for shaping in piece.parts[item.shown].spec.shaping)
        loose = sum(
            one.count
            for j in edition.piece.joints
            if j.kind == "loose tenon" and item.shown in (j.a, j.b)
            for one in j.loose
        )
        wanted = {
            "SCREW HOLE": sum(len(f.points) for f in screws if f.through == item.shown),
            "PILOT": sum(len(f.points) for f in screws if f.into == item.shown),
            "MORTISE": sum(n for j, n in tenons if j.b == item.shown) + loose,
            "TENON": sum(n for j, n in tenons if j.a == item.shown),
            "NOTCH": sum(j.a == item.shown for j in piece.joints if j.kind == "notch over") + notches,
            "HOLE, ": sum(hole.count for hole in holes),
        }
        assert {what: said_of(what, printed) for what in wanted} == wanted, item.mark


def test_the_steps_are_numbered_once_and_in_order(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    heading = edition.style.lettering.heading
    numbers = [
        int(label.string)
        for sheet in set_sheets
        if sheet.key.startswith("steps")
        for label in sorted(text(sheet), key=lambda label: label.x)
        if label.string.isdigit() and label.style == "bold" and label.size == heading
    ]
    assert numbers == list(range(1, len(edition.steps) + 1))


def test_every_part_and_fixing_is_used_in_one_step(edition: Edition) -> None:
    piece = edition.piece
    stages = [step for step in edition.steps if step.stage is not None]
    assert Counter(name for step in stages for name in step.added) == Counter(list(piece.parts))
    driven = Counter(id(fixing) for step in edition.steps for fixing in step.fixings)
    assert driven == Counter(id(fixing) for fixing in piece.fixings)
    closed = Counter(id(joint) for step in stages for joint in step.joints)
    assert closed == Counter(id(joint) for joint in piece.joints)
    assert [step.last for step in stages] == [False] * (len(stages) - 1) + [True]


def test_the_screws_of_the_steps_add_up_to_the_hardware_list(
    edition: Edition, set_pdf: Path, set_sheets: Sequence[Sheet]
) -> None:
    """Both as printed: by poppler, from the page of the list and from those of the steps."""
    driven: Counter[str] = Counter()
    bought: Counter[str] = Counter()
    for sheet, page in zip(set_sheets, words(set_pdf), strict=True):
        if sheet.key.startswith("steps"):
            driven += _screws_driven(sheet, page)
        elif sheet.key.startswith("hardware"):
            for running in _columns(sheet, page):
                for many, name in BOUGHT.findall(running):
                    bought[name] += int(many)
    assert bought == driven
    screws = [fixing for fixing in edition.piece.fixings if fixing.kind == "wood screw"]
    assert bought.total() == sum(len(fixing.points) for fixing in screws)


def _screws_driven(sheet: Sheet, page: list[Word]) -> Counter[str]:
    """Screws of each size, in both columns of a page of steps."""
    found: Counter[str] = Counter()
    for running in _columns(sheet, page):
        for many, name in DRIVEN.findall(running):
            found[name] += NUMBERS.get(many) or int(many)
    return found


SIZE = r"((?:No\. )?[\d.]+ × [\d/. ]+(?:in|mm))"
BOUGHT = re.compile(rf"(\d+) +{SIZE} (?:round-head )?wood screw")
DRIVEN = re.compile(rf"(?:[Dd]rive|and|,) (\w+) (?:round-head )?wood screws? \({SIZE}\)")
NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9}
NUMBERS |= {"ten": 10, "eleven": 11, "twelve": 12}


def _columns(sheet: Sheet, page: list[Word]) -> list[str]:
    """The words of the left and of the right half of a page."""
    middle = sheet.paper.width_pt / 2
    return [_running([word for word in page if (word.box.left < middle) == side]) for side in (True, False)]


def _running(page: list[Word]) -> str:
    """The words in reading order; those of one line differ a little in height where fractions are among them."""
    rows: list[list[Word]] = []
    for word in sorted(page, key=lambda w: (w.box.bottom + w.box.top) / 2):
        middle = (word.box.bottom + word.box.top) / 2
        if rows and abs(middle - (rows[-1][0].box.bottom + rows[-1][0].box.top) / 2) < 5.0:
            rows[-1].append(word)
        else:
            rows.append([word])
    return " ".join(word.text for row in rows for word in sorted(row, key=lambda w: w.box.left))


def test_no_work_on_a_part_is_left_out_of_the_steps(edition: Edition) -> None:
    told = {operation for work in WORKS for operation in work.operations}
    told |= {"gluing up", "pilot hole"}  # in the step of the boards, and where the screws are driven
    for part in edition.piece.parts.values():
        assert {feature.operation.name for feature in part.features if feature.operation is not None} <= told, part.name


def test_kinds_of_work_and_callouts_are_known_by_one_name() -> None:
    kinds = {work.kind for work in WORKS}
    assert kinds <= set(WRITERS) and kinds <= set(TOOLS)
    assert set(CALLOUTS) >= SUNK | HIDDEN_HELPS | END_TELLS
