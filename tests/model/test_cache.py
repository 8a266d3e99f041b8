"""Work kept from run to run: a key is that of the things alone, and no fault of the folder does any harm."""

from __future__ import annotations

import io
import os
import pickle
import sqlite3
import threading
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model import cache, kernel
from model.brep import content, packed, unpacked
from model.cache import FILE, Cache, kept, kept_in
from model.digest import digest
from model.frames import placing
from publish.drawing.box import Box, Segment
from publish.drawing.records import Line
from publish.drawing.style import HOUSE

LEAF = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False), st.text(), st.binary(), st.fractions()
)
VALUE = st.recursive(
    LEAF,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.tuples(inner, inner),
        st.dictionaries(st.text(max_size=3), inner, max_size=3),
        st.frozensets(LEAF, max_size=3),
    ),
    max_leaves=8,
)


def told_apart(value: object) -> str:
    """What a key has to tell apart: the kinds and the bits of everything inside."""
    if isinstance(value, float):
        return value.hex()
    if isinstance(value, dict):
        return f"d{[(told_apart(k), told_apart(v)) for k, v in value.items()]}"
    if isinstance(value, frozenset):
        return f"e{sorted(told_apart(v) for v in value)}"
    if isinstance(value, list | tuple):
        return f"{type(value).__name__}{[told_apart(v) for v in value]}"
    return f"{type(value).__name__} {value!r}"


@settings(max_examples=300, deadline=None)
@given(VALUE, VALUE)
def test_two_values_have_one_key_just_where_they_are_alike(a: object, b: object) -> None:
    assert (digest(a) == digest(b)) == (told_apart(a) == told_apart(b))
    assert digest(a) == digest(pickle.loads(pickle.dumps(a)))


def test_a_record_is_told_by_every_field() -> None:
    box = Box(0.0, 1.0, 2.0, 3.0)
    assert digest(box) != digest(Segment(0.0, 1.0, 2.0, 3.0)) != digest((0.0, 1.0, 2.0, 3.0))
    assert digest(HOUSE) == digest(replace(HOUSE)) and digest(HOUSE) != digest(replace(HOUSE, pens=None))
    assert digest(np.zeros(3)) != digest(np.zeros(3, dtype=np.float32)) != digest(np.zeros((3, 1)))


def test_what_has_no_key_is_refused() -> None:
    with pytest.raises(TypeError, match="has no key"):
        digest(lambda: None)


def test_an_answer_comes_back_as_it_was(tmp_path: Path) -> None:
    answer = (Line(0, 0, 1, 1, HOUSE.pens.visible), Box(0, 0, 1, 1), np.arange(6.0).reshape(2, 3), Fraction(1, 3))
    with kept_in(tmp_path):
        kept("test", lambda: 1, lambda: answer)
    with kept_in(tmp_path):
        line, box, array, third = kept("test", lambda: 1, lambda: pytest.fail("it was there"))
    assert (line, box, third) == (answer[0], answer[1], answer[3])
    assert isinstance(box, Box) and np.array_equal(array, answer[2]) and array.dtype == np.float64


def test_what_is_kept_with_a_record_stays_behind() -> None:
    line = Line(0, 0, 1, 1, HOUSE.pens.visible)
    digest(line)
    assert vars(cache.unpacked(cache.packed(line))).keys() == {"x0", "y0", "x1", "y1", "pen"}


class Runs:
    def __reduce__(self) -> Any:
        return os.system, ("true",)


def by_name(module: str, name: str) -> bytes:
    """An answer that calls something by name, without arguments."""
    return b"\x80\x04" + b"".join(b"\x8c" + bytes([len(n)]) + n.encode() for n in (module, name)) + b"\x93)R."


@pytest.mark.parametrize(
    "value",
    [
        pickle.dumps(Runs()),
        by_name("model.cache", "os.getcwd"),
        by_name("model.cache", "usual_folder"),
        by_name("publish.in_place", "shutil.rmtree"),
        by_name("model.cache", "Cache"),
        by_name("builtins", "eval"),
    ],
)
def test_an_answer_runs_nothing(value: bytes) -> None:
    """A folder that somebody else wrote to cannot make a program of ours do anything (pickle's own documentation)."""
    with pytest.raises(pickle.UnpicklingError):
        cache.unpacked(value)


def test_work_is_done_once(tmp_path: Path) -> None:
    done: list[int] = []

    def work() -> int:
        done.append(1)
        return 7

    for _ in range(2):
        with kept_in(tmp_path):
            assert [kept("a", lambda: 1, work), kept("a", lambda: 1, work)] == [7, 7]
    assert len(done) == 1
    with kept_in(tmp_path):
        kept("a", lambda: 2, work)
        kept("b", lambda: 1, work)
    assert len(done) == 3
    with kept_in(None):
        kept("a", lambda: 1, work)
    assert len(done) == 4, "no folder, nothing kept"


def test_what_fails_is_not_kept(tmp_path: Path) -> None:
    with kept_in(tmp_path):
        with pytest.raises(ZeroDivisionError):
            kept("a", lambda: 1, lambda: 1 // 0)
        assert kept("a", lambda: 1, lambda: 3) == 3


def test_another_program_has_other_answers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with kept_in(tmp_path):
        kept("a", lambda: 1, lambda: 3)
        monkeypatch.setattr(cache, "program", lambda: b"another")
        assert kept("a", lambda: 1, lambda: 4) == 4


def broken_file(folder: Path) -> None:
    (folder / FILE).write_bytes(b"no database at all" * 100)


def broken_answer(folder: Path) -> None:
    with sqlite3.connect(folder / FILE) as file:
        file.execute("UPDATE answer SET value = ?", (b"no answer",))


def half_a_file(folder: Path) -> None:
    whole = (folder / FILE).read_bytes()
    (folder / FILE).write_bytes(whole[: len(whole) // 2])


@pytest.mark.parametrize("harm", [broken_file, broken_answer, half_a_file])
def test_a_broken_folder_is_begun_anew(harm: Any, tmp_path: Path) -> None:
    with kept_in(tmp_path):
        kept("a", lambda: 1, lambda: 3)
    harm(tmp_path)
    for expected in (4, 4):
        with kept_in(tmp_path):
            assert kept("a", lambda: 1, lambda: 4) == expected


def test_without_a_folder_that_can_be_written_to_the_work_is_done(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with kept_in(tmp_path / "file" / "cache"):
        assert kept("a", lambda: 1, lambda: 3) == 3


def test_the_folder_may_be_deleted_meanwhile(tmp_path: Path) -> None:
    with kept_in(tmp_path / "cache"):
        kept("a", lambda: 1, lambda: 3)
        for file in (tmp_path / "cache").iterdir():
            file.unlink()
        (tmp_path / "cache").rmdir()
        assert kept("a", lambda: 1, lambda: 4) == 3
    with kept_in(tmp_path / "cache"):
        assert kept("a", lambda: 1, lambda: 5) in (3, 5)


def test_what_was_used_last_stays(tmp_path: Path) -> None:
    noise = np.random.default_rng(1)
    made = [noise.bytes(1000) for _ in range(40)]
    for number, value in enumerate(made):
        with kept_in(tmp_path, limit=20_000):
            kept("a", lambda n=number: n, lambda v=value: v)
            kept("a", lambda: 0, lambda: pytest.fail("used each time, it is kept"))
    with sqlite3.connect(tmp_path / FILE) as file:
        (total,) = file.execute("SELECT SUM(size) FROM answer").fetchone()
    assert total <= 20_000
    with kept_in(tmp_path, limit=20_000) as opened:
        assert opened is not None
        there = [kept("a", lambda n=n: n, lambda: b"") == value for n, value in enumerate(made)]
    assert there[0] and there[-1] and not any(there[1:20])


def test_many_runs_share_a_folder(tmp_path: Path) -> None:
    """Each run writes and reads answers of its own and of the others; none is ever another's."""
    wrong: list[object] = []

    def run(seed: int) -> None:
        for n in range(40):
            opened = Cache(tmp_path)
            key = digest(n % 10)
            found = opened.get(key)
            if found not in (None, b"%d" % (n % 10)):
                wrong.append((seed, n, found))
            opened.put(key, b"%d" % (n % 10))
            opened.close()

    threads = [threading.Thread(target=run, args=(seed,)) for seed in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not wrong
    opened = Cache(tmp_path)
    assert all(opened.get(digest(n)) == b"%d" % n for n in range(10))


def test_a_solid_comes_back_to_the_last_digit() -> None:
    solid = cq.Solid.makeCylinder(7.1, 33.3).cut(cq.Solid.makeBox(3, 3, 100)).Solids()[0]
    back = unpacked(packed(solid))
    assert back.isValid() and back.Volume() == solid.Volume()
    assert [v.toTuple() for v in back.Vertices()] == [v.toTuple() for v in solid.Vertices()]


def test_the_key_of_a_solid_is_that_of_its_numbers() -> None:
    def block(size: float) -> cq.Solid:
        return cq.Solid.makeBox(size, 20, 30)

    there = placing(np.eye(3), np.array([1.0, 2.0, 3.0]))
    first, moved = block(10), kernel.carried(block(10), there)
    assert content(first) == content(block(10)) and content(moved) == content(kernel.carried(block(10), there))
    assert len({content(first), content(block(10.000001)), content(moved)}) == 3


@dataclass(frozen=True)
class Unknown:
    value: int


def test_a_record_of_somebody_else_is_refused() -> None:
    with pytest.raises(pickle.UnpicklingError):
        cache.unpacked(pickle.dumps(Unknown(1)))


def test_bytes_that_hold_no_answer() -> None:
    for value in (b"", b"\x80", io.BytesIO(b"x").getvalue()):
        with pytest.raises((pickle.UnpicklingError, EOFError, ValueError, IndexError)):
            cache.unpacked(value)
