"""The YAML text as a tree in which every key and value knows its line and column.

Scalars stay text: `no`, `1:30` and `012` are what the maker typed. The tree is made from the parse
events, so that depth and size are counted while reading and a hostile file is refused early.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from plans.yaml_errors import Finding, Spot, odd_character, spot_of, syntax_finding

DEPTH_LIMIT = 40
NODE_LIMIT = 100_000
NULLS = ("", "~", "null")


@dataclass(frozen=True)
class Scalar:
    """A piece of text, or None where nothing (or `null`) is written. `plain`: on one line, without quotes."""

    spot: Spot
    text: str | None
    plain: bool = True
    size: int = 1
    depth: int = 0


@dataclass(frozen=True)
class Sequence:
    """A list."""

    spot: Spot
    items: tuple["Node", ...]
    size: int = 1
    depth: int = 1


@dataclass(frozen=True)
class Mapping:
    """Keys and values, and the spot of each key."""

    spot: Spot
    items: dict[str, "Node"]
    keys: dict[str, Spot]
    size: int = 1
    depth: int = 1


Node = Scalar | Sequence | Mapping


class TreeRefused(Exception):
    """Reading cannot go on. Caught in `grow_tree`; never leaves this module."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


@dataclass
class _Grower:
    """Turns the stream of parse events into nodes."""

    events: Iterator[yaml.Event]
    findings: list[Finding] = field(default_factory=list)
    anchors: dict[str, Node | None] = field(default_factory=dict)
    count: int = 0

    def node(self, event: yaml.Event, level: int) -> Node:
        """The node that begins with `event`, `level` deep."""
        spot = spot_of(event.start_mark)
        if isinstance(event, yaml.AliasEvent):
            return self._alias(event, spot, level)
        assert isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent)
        if event.tag is not None:
            self.findings.append(
                Finding("yaml-tag", spot, f"the tag `{_shown(event.tag)}` has no meaning here", "write the bare value")
            )
        if event.anchor is not None:
            self.anchors[event.anchor] = None
        node = self._bare_node(event, spot, level)
        if event.anchor is not None:
            self.anchors[event.anchor] = node
        return node

    def _bare_node(self, event: yaml.Event, spot: Spot, level: int) -> Node:
        if isinstance(event, yaml.ScalarEvent):
            self._grow(1, spot)
            one_line = spot.line == spot_of(event.end_mark).line
            plain = event.style is None and one_line
            text = None if event.style is None and event.value in NULLS else event.value
            return Scalar(spot, text, plain)
        self._check_depth(level + 1, spot)
        self._grow(1, spot)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(spot, level)
        return self._mapping(spot, level)

    def _sequence(self, spot: Spot, level: int) -> Sequence:
        items: list[Node] = []
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            items.append(self.node(event, level + 1))
        return Sequence(
            spot, tuple(items), 1 + sum(n.size for n in items), 1 + max((n.depth for n in items), default=0)
        )

    def _mapping(self, spot: Spot, level: int) -> Mapping:
        items: dict[str, Node] = {}
        keys: dict[str, Spot] = {}
        size, depth = 1, 0
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            key = self._key(event, level)
            key_spot = spot_of(event.start_mark)
            value = self.node(next(self.events), level + 1)
            size, depth = size + 1 + value.size, max(depth, value.depth)
            if key is None:
                continue
            if key in items:
                self._twice(key, keys[key], key_spot)
                continue
            items[key], keys[key] = value, key_spot
        return Mapping(spot, items, keys, size, depth + 1)

    def _key(self, event: yaml.Event, level: int) -> str | None:
        """The key as text, or None when it cannot be used (and has been told)."""
        node = self.node(event, level + 1)
        if not isinstance(node, Scalar):
            message = "a key must be a name, not a list or a mapping"
            hint = "text that begins with [ or { needs quotes round it"
            self.findings.append(Finding("key-not-text", node.spot, message, hint))
            return None
        if node.text == "<<" and node.plain:
            message = "the YAML merge key `<<` is not understood in a design file"
            self.findings.append(Finding("merge-key", node.spot, message, "write the values out, or give them a name"))
            return None
        return node.text or ""

    def _twice(self, key: str, first: Spot, second: Spot) -> None:
        again = (
            f"first on line {first.line}, column {first.column}, again on line {second.line}, column {second.column}"
        )
        message = f"`{key}` stands twice: {again}"
        self.findings.append(Finding("duplicate-key", second, message, "keep one of the two"))

    def _alias(self, event: yaml.AliasEvent, spot: Spot, level: int) -> Node:
        name = event.anchor
        if name not in self.anchors:
            raise TreeRefused(
                Finding(
                    "yaml-syntax",
                    spot,
                    f"`*{name}` stands for nothing: no `&{name}` comes before it",
                    "write the value",
                )
            )
        target = self.anchors[name]
        if target is None:
            raise TreeRefused(Finding("alias-loop", spot, f"`*{name}` stands inside itself", "write the value out"))
        self._check_depth(level + target.depth, spot)
        self._grow(target.size, spot)
        return target

    def _check_depth(self, depth: int, spot: Spot) -> None:
        if depth > DEPTH_LIMIT:
            message = f"lists and mappings are nested more than {DEPTH_LIMIT} deep"
            raise TreeRefused(Finding("too-deep", spot, message, "no design needs this; look for a stray bracket"))

    def _grow(self, size: int, spot: Spot) -> None:
        self.count += size
        if self.count > NODE_LIMIT:
            message = f"the file holds more than {NODE_LIMIT} values, aliases counted each time they are used"
            raise TreeRefused(Finding("too-many-values", spot, message, "look for aliases of aliases"))


def _shown(tag: str) -> str:
    """A tag as it is usually typed: `!!int` for the long form that the reader makes of it."""
    return tag.replace("tag:yaml.org,2002:", "!!")


def grow_tree(text: str) -> tuple[Node | None, tuple[Finding, ...]]:
    """The tree of a YAML text, and what is wrong with it; no tree where reading had to stop.

    An empty text gives no tree and no finding.
    """
    grower = _Grower(iter(()))
    try:
        # a stray control character is refused as soon as the text is handed over
        grower.events = iter(yaml.parse(text, Loader=yaml.SafeLoader))
        node = _only_document(grower)
    except TreeRefused as refused:
        return None, (*grower.findings, refused.finding)
    except yaml.reader.ReaderError as error:
        return None, (odd_character(text, error),)
    except yaml.MarkedYAMLError as error:
        return None, (*grower.findings, syntax_finding(text, error))
    return node, tuple(grower.findings)


def _only_document(grower: _Grower) -> Node | None:
    node: Node | None = None
    for event in grower.events:
        if not isinstance(event, yaml.DocumentStartEvent):
            continue
        if node is not None:
            message = "a second document begins here; a design file holds one"
            raise TreeRefused(
                Finding("several-documents", spot_of(event.start_mark), message, "take out the `---`, or use two files")
            )
        node = grower.node(next(grower.events), 0)
    return node
