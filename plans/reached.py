"""What a kind of part is built from: all in a design that may have a say in its sizes and in where it stands."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from pydantic import BaseModel

from plans.order import assembly_of, needed_by, needed_by_assembly
from plans.sizes import part_fields
from plans.spec import DesignSpec


def reached_by(spec: DesignSpec, kinds: Iterable[str]) -> tuple[Any, ...]:
    """The parts, assemblies, joints and fixings behind these kinds of part, in the order of the file."""
    kept = _kinds_behind(spec, kinds)
    entries = [entry for entry in (*spec.joints, *spec.fixings) if kept.intersection(_named(entry))]
    parts = [part for name, part in spec.parts.items() if name in kept]
    assemblies = [made for made in spec.assemblies.values() if kept.intersection(made.parts)]
    return (*parts, *assemblies, *entries)


def _kinds_behind(spec: DesignSpec, kinds: Iterable[str]) -> set[str]:
    """The kinds themselves, what they are placed by, cut to or put together with, what those are, and so on."""
    found: set[str] = set()
    waiting = list(kinds)
    while waiting:
        kind = waiting.pop()
        if kind in found or kind not in spec.parts:
            continue
        found.add(kind)
        waiting += needed_by(spec.parts[kind])
        own = assembly_of(spec.assemblies, kind)
        if own is not None:
            waiting += [*spec.assemblies[own].parts, *needed_by_assembly(spec.assemblies[own])]
        waiting += [other for joint in spec.joints if kind in _named(joint) for other in _named(joint)]
    return found


def _named(entry: BaseModel) -> list[str]:
    """The kinds of part that a joint or a fixing is of."""
    fields = {field.alias or name: name for name, field in type(entry).model_fields.items()}
    said = [getattr(entry, fields[alias]) for alias in part_fields(type(entry))]
    return [kind for one in said for kind in ((one,) if isinstance(one, str) else one or ())]
