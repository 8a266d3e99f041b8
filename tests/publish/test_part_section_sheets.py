"""Sections on part sheets: line, letters and depths stand there once, and no size is lost for them."""

from collections.abc import Sequence

from publish.drawing.records import Label, Sheet
from publish.drawing.wishes import CalloutWish, DimensionWish
from publish.edition import Edition
from publish.part_section_drawing import section_letter
from publish.part_wishes import wishes
from publish.words.sections import section_title


def strings(sheet: Sheet) -> list[str]:
    return [record.string for record in sheet.items if isinstance(record, Label)]


def cut_across(sheets: Sequence[Sheet]) -> list[Sheet]:
    return [s for s in sheets if s.key.startswith("part-") and any(t.startswith(title_on(s)) for t in strings(s))]


def mark_of(sheet: Sheet) -> str:
    return sheet.key.split("-")[1]


def title_on(sheet: Sheet) -> str:
    return section_title(section_letter(mark_of(sheet)))


def test_every_section_has_its_line_on_the_view(set_sheets: Sequence[Sheet]) -> None:
    for sheet in cut_across(set_sheets):
        texts = strings(sheet)
        assert sum(text.startswith(title_on(sheet)) for text in texts) == 1
        assert texts.count(section_letter(mark_of(sheet))) == 2


def test_legs_with_meeting_mortises_are_cut_across(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    if edition.piece.design.stem == "step_stool":
        assert any(sheet.title.lower().endswith("leg") for sheet in cut_across(set_sheets))


def test_no_word_of_a_callout_is_lost_for_a_section(edition: Edition, set_sheets: Sequence[Sheet]) -> None:
    for sheet in cut_across(set_sheets):
        mark = mark_of(sheet)
        item = next(i for i in edition.piece.items if i.mark == mark)
        said = [text for s in set_sheets if s.key.split("-")[:2] == ["part", mark] for text in strings(s)]
        asked = wishes(edition, edition.piece.parts[item.shown], edition.drawn.parts[mark])
        heads = [wish.lines[0].split()[-1] for wish in asked if isinstance(wish, CalloutWish)]
        for head in heads:
            assert any(head in text for text in said), (mark, head)
        assert sum(isinstance(wish, DimensionWish) for wish in asked) <= sum(any(c.isdigit() for c in t) for t in said)
