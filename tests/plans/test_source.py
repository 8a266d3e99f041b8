"""Files as they were written: positions, text that stays text, and what is refused."""

import os
from pathlib import Path

import pytest

from plans.source import SIZE_LIMIT, Source, read_source, read_text
from plans.tree import DEPTH_LIMIT


def source_of(text: str) -> Source:
    source, problems = read_text("x.yaml", text.encode())
    assert source is not None, problems
    assert not problems
    return source


def codes(raw: bytes) -> list[tuple[str, int, int]]:
    return [(p.code, p.place.line, p.place.column) for p in read_text("x.yaml", raw)[1]]


def test_scalars_stay_text() -> None:
    # YAML 1.1 would make these a boolean, a number of seconds, an octal number, a float, a day
    data = source_of(
        "a: no\nb: 1:30\nc: 012\nd: 1e3\ne: 2026-11-20\nf: 0x10\ng: .inf\nh: null\ni: ~\nj:\nk: 'null'\n"
    ).data
    assert data == {
        "a": "no",
        "b": "1:30",
        "c": "012",
        "d": "1e3",
        "e": "2026-11-20",
        "f": "0x10",
        "g": ".inf",
        "h": None,
        "i": None,
        "j": None,
        "k": "null",
    }


def test_places_of_keys_values_and_items() -> None:
    source = source_of("parts:\n  leg:\n    where: {left: 3, top: 4}\njoints:\n  - bridle: {of: a,\n      into: b}\n")

    def at(*path: str | int) -> tuple[int, int]:
        place = source.place(path)
        return place.line, place.column

    assert at("parts") == (1, 1)
    assert at("parts", "leg") == (2, 3)
    assert at("parts", "leg", "where", "top") == (3, 27)
    assert at("parts", "leg", "where", "right") == (3, 5)  # not there: its nearest ancestor
    assert at("parts", "rail", "where") == (1, 1)
    assert at("joints", 0) == (5, 5)
    assert at("joints", 0, "*") == (5, 5)
    assert at("joints", 0, "*", "into") == (6, 13)
    assert at("joints", 7) == (4, 1)
    key = source.key_place(("parts", "leg", "where", "top"))
    assert (key.line, key.column, key.text) == (3, 22, "    where: {left: 3, top: 4}")


def test_places_inside_a_text() -> None:
    source = source_of("a: one + two\nb: 'one + two'\nc: |\n  one + two\n")
    assert source.text_place(("a",), 6).column == 10
    # in quotes and in blocks the text does not lie on the line as it is
    assert source.text_place(("b",), 6).column == 4
    assert source.text_place(("c",), 6).line == 3


def test_windows_lines_and_a_byte_order_mark() -> None:
    source, problems = read_text("x.yaml", b"\xef\xbb\xbfplan: a\r\nunits: mm\r\n")
    assert source is not None and not problems
    place = source.place(("units",))
    assert (place.line, place.column, place.text) == (2, 8, "units: mm")


def test_an_alias_is_where_its_anchor_is() -> None:
    source = source_of("a: &a {b: 1}\nc: *a\n")
    assert source.data == {"a": {"b": "1"}, "c": {"b": "1"}}
    assert source.place(("c", "b")).line == 1


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        (b"", [("file-empty", 1, 1)]),
        (b"\n# only this\n", [("file-empty", 1, 1)]),
        (b"null\n", [("file-empty", 1, 1)]),
        (b"--- \n", [("file-empty", 1, 1)]),
        (b"just words\n", [("not-a-mapping", 1, 1)]),
        (b"a: 1\nb: \xff\n", [("not-utf-8", 2, 4)]),
        ("a: 1\nb: ä\n".encode("utf-16"), [("not-utf-8", 1, 1)]),
        (b"a: 1\n\tb: 2\n", [("tab-indent", 2, 1)]),
        (b"a:\n  b: 1\n  \tc: 2\n", [("tab-indent", 3, 3)]),
        (b"a: 1\na: 2\na: 3\n", [("duplicate-key", 2, 1), ("duplicate-key", 3, 1)]),
        (b"a: {b: 1, b: 2}\n", [("duplicate-key", 1, 11)]),
        (b"a: !x 1\nb: !!python/object:os.system {}\n", [("yaml-tag", 1, 4), ("yaml-tag", 2, 4)]),
        (b"a: &a {b: 1}\nc:\n  <<: *a\n", [("merge-key", 3, 3)]),
        (b"a: *b\n", [("yaml-syntax", 1, 4)]),
        (b"a: &a [*a]\n", [("alias-loop", 1, 8)]),
        (b"? [a]\n: 1\n", [("key-not-text", 1, 3)]),
        (b"a: 1\n---\nb: 1\n", [("several-documents", 2, 1)]),
        (b"a: [1, 2\nb: 3\n", [("yaml-syntax", 1, 4)]),
        (b"a: \x00\n", [("odd-character", 1, 4)]),
        (b"a: " + b"[" * 100_000, [("too-deep", 1, 4 + DEPTH_LIMIT - 1)]),
        (b"[" * 100_000, [("too-deep", 1, DEPTH_LIMIT + 1)]),
    ],
)
def test_refusals(raw: bytes, expected: list[tuple[str, int, int]]) -> None:
    assert codes(raw) == expected


def test_both_places_of_a_duplicate_key_are_told() -> None:
    (problem,) = read_text("x.yaml", b"a: 1\nb: 2\na: 3\n")[1]
    assert "line 1, column 1" in problem.message
    assert "line 3, column 1" in problem.message


def test_nesting_through_aliases_is_counted() -> None:
    lines = ["a0: &a0 [[[[[1]]]]]"] + [f"a{n}: &a{n} [[[[[*a{n - 1}]]]]]" for n in range(1, 9)]
    found = codes("\n".join(lines).encode())
    assert [code for code, _, _ in found] == ["too-deep"]


def test_an_alias_bomb_is_refused_at_once() -> None:
    lines = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    lines += [
        f"{name}: &{name} [{', '.join(['*' + before] * 9)}]"
        for before, name in zip("abcdefgh", "bcdefghi", strict=True)
    ]
    assert [code for code, _, _ in codes("\n".join(lines).encode())] == ["too-many-values"]


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    def code(path: Path) -> str:
        source, (problem,) = read_source(path)
        assert source is None
        assert problem.place.file == path.as_posix()
        return problem.code

    assert code(tmp_path / "none.yaml") == "file-not-read"
    assert code(tmp_path) == "file-not-read"
    assert code(Path("nul\0name")) == "file-not-read"
    large = tmp_path / "large.yaml"
    large.write_bytes(b"#" * (SIZE_LIMIT + 1))
    assert code(large) == "file-too-large"
    if os.geteuid() != 0:  # root may read everything
        locked = tmp_path / "locked.yaml"
        locked.write_text("plan: x\n")
        locked.chmod(0)
        assert code(locked) == "file-not-read"
