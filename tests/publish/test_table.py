"""Tables and flowing text: nothing lost at a page break, nothing outside its area, nothing on top of anything."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from publish.drawing.box import Box
from publish.drawing.flow import Block, Caution, Gap, Heading, Listing, Paragraph, Picture, TableBlock, flow
from publish.drawing.records import Label, Link, Record, box_of
from publish.drawing.style import HOUSE
from publish.drawing.table import Column, Row, column_widths, set_table

AREA = Box(20.0, 30.0, 260.0, 180.0)
COLUMNS = (Column("Mark", "centre"), Column("Part", stretch=1), Column("Length", "right"), Column("Note", stretch=2))
CELL = st.text("ab cdé 1⁄2″", max_size=60)
ROWS = st.lists(st.tuples(CELL, CELL, st.sampled_from(["1 3⁄4″", "12″", "3⁄8″"]), CELL), min_size=1, max_size=30)


def words(records: tuple[Record, ...] | list[Record]) -> str:
    return "".join("".join(r.string for r in records if isinstance(r, Label)).split())


def parts_of(rows: list[Row], area: Box):
    widths = column_widths(COLUMNS, rows, area.width, HOUSE.lettering.small)
    parts = []
    while rows:
        part = set_table(COLUMNS, rows, area, widths=widths)
        assert part.box is not None
        parts.append(part)
        rows = list(part.rest)
    return parts


@settings(max_examples=40, deadline=None)
@given(ROWS, st.floats(40.0, 150.0))
def test_every_cell_is_set_once_inside_the_area(cells: list[tuple[str, str, str, str]], height: float) -> None:
    area = AREA._replace(bottom=AREA.top - height)
    parts = parts_of([Row(c) for c in cells], area)
    for part in parts:
        assert area.grown(0.01).holds(box_of(part.records))
    said = sorted(itertools.chain.from_iterable(words(p.records) for p in parts))
    header = "MarkPartLengthNote" * len(parts)
    expected = header + "".join("".join(c) for c in cells).replace("⁄", "")
    stray = sum(1 for c in said if c == "⁄")
    assert len(said) - stray == len("".join(expected.split()))


def test_text_in_a_table_does_not_touch_other_text() -> None:
    rows = [
        Row((str(n), "Leg, front left, with a long name", f"{n} 15⁄16″", "A note that wraps. " * 3)) for n in range(9)
    ]
    part = set_table(COLUMNS, rows, Box(20, 20, 130, 190))
    labels = [r for r in part.records if isinstance(r, Label) and r.reads is None]
    for a, b in itertools.combinations(labels, 2):
        assert not a.box.grown(-0.35).meets(b.box.grown(-0.35)), (a.string, b.string)


def test_numbers_end_on_one_line_and_rows_link() -> None:
    rows = [Row(("1", "Leg", "24″", ""), to="leg"), Row(("2", "Rail", "9″", ""))]
    part = set_table(COLUMNS, rows, AREA)
    rights = {round(r.box.right, 6) for r in part.records if isinstance(r, Label) and r.string in ("24″", "9″")}
    assert len(rights) == 1
    assert [r.to for r in part.records if isinstance(r, Link)] == ["leg"]


def test_a_group_name_is_not_left_alone_at_the_foot() -> None:
    rows = [Row((str(n), "Leg", "1″", "")) for n in range(8)]
    rows.insert(5, Row(("Shelf",), group=True))
    for height in range(30, 90):
        part = set_table(COLUMNS, rows, AREA._replace(bottom=AREA.top - height))
        laid = rows[: len(rows) - len(part.rest)]
        assert not laid or not laid[-1].group


def test_widths_add_up_to_the_area() -> None:
    rows = [Row(("1", "Leg " * 30, "1 3⁄4″", "Note " * 30))]
    assert sum(column_widths(COLUMNS, rows, 150.0, 3.0)) == pytest.approx(150.0)
    assert sum(column_widths(COLUMNS, [Row(("1", "a", "1", ""))], 150.0, 3.0)) == pytest.approx(150.0)


def test_a_row_of_the_wrong_length_is_our_own_error() -> None:
    with pytest.raises(ValueError):
        set_table(COLUMNS, [Row(("1", "2"))], AREA)


TEXT = st.text("abc def. ghi 1⁄2 ", min_size=1, max_size=400).filter(str.strip)
BLOCKS = st.lists(
    st.one_of(
        TEXT.map(Paragraph),
        st.text("abc", min_size=1, max_size=20).map(Heading),
        st.lists(TEXT, min_size=1, max_size=4).map(lambda t: Listing(tuple(t))),
        TEXT.map(Caution),
        st.just(Gap(4.0)),
    ),
    max_size=12,
)


@settings(max_examples=40, deadline=None)
@given(BLOCKS)
def test_flow_loses_nothing_and_stays_in_its_area(blocks: list[Block]) -> None:
    area = Box(20, 40, 200, 160)
    left: tuple[Block, ...] = tuple(blocks)
    said = ""
    for _ in range(60):
        if not left:
            break
        page = flow(left, area, columns=2)
        if page.records:
            assert area.grown(0.01).holds(box_of(page.records))
        said += words(list(page.records))
        left = page.rest
    assert not left
    expected = ""
    for b in blocks:
        if isinstance(b, Listing):
            expected += "".join("•" + i for i in b.items)
        elif isinstance(b, Caution):
            expected += "!CAUTION" + b.text
        elif isinstance(b, Paragraph | Heading):
            expected += b.text
    assert said.replace("⁄", "") == "".join(expected.split()).replace("⁄", "")


def test_a_numbered_list_keeps_counting_over_a_break() -> None:
    items = tuple(f"Step {n}" for n in range(1, 31))
    page = flow([Listing(items, first=1)], Box(0, 0, 100, 60))
    (rest,) = page.rest
    assert isinstance(rest, Listing) and rest.first is not None
    assert rest.items[0] == f"Step {rest.first}"


def test_a_block_no_column_can_hold_is_our_own_error() -> None:
    with pytest.raises(ValueError):
        flow([Picture((), 500.0)], AREA)


def test_tables_flow_over_columns() -> None:
    rows = tuple(Row((str(n), "Leg", "1″", "")) for n in range(40))
    page = flow([TableBlock(COLUMNS, rows)], AREA, columns=2)
    marks = [r.string for r in page.records if isinstance(r, Label) and r.string.isdigit()]
    assert {str(n) for n in range(40)} <= set(marks)


def test_a_group_that_is_broken_off_is_named_again() -> None:
    rows = (Row(("Saw",), group=True), *(Row((str(n), "Leg", "1″", "")) for n in range(60)))
    left: tuple[Block, ...] = (TableBlock(COLUMNS, rows),)
    said = []
    while left:
        page = flow(left, Box(0, 0, 150, 90))
        said.append([r.string for r in page.records if isinstance(r, Label)])
        left = page.rest
    assert len(said) > 2 and "Saw" in said[0]
    assert all("Saw (continued)" in strings for strings in said[1:])
    assert [word for strings in said for word in strings if word.isdigit()] == [str(n) for n in range(60)]
