"""Two thousand files spoilt at random: a design or problems with a line, never an exception."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plans.resolve import resolve
from plans.source import read_text

AS_BUILT = b"""
measured:
  - {size: shelf.recess size, along: left-right, is: 6, decided: note, note: "See the {shelf}."}
  - {between: [all shelf.top, floor], is: 5 1/4, give or take: 1/16}
did differently:
  - {what: "The {back board} is {back board.width} wide.", decided: slip}
"""
DESIGNS = sorted((Path(__file__).parent.parent.parent / "designs").glob("*.yaml"))
EACH = 2000 // len(DESIGNS) + 1
SCRAPS = [
    *(
        b"",
        b"\n",
        b"  ",
        b"\t",
        b":",
        b": ",
        b"- ",
        b"{",
        b"}",
        b"[",
        b"]",
        b"&a ",
        b"*a",
        b"!!int ",
        b"<<: ",
        b"'",
        b'"',
    ),
    *(
        b"#",
        b"|\n",
        b"---\n",
        b"\xff",
        b"\x00",
        b"null",
        b"9999999999",
        b"1/0",
        b"((((",
        b"shelf.top",
        b"length",
        b" + ",
    ),
    *(b"front-back", b"mm", b"? ", b"@", b"%", b"{}", b"[]", b"\xc2\xbd"),
]
Change = tuple[float, int, bytes, float | None]
edits = st.lists(
    st.tuples(st.floats(0, 1), st.integers(0, 30), st.sampled_from(SCRAPS), st.none() | st.floats(0, 1)),
    min_size=1,
    max_size=4,
)


def spoilt(text: bytes, changes: list[Change]) -> bytes:
    """The file with scraps written over it here and there, and lines of it put elsewhere."""
    for start, length, scrap, line in changes:
        at = int(start * len(text))
        text = text[:at] + scrap + text[at + length :]
        if line is not None:
            lines = text.split(b"\n")
            lines.insert(int(start * len(lines)), lines.pop(int(line * (len(lines) - 1))))
            text = b"\n".join(lines)
    return text


@pytest.mark.parametrize("design", DESIGNS, ids=lambda path: path.stem)
@settings(max_examples=EACH, deadline=None)
@given(changes=edits)
def test_spoilt_files_are_read_or_refused(design: Path, changes: list[Change]) -> None:
    text = design.read_bytes()
    raw = spoilt(text + AS_BUILT if design.stem == "hook_rail" else text, changes)
    source, problems = read_text("spoilt.yaml", raw)
    if source is None:
        assert problems
    else:
        design, found = resolve(source)
        problems = (*problems, *found)
        assert design is not None or problems
    for problem in problems:
        assert problem.place.line >= 1
        assert problem.place.column >= 1
        assert problem.message
