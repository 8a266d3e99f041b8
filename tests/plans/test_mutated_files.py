"""Files spoilt at random: a design or problems with a line, never an exception."""

from pathlib import Path

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
TEXT = (Path(__file__).parent.parent.parent / "designs" / "hook_rail.yaml").read_bytes() + AS_BUILT
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
edits = st.lists(
    st.tuples(st.integers(0, len(TEXT)), st.integers(0, 30), st.sampled_from(SCRAPS)), min_size=1, max_size=4
)


@settings(max_examples=200, deadline=None)
@given(edits)
def test_spoilt_files_are_read_or_refused(changes: list[tuple[int, int, bytes]]) -> None:
    raw = TEXT
    for start, length, scrap in changes:
        raw = raw[:start] + scrap + raw[start + length :]
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
