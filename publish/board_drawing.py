"""One board drawn to scale: its parts with their marks, what is left over, and what is cut out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from model.boards.pieces import LaidBoard
from publish.drawing.box import Box, Segment, segment_meets_box
from publish.drawing.lettering import INLINE, set_text, text_width
from publish.drawing.records import Circle, Line, Record, rectangle
from publish.drawing.style import BLACK, Colour, Pen, points
from publish.drawing.typeface import FaceStyle, reach
from publish.edition import Edition

PART_TINT: Colour = (0.95, 0.92, 0.86)
KEPT_TINT: Colour = (0.97, 0.97, 0.97)
WASTE_TINT: Colour = (0.86, 0.86, 0.86)
THIN = Pen(points(0.5))
LARGEST = points(9.0)
TALLEST = 1.05  # size of letters for a strip of height 1: a capital is two thirds of that
CLEAR = 0.3  # mm of a strip that its letters leave free
APART = 0.8  # mm between two marks beside a board, and between a leader and anything else
LEAD = 1.4  # mm from the edge of a board to a mark beside it
STEPS = 24  # places along a strip where its leader is tried
ROWS = 4  # of marks beside a board
DOT = 0.35  # mm


@dataclass
class _Drawing:
    """What is drawn so far; `taken` is what a leader must not run through."""

    least: float  # size of letters, the least in a strip
    aside: float  # beside the board
    whole: Box
    leader: Pen
    records: list[Record] = field(default_factory=list)
    taken: list[Box] = field(default_factory=list)
    beside: list[tuple[str, Box]] = field(default_factory=list)  # marks that do not fit in their places

    def text(self, words: str, place: Box, largest: float, face: FaceStyle) -> bool:
        """Text in the middle of a place, as large as it may be there; False where it would be too small to read."""
        deep, high = reach(words)  # J and Q go below the line
        size = min(largest, place.height * TALLEST, (place.height - CLEAR) / (high - deep))
        wide = text_width(words, size, face, INLINE)
        if size < self.least or wide > place.width - 0.6:
            return False
        (x, y), middle = place.centre, (deep + high) / 2
        self.records += set_text(words, x, y - size * middle, size, face, "centre", fraction=INLINE)
        self.taken.append(Box(x - wide / 2, y + size * (deep - middle), x + wide / 2, y + size * (high - middle)))
        return True

    def mark(self, mark: str, place: Box) -> None:
        """The mark of a part in its place; left for a place beside the board where that is too narrow."""
        if not self.text(mark, place, LARGEST, "bold"):
            self.beside.append((mark, place))


def drawn_board(edition: Edition, laid: LaidBoard, slants: dict[str, float], scale: float) -> tuple[Record, ...]:
    """The board with its lower left corner at (0, 0); marks that are too narrow for their strips stand beside it.

    `slants`: by the marks of blanks that give two parts, how far the cut between them runs across (mm).
    """
    letters = edition.style.lettering
    whole = Box(0.0, 0.0, laid.board.length * scale, laid.board.width * scale)
    drawing = _Drawing(letters.caption, letters.small, whole, edition.style.pens.leader)
    drawing.records.append(rectangle(whole, edition.style.pens.visible, WASTE_TINT))
    for rest in (rest for rest in laid.offcuts if rest.kept):
        place = _box(rest.x, rest.y, rest.length, rest.width, scale)
        drawing.records.append(rectangle(place, THIN, KEPT_TINT))
        drawing.text(f"{edition.number(rest.width)} × {edition.number(rest.length)}", place, points(7.0), "regular")
    for defect in laid.board.defects:
        start, low, end, high = defect if len(defect) == 4 else (defect[0], 0.0, defect[1], laid.board.width)
        drawing.records += _crossed_out(_box(start, low, end - start, high - low, scale))
    places = [(part.mark, _box(part.x, part.y, part.length, part.width, scale)) for part in laid.placed]
    drawing.records += [rectangle(place, THIN, PART_TINT) for _, place in places]
    for mark, place in places:
        if mark in slants:
            _head_to_foot(drawing, mark, place, slants[mark] * scale)
        else:
            drawing.mark(mark, place)
    _set_beside(drawing)
    return tuple(drawing.records)


def _box(x: float, y: float, length: float, width: float, scale: float) -> Box:
    return Box(x * scale, y * scale, (x + length) * scale, (y + width) * scale)


def _crossed_out(place: Box) -> list[Record]:
    """A defect."""
    corners = ((place.left, place.bottom, place.right, place.top), (place.left, place.top, place.right, place.bottom))
    return [rectangle(place, THIN, WASTE_TINT), *(Line(*ends, THIN) for ends in corners)]


def _head_to_foot(drawing: _Drawing, mark: str, place: Box, slant: float) -> None:
    """The cut between two parts in one blank, and the mark of each at its wider end."""
    (x, y), (first, second) = place.centre, mark.split(" + ")
    quarter = place.width / 4
    drawing.records.append(Line(place.left, y - slant / 2, place.right, y + slant / 2, THIN))
    drawing.mark(first, Box(place.left + quarter / 2, y, x - quarter / 2, place.top))
    drawing.mark(second, Box(x + quarter / 2, place.bottom, place.right - quarter / 2, y))


def _set_beside(drawing: _Drawing) -> None:
    """Marks above or below the board, each led to its strip by a line that runs through no other mark."""
    labels: list[Box] = []
    leaders: list[Box] = []
    for mark, place in drawing.beside:
        chosen = next(iter(_clear(drawing, mark, place, labels, leaders)), None)
        if chosen is None:  # all is taken: better a mark that touches another than none
            chosen = _places(drawing, mark, place)[0]
        line, label = chosen
        labels.append(label)
        leaders.append(line.box)
        size, (deep, _) = drawing.aside, reach(mark)
        drawing.records += [
            Line(*line, drawing.leader),
            Circle(line.x0, line.y0, DOT, fill=BLACK),
            *set_text(mark, label.centre[0], label.bottom - size * deep, size, "bold", "centre", fraction=INLINE),
        ]


def _clear(
    drawing: _Drawing, mark: str, place: Box, labels: Sequence[Box], leaders: Sequence[Box]
) -> Iterable[tuple[Segment, Box]]:
    """Places for a mark that run into nothing, the best first."""
    around = [box.grown(APART) for box in (*drawing.taken, *labels)]
    for line, label in _places(drawing, mark, place):
        meets = any(label.meets(box.grown(APART)) for box in (*labels, *leaders))
        if not meets and not any(
            segment_meets_box(line, box) for box in (*around, *(near.grown(APART) for near in leaders))
        ):
            yield line, label


def _places(drawing: _Drawing, mark: str, place: Box) -> list[tuple[Segment, Box]]:
    """A line from the strip and a box for the mark: over the nearer edge, from the middle of the strip outwards."""
    (deep, high), size = reach(mark), drawing.aside
    wide, tall = text_width(mark, size, "bold", INLINE), size * (high - deep)
    x, y = place.centre
    reaches = sorted({place.width / 2 * n / STEPS for n in range(STEPS - 1)})
    along = [x + way * off for off in reaches for way in (1, -1)]
    up = drawing.whole.top - y <= y - drawing.whole.bottom
    found = []
    for row in range(ROWS):
        for above in (up, not up):
            away = LEAD + row * (tall + APART)
            edge = drawing.whole.top + away if above else drawing.whole.bottom - away
            for at in along:
                label = Box(at - wide / 2, edge, at + wide / 2, edge + tall)
                end = edge - APART / 2 if above else edge + APART / 2
                found.append((Segment(at, y, at, end), label if above else label.moved(0.0, -tall)))
    return found
