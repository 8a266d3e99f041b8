"""Solids as bytes, and solids made once: a boolean of the same solids is taken from the cache, where one is open.

A solid is read back from bytes with every number as it was, but its faces may be meshed in another order. So what
comes out of an operation is always what is read back, cache or none: the same design then gives the same bytes.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from typing import cast

import cadquery as cq
from OCP.BinTools import BinTools, BinTools_FormatVersion
from OCP.Message import Message_ProgressRange
from OCP.TopoDS import TopoDS_Shape

from model.cache import kept
from model.digest import digest
from model.frames import Matrix

CONTENT = "content"  # the keys under which a shape keeps what is known of it
CARRIED = "carried from"


def packed(shape: cq.Shape) -> bytes:
    """A shape as bytes, without the triangles it may carry."""
    into = io.BytesIO()
    version = BinTools_FormatVersion.BinTools_FormatVersion_CURRENT
    BinTools.Write_s(shape.wrapped, into, False, False, version, Message_ProgressRange())
    return into.getvalue()


def unpacked(value: bytes) -> cq.Shape:
    """The shape of some bytes."""
    shape = TopoDS_Shape()
    BinTools.Read_s(shape, io.BytesIO(value), Message_ProgressRange())
    return cq.Shape.cast(shape)


def carried_from(shape: cq.Shape) -> tuple[cq.Shape, Matrix] | None:
    """What a shape was carried from, and by what motion."""
    found: tuple[cq.Shape, Matrix] | None = shape.__dict__.get(CARRIED)
    return found


def content(shape: cq.Shape) -> bytes:
    """The key of a shape: alike for shapes that are alike to the last digit, where they are and as they are built.

    It is that of what the shape was made from, where that is known: the kernel changes small things in a shape (the
    tolerances of its edges) when it is meshed or looked at, and copies of it that are made later show them.
    """
    known: bytes | None = shape.__dict__.get(CONTENT)
    if known is None:
        source = carried_from(shape)
        known = digest(packed(shape)) if source is None else digest((content(source[0]), source[1]))
        shape.__dict__[CONTENT] = known
    return known


def compound(shapes: Sequence[cq.Shape]) -> cq.Compound:
    """Several shapes as one, with a key of theirs."""
    made = cq.Compound.makeCompound(shapes)
    made.__dict__[CONTENT] = digest([content(shape) for shape in shapes])
    return made


def made_once(work: str, of: Sequence[cq.Shape], make: Callable[[], cq.Solid], how: object = ()) -> cq.Solid:
    """The solid that `make` makes of some shapes, `how` being all else that counts."""
    raw = kept(work, lambda: (how, *(content(shape) for shape in of)), lambda: packed(make()))
    made = unpacked(raw)
    made.__dict__[CONTENT] = digest(raw)
    return cast(cq.Solid, made)


def pieces_once(work: str, of: Sequence[cq.Shape], make: Callable[[], Sequence[cq.Shape]]) -> list[cq.Solid]:
    """The solids, one or more or none, that `make` makes of some shapes."""

    def written() -> bytes:
        made = make()
        return packed(cq.Compound.makeCompound(made)) if made else b""

    raw = kept(work, lambda: [content(shape) for shape in of], written)
    solids: list[cq.Solid] = unpacked(raw).Solids() if raw else []
    for number, solid in enumerate(solids):
        solid.__dict__[CONTENT] = digest((raw, number))
    return solids
