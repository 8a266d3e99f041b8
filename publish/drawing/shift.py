"""Moving records about a sheet."""

from __future__ import annotations

from dataclasses import replace

from publish.drawing.records import Circle, Curve, Image, Label, Line, Link, Move, Path, Record, Step, Straight


def _moved_step(step: Step, dx: float, dy: float) -> Step:
    to = (step.to[0] + dx, step.to[1] + dy)
    if isinstance(step, Curve):
        (ax, ay), (bx, by) = step.first, step.second
        return Curve((ax + dx, ay + dy), (bx + dx, by + dy), to)
    return Move(to) if isinstance(step, Move) else Straight(to)


def moved(record: Record, dx: float, dy: float) -> Record:
    """`record` shifted by (`dx`, `dy`) mm."""
    if isinstance(record, Line):
        return replace(record, x0=record.x0 + dx, y0=record.y0 + dy, x1=record.x1 + dx, y1=record.y1 + dy)
    if isinstance(record, Path):
        return replace(record, steps=tuple(_moved_step(s, dx, dy) for s in record.steps))
    if isinstance(record, Link):
        return replace(record, box=record.box.moved(dx, dy))
    assert isinstance(record, Circle | Label | Image)
    return replace(record, x=record.x + dx, y=record.y + dy)
