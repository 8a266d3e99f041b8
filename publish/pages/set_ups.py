"""Tools and set-ups: what each kind of work takes, by machine or by hand, and settings that serve several parts."""

from __future__ import annotations

from publish.drawing.flow import Block, Heading, Paragraph, TableBlock
from publish.drawing.table import Column, Row
from publish.edition import Edition, Leaf
from publish.pages.running import running_pages
from publish.words.set_ups import Set, gathered
from publish.words.tools import tools

TOOL_COLUMNS = (
    Column("For", stretch=1.0, style="semibold"),
    Column("Tool", stretch=1.3),
    Column("By hand", stretch=1.3),
)
SETTING_COLUMNS = (Column("Set to", stretch=0.4, style="semibold", least=24.0), Column("Serves", stretch=1.6))


def leaves(edition: Edition) -> list[Leaf]:
    """The tools, then the set-ups in the order of the shop."""
    blocks = [*_tools(edition), *_set_ups(edition)]
    return running_pages(edition, "set-ups", "Tools and set-ups", blocks, columns=2)


def _tools(edition: Edition) -> list[Block]:
    rows = tuple(Row(row) for row in tools(edition))
    note = "Any tool that does the work safely will do. Follow the instructions of your own machines."
    return [Heading("Tools"), TableBlock(TOOL_COLUMNS, rows), Paragraph(note, small=True)]


def _set_ups(edition: Edition) -> list[Block]:
    note = (
        "Set once, and cut every part that needs it before you move the fence or the blade. Largest first: what is cut "
        "wrong can still become a smaller part. In brackets: cuts or places in all, where that is not one a part."
    )
    rows = [row for settings in gathered(edition).values() for row in _machine(settings)]
    return [Heading("Set-ups"), Paragraph(note, small=True), TableBlock(SETTING_COLUMNS, tuple(rows))]


def _machine(settings: list[Set]) -> list[Row]:
    """A group: the settings of one machine, and what to try before the first."""
    machine = settings[0].machine
    rows = [Row((machine.title,), group=True)]
    rows += [Row((one.first, "; ".join(one.serves))) for one in settings]
    if machine.test:
        rows.append(Row(("Test piece", machine.test)))
    return rows
