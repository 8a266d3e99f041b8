"""Every wrong design of tests/bad: exactly the problems it says, exactly there.

A file says what it expects in its first line, `# expect: CODE LINE COLUMN, ...`, or, where it
cannot hold a comment, in a file beside it that ends in `.expect`.
"""

from pathlib import Path

import pytest

from plans.codes import CODES
from plans.resolve import read_design

BAD = Path(__file__).parent.parent / "bad"
FILES = sorted(BAD.glob("*.yaml"))
# no file of the repository can have these: test_source and test_sizes make them
WITHOUT_A_FILE = {"file-not-read", "file-too-large", "size-not-named"}

Expected = list[tuple[str, int, int]]


def expected(path: Path) -> Expected:
    beside = path.with_suffix(".expect")
    if beside.exists():
        entries = beside.read_text().splitlines()
    else:
        first = path.read_text(encoding="utf-8").splitlines()[0]
        entries = first.removeprefix("# expect:").split(",")
    return sorted((code, int(line), int(column)) for code, line, column in (entry.split() for entry in entries))


def of_this_room(path: Path) -> bool:
    return all(code in CODES for code, _, _ in expected(path))


@pytest.mark.parametrize("path", [path for path in FILES if of_this_room(path)], ids=lambda path: path.stem)
def test_wrong_design(path: Path) -> None:
    design, problems = read_design(path)
    assert sorted((p.code, p.place.line, p.place.column) for p in problems) == expected(path)
    assert (design is None) == any(p.severity == "error" for p in problems)
    lines = path.read_bytes().decode("utf-8", "replace").splitlines() or [""]
    for problem in problems:
        assert problem.hint, f"{problem.code} does not say what to do"
        # a long line is shown in part
        assert problem.place.text[:40] in lines[problem.place.line - 1]


def test_every_code_has_a_wrong_design() -> None:
    shown = {code for path in FILES for code, _, _ in expected(path)}
    assert set(CODES) - shown == WITHOUT_A_FILE


def test_messages_hold_no_jargon() -> None:
    for path in filter(of_this_room, FILES):
        for problem in read_design(path)[1]:
            said = f"{problem.message} {problem.hint}".lower()
            for word in ("pydantic", "https:", "traceback", "dict", "tuple", "nonetype", "valueerror"):
                assert word not in said.split(), f"{path.name}: {said}"
