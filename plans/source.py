"""A design file as it was written: its text, and where in it each thing stands."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plans.problems import Place, Problem
from plans.tree import Mapping, Node, Scalar, Sequence, grow_tree
from plans.yaml_errors import Finding, Spot

SIZE_LIMIT = 1_000_000  # bytes
TEXT_LIMIT = 200  # characters of a line that are shown
_LINE_BREAK = re.compile("\r\n|[\r\n\x85\u2028\u2029]")  # where YAML 1.1 ends a line

KeyPath = tuple[str | int, ...]


@dataclass(frozen=True)
class Source:
    """A file that was read: `root` is its top mapping, `lines` its text."""

    file: str
    lines: tuple[str, ...]
    root: Mapping

    @property
    def data(self) -> dict[str, Any]:
        """The file as plain dicts, lists, texts and None."""
        return {key: plain(value) for key, value in self.root.items.items()}

    def place(self, path: KeyPath) -> Place:
        """Where `path` was written, or its nearest known ancestor.

        Items are keys and numbers (from 0); "*" is the only key of a one-entry mapping. A text or a
        list item is pointed at itself, a mapping or a list that has a key at its key.
        """
        return self.at(self._find(path)[0])

    def written(self, path: KeyPath) -> str | None:
        """The text at `path`; None where there is none."""
        _, node, _, whole = self._walk(path)
        return node.text if whole and isinstance(node, Scalar) else None

    def key_place(self, path: KeyPath) -> Place:
        """Where the last key of `path` was written, or its nearest known ancestor."""
        key, whole = self._walk(path)[2:]
        return self.at(key if whole and key is not None else self._find(path)[0])

    def text_place(self, path: KeyPath, offset: int) -> Place:
        """The place `offset` characters into the text at `path`; its beginning where that cannot be told."""
        spot, node = self._find(path)
        if isinstance(node, Scalar) and node.plain and offset > 0:
            spot = Spot(spot.line, spot.column + offset)
        return self.at(spot)

    def at(self, spot: Spot) -> Place:
        """A place with its line of text."""
        text = self.lines[spot.line - 1] if 0 < spot.line <= len(self.lines) else ""
        return Place(self.file, spot.line, spot.column, text[:TEXT_LIMIT])

    def _find(self, path: KeyPath) -> tuple[Spot, Node]:
        _, node, key, _ = self._walk(path)
        return (node.spot if isinstance(node, Scalar) or key is None else key), node

    def _walk(self, path: KeyPath) -> tuple[KeyPath, Node, Spot | None, bool]:
        """How far `path` leads: the path gone, the node there, the spot of its key, whether it is the whole path."""
        node: Node = self.root
        key: Spot | None = None
        for done, item in enumerate(path):
            if isinstance(node, Mapping):
                name = next(iter(node.items)) if item == "*" and len(node.items) == 1 else item
                if name not in node.items:
                    return path[:done], node, key, False
                key = node.keys[str(name)]
                node = node.items[str(name)]
            elif isinstance(node, Sequence) and isinstance(item, int) and 0 <= item < len(node.items):
                node, key = node.items[item], None
            else:
                return path[:done], node, key, False
        return path, node, key, True


def plain(node: Node) -> Any:
    """A node as plain dicts, lists, texts and None."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, value in node.items.items()}


def read_source(path: str | Path) -> tuple[Source | None, tuple[Problem, ...]]:
    """The file at `path`, and all that is wrong with it as YAML; no source where nothing can be read."""
    file = Path(path).as_posix()
    raw = _read_bytes(Path(path))
    if isinstance(raw, str):
        code = "file-too-large" if "larger" in raw else "file-not-read"
        return None, (Problem(code, "error", raw, Place(file), "give the name of a design file"),)
    return read_text(file, raw)


def read_text(file: str, raw: bytes) -> tuple[Source | None, tuple[Problem, ...]]:
    """As `read_source`, from the bytes of a file that is called `file`."""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return None, (_not_utf8(file, raw, error),)
    lines = tuple(_LINE_BREAK.split(text))
    node, findings = grow_tree(text)
    if node is None and not findings:
        return None, (_nothing(file),)
    empty = Mapping(Spot(1, 1), {}, {})
    source = Source(file, lines, node if isinstance(node, Mapping) else empty)
    problems = tuple(_told(source, finding) for finding in findings)
    if isinstance(node, Mapping):
        return source, problems
    if isinstance(node, Scalar) and node.text is None:
        return None, (*problems, _nothing(file))
    if node is not None:
        message = "the file must be made of `key: value` lines at the top"
        place = source.at(node.spot)
        problems += (Problem("not-a-mapping", "error", message, place, "begin with `plan: the name of the piece`"),)
    return None, problems


def _read_bytes(path: Path) -> bytes | str:
    """The bytes of a file, or the sentence that says why not."""
    try:
        with path.open("rb") as stream:
            raw = stream.read(SIZE_LIMIT + 1)
    except FileNotFoundError:
        return "there is no such file"
    except IsADirectoryError:
        return "this is a folder, not a design file"
    except PermissionError:
        return "this file may not be read"
    except (OSError, ValueError):
        return "this file cannot be read"
    return raw if len(raw) <= SIZE_LIMIT else f"the file is larger than {SIZE_LIMIT // 1_000_000} MB"


def _told(source: Source, finding: Finding) -> Problem:
    return Problem(finding.code, "error", finding.message, source.at(finding.spot), finding.hint)


def _nothing(file: str) -> Problem:
    return Problem(
        "file-empty",
        "error",
        "nothing is written in this file",
        Place(file, 1, 1),
        "begin with `plan: the name of the piece`",
    )


def _not_utf8(file: str, raw: bytes, error: UnicodeDecodeError) -> Problem:
    before = raw[: error.start].decode("utf-8-sig")
    line = len(_LINE_BREAK.findall(before)) + 1
    column = len(_LINE_BREAK.split(before)[-1]) + 1
    message = f"byte {error.start + 1} of the file, 0x{raw[error.start]:02X} on line {line}, is not UTF-8 text"
    return Problem(
        "not-utf-8",
        "error",
        message,
        Place(file, line, column, _LINE_BREAK.split(before)[-1][:TEXT_LIMIT]),
        "save the file as UTF-8",
    )
