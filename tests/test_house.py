"""The rules of the house that readers would otherwise have to keep: rooms, the kernel's fence, the tables."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
ROOMS = ("plans", "model", "publish")
MAY_IMPORT = {"plans": {"plans"}, "model": {"plans", "model"}, "publish": {"plans", "model", "publish"}}
KERNEL = {"cadquery", "OCP", "manifold3d"}
KERNEL_OUTSIDE_MODEL = {"publish/project.py", "publish/shade.py", "publish/writers/step.py"}
FILES = sorted(path for room in ROOMS for path in (ROOT / room).rglob("*.py"))
LONGEST = 400  # lines; past that there are two things in a file

# the tables of kinds: where a kind is written, what carries it out, and what tests it
FAMILIES = {
    "joints": ("JOINTS", "JOINERS", "joint"),
    "shaping": ("SHAPINGS", "SHAPERS", "shaping"),
    "fixings": ("FIXINGS", "FIXERS", "fixing"),
}
HELPERS = {
    *("__init__", "joining", "let_in", "framed", "corners"),
    *("arrises", "easing", "shaped", "stops", "channels", "sawn", "mouldings", "cutters"),
    *("seating", "fitting"),
}


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imports(path: Path, *, typing_too: bool = True) -> Iterator[str]:
    """Top-level names of every package a file imports, wherever in the file."""
    skipped = set() if typing_too else {id(n) for n in for_types_only(tree(path))}
    for node in ast.walk(tree(path)):
        if id(node) in skipped:
            continue
        if isinstance(node, ast.Import):
            yield from (alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, f"{name_of(path)} imports by dots"
            yield (node.module or "").split(".")[0]


def for_types_only(module: ast.Module) -> Iterator[ast.AST]:
    """What stands under `if TYPE_CHECKING:`: it is never run."""
    for node in ast.walk(module):
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            for statement in node.body:
                yield from ast.walk(statement)


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_imports_only_point_left(path: Path) -> None:
    room = path.relative_to(ROOT).parts[0]
    ours = {name for name in imports(path) if name in ROOMS}
    assert ours <= MAY_IMPORT[room]
    assert "tests" not in set(imports(path))


@pytest.mark.parametrize("path", [path for path in FILES if name_of(path).split("/")[0] != "model"], ids=name_of)
def test_the_kernel_stays_behind_its_fence(path: Path) -> None:
    if name_of(path) not in KERNEL_OUTSIDE_MODEL:
        assert not KERNEL & set(imports(path, typing_too=False))


def table(path: Path, name: str) -> dict[str, str]:
    """A table written out in a file, keys and values as they are spelt: {"written.Bridle": "bridle.join"}."""
    for node in tree(path).body:
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.target.id == name:
            assert isinstance(node.value, ast.Dict)
            pairs = zip(node.value.keys, node.value.values, strict=True)
            return {spelt(key): spelt(value) for key, value in pairs}
    raise AssertionError(f"{name_of(path)} has no table {name}")


def spelt(node: ast.expr | None) -> str:
    assert node is not None
    return str(node.value) if isinstance(node, ast.Constant) else ast.unparse(node)


@pytest.mark.parametrize("family", FAMILIES)
def test_tables_and_files_name_the_same_kinds(family: str) -> None:
    written, carried_out, short = FAMILIES[family]
    kinds = table(ROOT / "plans" / family / "__init__.py", written)
    makers = table(ROOT / "model" / family / "__init__.py", carried_out)
    words = {kind: kind.replace(" ", "_") for kind in kinds}
    # the function that carries out a kind stands in the file of that kind
    assert {key.removeprefix("written."): maker.split(".")[0] for key, maker in makers.items()} == {
        kinds[kind]: word for kind, word in words.items()
    }
    for room in ("plans", "model"):
        assert {path.stem for path in (ROOT / room / family).glob("*.py")} - HELPERS == set(words.values())
    tests = {path.stem for path in (ROOT / "tests" / "model" / family).glob("test_*.py")}
    assert {f"test_{short}_{word}" for word in words.values()} <= tests


def test_every_shaping_has_its_stage() -> None:
    room = ROOT / "model" / "shaping" / "__init__.py"
    stages = table(room, "STAGE_OF")
    assert set(stages) == set(table(room, "SHAPERS"))
    assert set(stages.values()) == {"outline", "easing", "sunk"}


def test_test_files_have_names_of_their_own() -> None:
    stems = [path.stem for path in (ROOT / "tests").rglob("test_*.py")]
    assert len(stems) == len(set(stems))
    assert not list((ROOT / "tests").rglob("__init__.py"))


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_files_are_short_and_say_what_they_are(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= LONGEST
    assert not text.strip() or ast.get_docstring(tree(path))


# numbers that are no sizes of a piece: how to print, what rift-sawn means, a square, what drills and abrasives are sold
# in, the bars that a sheet of paper is checked by, and what the fit report refers to
NO_SIZES = (
    *("100 %", "45°", "90°", "1/64", "9 × 11 in", "230 × 280 mm", "100 mm", "4 in", "a4", "0123456789"),
    *("table 13-5", "12 % moisture", "libGL.so.1", "libgl1"),
)
FORMAT = re.compile(r"[,+]?\.?\d?[a-z]|,?\.\d[a-z]")


def typed_numbers(source: ast.Module) -> list[str]:
    """Words of a file with a figure in them, its docstrings left out."""
    documents = {
        id(node.body[0].value)
        for node in ast.walk(source)
        if isinstance(node, ast.Module | ast.FunctionDef | ast.ClassDef) and isinstance(node.body[0], ast.Expr)
    }
    found = []
    for node in ast.walk(source):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in documents:
            # how something is written in a design file is no size of a piece
            left = re.sub(r"`[^`]*`|\{[^}]*\}", "", node.value)
            for phrase in NO_SIZES:
                left = left.replace(phrase, "")
            if re.search(r"\d", left) and not FORMAT.fullmatch(left):
                found.append(node.value)
    return found


@pytest.mark.parametrize("path", [p for p in FILES if p.parent.name == "words"], ids=name_of)
def test_no_size_is_typed_in_a_sentence(path: Path) -> None:
    """What is printed of the piece comes from its model (the design: a number is typed once, in the design file)."""
    assert not typed_numbers(tree(path))


def test_a_size_typed_in_a_sentence_is_found() -> None:
    assert typed_numbers(ast.parse("""text = f"Bore a 6 mm hole {deep:.1f} deep." """)) == ["Bore a 6 mm hole "]
    assert typed_numbers(ast.parse("""text = f"Print at 100 %, {deep:.1f} deep." """)) == []
