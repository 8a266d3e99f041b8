"""Every distinct joint once: its members drawn apart, closed and cut through, with marks, sizes and what it takes."""

from __future__ import annotations

import numpy as np

from publish.drawing.balloons import BalloonWish, Occupied, place_balloons
from publish.drawing.box import Box, Segment
from publish.drawing.cells import Grid
from publish.drawing.lettering import set_text, wrap
from publish.drawing.placed import PlacedView
from publish.drawing.records import Record
from publish.drawing.shift import moved
from publish.edition import Edition, Leaf
from publish.joint_pictures import JointPicture
from publish.pages.joint_sections import section_records
from publish.pictures import Pictorial, set_pictorial
from publish.shade import anchor
from publish.words.joint_details import joint_closing, joint_places, joint_sizes, joint_title

MOST = 4  # joints on a sheet
GRIDS = {1: (1, 2), 2: (1, 2), 3: (2, 2), 4: (2, 2)}  # columns and rows for so many
SECTION = 0.42  # of the width of a cell, for the section
HEAD = 9.0  # mm for the number and the name
BETWEEN = 6.0  # mm between the two pictures
LEAST_HIGH = 26.0  # mm, of the pictures
SMALLER = tuple(0.95**n for n in range(20))  # sizes of the pictures tried, of the largest
LARGEST = 1.0  # times real
INDENT = 7.0  # mm from the mark of a member to what is said of it
FOOT = 1.2  # mm under the last line
SHARE = 0.1  # of the air that is over goes to the picture that takes no balloons


def leaves(edition: Edition) -> list[Leaf]:
    """As many drawing sheets as the joints take; none where nothing is joined by a cut joint."""
    joints = edition.drawn.joints
    counts = _counts(len(joints))
    made: list[Leaf] = []
    for page, count in enumerate(counts):
        first = sum(counts[:page])
        beyond = first + count
        grid = Grid(edition.drawing_area, *GRIDS[count])
        records: list[Record] = grid.rules(beyond - first, edition.style.pens.rule)
        for n in range(first, beyond):
            records += _cell(edition, joints[n], n + 1, grid.cell(n - first))
        title = "Joints" if len(counts) == 1 else f"Joints, {page + 1} of {len(counts)}"
        info = edition.info(title, "JOINT DETAILS", scale="As shown")
        made.append(Leaf(f"joints-{page + 1}", title, tuple(records), info, "drawing", level=None if page else 0))
    return made


def _counts(joints: int) -> list[int]:
    """How many joints each sheet takes: full sheets, and none with a single joint beside others."""
    full, over = divmod(joints, MOST)
    counts = [MOST] * full + ([over] if over else [])
    if full and over == 1:
        counts[-2:] = [MOST - 1, 2]
    return counts


def _cell(edition: Edition, joint: JointPicture, number: int, box: Box) -> list[Record]:
    letters = edition.style.lettering
    y = box.top - letters.heading * 0.8
    records = set_text(str(number), box.left, y, letters.heading, "bold")
    title = wrap(joint_title(edition, joint.alike), box.width - 8.0, letters.body, "bold")
    for n, line in enumerate(title):
        records += set_text(line, box.left + 8.0, y - n * letters.body * 1.2, letters.body, "bold")
    under = y - (len(title) - 1) * letters.body * 1.2 - 2.5
    split = box.right - (box.width * SECTION if joint.section else 0.0)
    beside = Box(box.left, box.bottom, split - (BETWEEN if joint.section else 0.0), box.top)
    words, low = _words(edition, joint, beside)
    room = Box(box.left, low + 2.0, beside.right, under)
    if joint.section is not None:
        records += section_records(edition, joint.alike, joint.section, Box(split, box.bottom, box.right, under))
    if room.height < LEAST_HIGH:
        raise RuntimeError(f"the words on joint {number} leave no room for its pictures")
    return [*records, *words, *_pictures(edition, joint, room)]


def _words(edition: Edition, joint: JointPicture, box: Box) -> tuple[list[Record], float]:
    """Where it is made, its sizes and what it takes, at the foot of the cell; and how high that reaches."""
    size = edition.style.lettering.small
    alike = joint.alike
    step = size * edition.style.lettering.leading
    every = [("", joint_places(alike)), *joint_sizes(edition, alike), ("", joint_closing(edition, alike))]
    lines: list[Record] = []
    y, last = 0.0, ""
    for n, (mark, words) in enumerate(every):
        indent = INDENT if mark else 0.0
        for i, line in enumerate(wrap(words, box.width - indent, size)):
            if mark and i == 0 and mark != last:
                lines += set_text(mark, box.left, y, size, "bold")
            lines += set_text(line, box.left + indent, y, size, "regular" if n else "semibold")
            y -= step
        last = mark
    top = box.bottom + FOOT - y - step
    return [moved(line, 0.0, top) for line in lines], top + step


def _pictures(edition: Edition, joint: JointPicture, room: Box) -> list[Record]:
    """Both at one scale, as large as leaves each member its balloon."""
    apart, closed = joint.apart.box, joint.closed.box
    largest = min(
        (room.width - BETWEEN) / (apart.width + closed.width),
        room.height / max(apart.height, closed.height),
        LARGEST,
    )
    for smaller in SMALLER:
        scale = largest * smaller
        spare = room.width - (apart.width + closed.width) * scale - BETWEEN
        split = room.right - closed.width * scale - spare * SHARE
        left, right = (
            Box(room.left, room.bottom, split - BETWEEN, room.top),
            Box(split, room.bottom, room.right, room.top),
        )
        records, placed = set_pictorial(joint.apart, _sized(joint.apart, left, scale), edition.style)
        balloons = _balloons(edition, joint, placed, left)
        if balloons is not None:
            return [
                *records,
                *set_pictorial(joint.closed, _sized(joint.closed, right, scale), edition.style)[0],
                *balloons,
            ]
    raise RuntimeError("the marks of a joint find no place beside its picture")


def _sized(picture: Pictorial, room: Box, scale: float) -> Box:
    x, y = room.centre
    wide, high = picture.box.width * scale / 2, picture.box.height * scale / 2
    return Box(x - wide, y - high, x + wide, y + high)


def _balloons(edition: Edition, joint: JointPicture, placed: PlacedView, room: Box) -> list[Record] | None:
    picture = joint.apart.tint
    occupied = Occupied(room)
    left, bottom = placed.at((picture.box.left, picture.box.bottom))
    right, top = placed.at((picture.box.right, picture.box.top))
    occupied.add_grid(np.flipud(picture.ids >= 0)[::2, ::2], Box(left, bottom, right, top))
    for a, b in joint.apart.guides:
        occupied.add_line(Segment(*placed.at(a), *placed.at(b)))
    wishes = []
    for number, mark in enumerate(joint.alike.pairs[0]):
        at = anchor(picture, number)
        if at is not None:
            wishes.append(BalloonWish(mark, placed.at(at)))
    layout = place_balloons(wishes, occupied, (), edition.style)
    return None if layout.unplaced else layout.records(edition.style)
