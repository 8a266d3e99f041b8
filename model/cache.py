"""Work kept from run to run: what was made of the same things before is taken from a folder instead of made again.

An answer is known by all that went into it and by the program that worked it out (`digest.py`), never by name or by
when: the same key can only mean the same answer, and nothing ever has to be thrown away because a design changed. The
folder may be deleted at any time, and two runs may share it (SQLite locks it); where it cannot be used at all the work
is simply done. What was not asked for the longest goes first once there is more than `LIMIT`.
"""

from __future__ import annotations

import io
import os
import pickle
import sqlite3
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from pathlib import Path
from time import time
from typing import Any, TypeVar

from model.digest import digest, program

LIMIT = 400 * 2**20  # bytes of answers kept
KEPT_SHARE = 0.8  # of the limit that is left after answers are thrown away
AT_ONCE = 32 * 2**20  # bytes of new answers held in memory before they are written
WAIT = 10.0  # seconds for another run to let go of the folder
FILE = "answers.sqlite"
# what an answer may be made of: a folder somebody else wrote to must not be able to run a program
OWN = ("plans.", "model.", "publish.")
OTHERS = frozenset(
    {
        ("builtins", "frozenset"),
        ("builtins", "set"),
        ("builtins", "slice"),
        ("fractions", "Fraction"),
        ("numpy", "dtype"),
        ("numpy", "ndarray"),
        ("numpy._core.multiarray", "_reconstruct"),
        ("numpy._core.multiarray", "scalar"),
        ("numpy._core.numeric", "_frombuffer"),
        ("numpy.core.multiarray", "_reconstruct"),
        ("numpy.core.multiarray", "scalar"),
        ("numpy.core.numeric", "_frombuffer"),
        ("pathlib", "PurePosixPath"),
    }
)
Answer = TypeVar("Answer")


class _Writer(pickle.Pickler):
    """Writes records by their fields alone: what else was worked out for them and is kept with them stays behind."""

    def reducer_override(self, value: Any) -> Any:
        if isinstance(value, type) or not is_dataclass(value) or not hasattr(value, "__dict__"):
            return NotImplemented
        return _record, (type(value), {field.name: getattr(value, field.name) for field in fields(value)})


class _Reader(pickle.Unpickler):
    """Reads an answer made of our own records, numbers and arrays; anything else is refused."""

    def find_class(self, module: str, name: str) -> Any:
        if (module, name) in OTHERS or (module, name) == (_record.__module__, _record.__qualname__):
            return super().find_class(module, name)
        found = super().find_class(module, name) if module.startswith(OWN) and "." not in name else None
        if isinstance(found, type) and found.__module__ == module and (is_dataclass(found) or issubclass(found, tuple)):
            return found
        raise pickle.UnpicklingError(f"{module}.{name} has no place in an answer")


def _record(kind: type, state: dict[str, Any]) -> Any:
    """A record as it was written: its fields have been checked when it was first made."""
    made: Any = object.__new__(kind)
    made.__dict__.update(state)
    return made


class Cache:
    """Answers in one file of a folder. Every fault of the file is a miss: no set is kept from being made by it."""

    def __init__(self, folder: Path, limit: int = LIMIT) -> None:
        self._limit = limit
        self._new: dict[bytes, bytes] = {}
        self._waiting = 0
        self._used: set[bytes] = set()
        self.hits = self.misses = 0
        self._file: sqlite3.Connection | None = None
        try:
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            self._file = self._opened(folder / FILE)
        except (OSError, sqlite3.Error):
            self._file = None

    @staticmethod
    def _opened(path: Path) -> sqlite3.Connection:
        for again in (True, False):
            file = sqlite3.connect(path, timeout=WAIT, isolation_level=None)
            try:
                file.execute("PRAGMA journal_mode = WAL")
                file.execute("PRAGMA synchronous = OFF")  # what a crash loses is made again
                file.execute(
                    "CREATE TABLE IF NOT EXISTS answer (key BLOB PRIMARY KEY, size INTEGER, used REAL, value BLOB)"
                    " WITHOUT ROWID"
                )
                return file
            except sqlite3.OperationalError:  # busy, or not to be written to
                file.close()
                raise
            except sqlite3.DatabaseError:  # no such file as ours: begin anew
                file.close()
                if not again:
                    raise
                for name in (path, path.with_name(f"{FILE}-wal"), path.with_name(f"{FILE}-shm")):
                    name.unlink(missing_ok=True)
        raise AssertionError("one of the two tries returns or raises")

    def get(self, key: bytes) -> bytes | None:
        """What is kept under a key; None where there is nothing, or nothing whole."""
        return self._new.get(key) or self._read(key)

    def _read(self, key: bytes) -> bytes | None:
        if self._file is None:
            return None
        try:
            row = self._file.execute("SELECT value FROM answer WHERE key = ?", (key,)).fetchone()
            value = None if row is None else zlib.decompress(row[0])
        except (sqlite3.Error, zlib.error):
            return None
        if value is not None:
            self._used.add(key)
        return value

    def put(self, key: bytes, value: bytes) -> None:
        """Keep an answer; it is written together with others, at the latest when the cache is closed."""
        self._new[key] = value
        self._waiting += len(value)
        if self._waiting > AT_ONCE:
            self._write()

    def _write(self) -> None:
        new, self._new, self._waiting = self._new, {}, 0
        if self._file is None or not new:
            return
        rows = [(key, len(packed), time(), packed) for key, v in new.items() for packed in (zlib.compress(v, 1),)]
        try:
            self._file.execute("BEGIN IMMEDIATE")
            self._file.executemany("INSERT OR REPLACE INTO answer VALUES (?, ?, ?, ?)", rows)
            self._file.execute("COMMIT")
        except sqlite3.Error:  # a full disk, a lock held too long: they are made again another time
            self._file.close()
            self._file = None

    def close(self) -> None:
        """Write what is new, note what was used, and throw away what there is no room for."""
        self._write()
        if self._file is None:
            return
        try:
            self._file.execute("BEGIN IMMEDIATE")
            self._file.executemany("UPDATE answer SET used = ? WHERE key = ?", [(time(), key) for key in self._used])
            self._make_room(self._file)
            self._file.execute("COMMIT")
        except sqlite3.Error:
            pass  # only the order in which answers are thrown away suffers
        self._file.close()
        self._file = None

    def _make_room(self, file: sqlite3.Connection) -> None:
        (total,) = file.execute("SELECT COALESCE(SUM(size), 0) FROM answer").fetchone()
        if total <= self._limit:
            return
        gone = []
        for key, size in file.execute("SELECT key, size FROM answer ORDER BY used"):
            if total <= self._limit * KEPT_SHARE:
                break
            gone.append((key,))
            total -= size
        file.executemany("DELETE FROM answer WHERE key = ?", gone)


_open: list[Cache | None] = []


@contextmanager
def kept_in(folder: Path | None, limit: int = LIMIT) -> Iterator[Cache | None]:
    """Keep answers in a folder while this lasts; None keeps nothing."""
    cache = None if folder is None else Cache(folder, limit)
    _open.append(cache)
    try:
        yield cache
    finally:
        _open.pop()
        if cache is not None:
            cache.close()


def usual_folder() -> Path:
    """Where answers are kept unless said otherwise (XDG base directory specification)."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    return (Path(base) if os.path.isabs(base) else Path.home() / ".cache") / "plansheaf"


def packed(answer: object) -> bytes:
    """An answer as bytes."""
    into = io.BytesIO()
    _Writer(into, protocol=5).dump(answer)
    return into.getvalue()


def unpacked(value: bytes) -> Any:
    """The answer that was packed; pickle.UnpicklingError where it holds what no answer of ours does."""
    return _Reader(io.BytesIO(value)).load()


def kept(work: str, told: Callable[[], object], make: Callable[[], Answer]) -> Answer:
    """The answer to a piece of work that hangs on nothing but what is `told` (see `digest`): one kept, or made now.

    What `make` raises goes through, and is not kept.
    """
    cache = _open[-1] if _open else None
    if cache is None:
        return make()
    key = digest((program(), work, told()))
    value = cache.get(key)
    if value is not None:
        try:
            answer: Answer = unpacked(value)
            cache.hits += 1
            return answer
        except (pickle.UnpicklingError, AttributeError, ValueError, TypeError, EOFError, ImportError, IndexError):
            pass  # not whole: made again, and written over
    cache.misses += 1
    answer = make()
    cache.put(key, packed(answer))
    return answer
