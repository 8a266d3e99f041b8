"""A key for what a piece of work hangs on: the same things give the same key in every run, others another one."""

from __future__ import annotations

import hashlib
import platform
import struct
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numpy as np
from pydantic import BaseModel

SIZE = 20  # bytes
LIBRARIES = ("cadquery", "cadquery-ocp", "manifold3d", "numpy", "pillow", "reportlab", "scipy")
ROOMS = ("plans", "model", "publish")
SOURCES = (".py", ".csv", ".lark")
TOLD = "told"


def digest(value: object) -> bytes:
    """The key of a value: numbers, strings, tuples, lists, dicts in their order, sets, arrays, frozen records of ours.

    TypeError for anything else: whoever hands over such a thing has to say what of it counts.
    """
    hashed = hashlib.blake2b(digest_size=SIZE)
    _tell(value, hashed.update)
    return hashed.digest()


def _tell(value: Any, say: Callable[[bytes], None]) -> None:
    kind = type(value)
    if kind in _PLAIN:
        _PLAIN[kind](value, say)
    elif is_dataclass(value):
        say(_of_record(value))
    elif isinstance(value, BaseModel):
        _tell((kind.__qualname__, *((name, getattr(value, name)) for name in kind.model_fields)), say)
    elif isinstance(value, tuple | list):  # named tuples
        _tell((kind.__qualname__, tuple(value)), say)
    elif isinstance(value, Enum):
        _tell((kind.__qualname__, value.value), say)
    elif isinstance(value, np.generic):
        _tell(value.item(), say)
    elif isinstance(value, Path):
        _tell(("path", str(value)), say)
    else:
        raise TypeError(f"a {kind.__qualname__} has no key")


def _of_record(value: Any) -> bytes:
    """The key of a record of ours, kept with it where it cannot change."""
    frozen = type(value).__dataclass_params__.frozen and hasattr(value, "__dict__")
    if frozen and TOLD in value.__dict__:
        return bytes(value.__dict__[TOLD])
    hashed = hashlib.blake2b(digest_size=SIZE)
    hashed.update(type(value).__qualname__.encode())
    for field in fields(value):
        _tell(getattr(value, field.name), hashed.update)
    key = hashed.digest()
    if frozen:
        value.__dict__[TOLD] = key
    return key


def _many(letter: bytes) -> Callable[[Any, Callable[[bytes], None]], None]:
    def tell(value: Any, say: Callable[[bytes], None]) -> None:
        say(letter + struct.pack("<q", len(value)))
        for item in value:
            _tell(item, say)

    return tell


def _text(value: str, say: Callable[[bytes], None]) -> None:
    coded = value.encode()
    say(b"s" + struct.pack("<q", len(coded)) + coded)


def _bytes(value: bytes, say: Callable[[bytes], None]) -> None:
    say(b"b" + struct.pack("<q", len(value)) + value)


def _dict(value: dict[Any, Any], say: Callable[[bytes], None]) -> None:
    _many(b"d")(list(value.items()), say)


def _set(value: Any, say: Callable[[bytes], None]) -> None:
    say(b"e" + b"".join(sorted(digest(item) for item in value)))


def _array(value: np.ndarray[Any, Any], say: Callable[[bytes], None]) -> None:
    _text(f"{value.dtype.str} {value.shape}", say)
    say(np.ascontiguousarray(value).tobytes())


_PLAIN: dict[type, Callable[[Any, Callable[[bytes], None]], None]] = {
    type(None): lambda value, say: say(b"n"),
    bool: lambda value, say: say(b"t" if value else b"f"),
    int: lambda value, say: _text(f"i{value}", say),
    float: lambda value, say: say(b"r" + struct.pack("<d", value)),
    str: _text,
    bytes: _bytes,
    tuple: _many(b"("),
    list: _many(b"["),
    dict: _dict,
    set: _set,
    frozenset: _set,
    np.ndarray: _array,
    Fraction: lambda value, say: _text(f"q{value}", say),
    date: lambda value, say: _text(f"day{value.isoformat()}", say),
}


@cache
def program() -> bytes:
    """The key of the program that does the work: its own source, and the libraries it stands on."""
    hashed = hashlib.blake2b(digest_size=SIZE)
    home = Path(__file__).parent.parent
    for room in ROOMS:
        for file in sorted(home.joinpath(room).rglob("*")):
            if file.suffix in SOURCES:
                hashed.update(file.relative_to(home).as_posix().encode() + b"\0" + file.read_bytes())
    for name in LIBRARIES:
        hashed.update(f"{name} {version(name)}".encode())
    hashed.update(f"{platform.python_version()} {platform.machine()}".encode())
    return hashed.digest()
