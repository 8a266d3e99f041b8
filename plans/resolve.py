"""A design file read: from the YAML to a `Design`, or to all the problems that are in the way."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from plans.checks import Reading, check_reading
from plans.design import Design
from plans.hard import remade
from plans.house import with_house_file
from plans.library import sheet
from plans.logo import Logo, read_logo
from plans.placing import Assembly
from plans.problems import Problem, has_errors
from plans.scope import Scope, open_scope, units_of
from plans.sizes import BASE, TO_MEASURE, Choice, size_names, sized
from plans.source import Source, read_source
from plans.spec import METRIC_SAW, DesignSpec, FixingEntry, JointEntry, PartSpec
from plans.units import System
from plans.wording import refusal_problem, schema_problems

_PART = TypeAdapter[Any](PartSpec)
_ASSEMBLY = TypeAdapter[Any](Assembly)
_JOINT = TypeAdapter[Any](JointEntry)
_FIXING = TypeAdapter[Any](FixingEntry)


def read_design(
    path: str | Path, system: System | None = None, choice: Choice = BASE
) -> tuple[Design | None, tuple[Problem, ...]]:
    """The design in the file at `path`, and all its problems; no design when one of them is an error.

    `system` is the one it is wanted in, the design's own units unless said: in the other it is re-made
    (`plans/hard.py`). `choice` is the size that is wanted.
    """
    source, problems = read_source(path)
    if source is None:
        return None, problems
    design, found = resolve(source, system, choice)
    every = in_order((*problems, *found))
    return (None if has_errors(every) else design), every


def resolve(
    source: Source, system: System | None = None, choice: Choice = BASE
) -> tuple[Design | None, tuple[Problem, ...]]:
    """As `read_design`, from a source that has been read. Of a design as it stands every size is read as well."""
    if choice != BASE:
        wanted, wrong = sized(source, choice)
        design, found = _resolved(wanted, system, choice)
        design = design and replace(design, whole=source)
        return design, in_order(_told_of(choice, (*wrong, *found)))
    design, found = _resolved(source, system, BASE)
    told = {(problem.code, problem.place) for problem in found}
    for name in size_names(source):
        _, wrong = resolve(source, system, Choice(name))
        found = (*found, *(problem for problem in wrong if (problem.code, problem.place) not in told))
    return design, in_order(found)


def _told_of(choice: Choice, problems: Iterable[Problem]) -> Iterator[Problem]:
    where = f"in the size '{choice.size}'" if choice.size else f"in the size {TO_MEASURE}"
    return (replace(problem, message=f"{where}: {problem.message}") for problem in problems)


def _resolved(source: Source, system: System | None, choice: Choice) -> tuple[Design | None, tuple[Problem, ...]]:
    """The design of a file that reads as it is wanted but for its units."""
    if system in (None, units_of(source.data)):
        return _read(source, choice)
    there, changes = remade(source, system)
    design, found = _read(there, choice)
    return design and replace(design, whole=source, changes=changes), found


def _read(source: Source, choice: Choice) -> tuple[Design | None, tuple[Problem, ...]]:
    data, house, house_problems = with_house_file(source, source.data)
    data = _with_what_is_said_once(data)
    scope = open_scope(data)
    spec: DesignSpec | None = None
    problems: list[Problem] = [*house_problems]
    try:
        spec = DesignSpec.model_validate(data, context=scope)
        reading = Reading(
            source,
            spec.parts,
            dict(enumerate(spec.joints)),
            dict(enumerate(spec.fixings)),
            spec,
            scope.units,
            spec.assemblies,
        )
    except ValidationError as error:
        for found in error.errors(include_url=False, include_input=False):
            problems += schema_problems(house if found["loc"][:1] == ("house",) else source, [found])
        reading = _what_can_be_read(source, data, scope)
    # the last findings are made while the parts are validated
    problems += [refusal_problem(source, at, refusal) for at, refusal in scope.findings]
    problems += check_reading(reading)
    logo, faults = _logo(source, house, spec)
    problems += faults
    design = _design(source, spec, scope, logo, choice) if spec else None
    return design, in_order(problems)


def _with_what_is_said_once(data: dict[str, Any]) -> dict[str, Any]:
    """The file with what it leaves to be understood: the wood of all parts, the thickness a sheet is sold in, and how a
    saw is set where one measures in millimetres."""
    parts, saw = data.get("parts"), data.get("saw", {})
    if units_of(data) == "mm" and isinstance(saw, dict):
        data = {**data, "saw": {**METRIC_SAW, **saw}}
    if not isinstance(parts, dict):
        return data
    return {**data, "parts": {name: _understood(part, data.get("wood")) for name, part in parts.items()}}


def _understood(part: Any, wood: Any) -> Any:
    if not isinstance(part, dict):
        return part
    if isinstance(wood, str) and not part.keys() & {"wood", "sheet", "material"}:
        return {"wood": wood, **part}
    called, stock = part.get("sheet"), part.get("stock")
    if isinstance(called, str) and isinstance(stock, str) and "thickness" not in part:
        sold = sheet(called, stock)
        return part if sold is None else {**part, "thickness": f"{sold.true:g} mm"}
    return part


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Sorted by place, each told once."""
    once = {(p.place.line, p.place.column, p.code, p.message): p for p in problems}
    return tuple(once[key] for key in sorted(once, key=lambda key: key[:3]))


def _logo(source: Source, house: Source, spec: DesignSpec | None) -> tuple[Logo | None, tuple[Problem, ...]]:
    """The logo the design, or its house file, names."""
    if spec is None or spec.house is None:
        return None, ()
    return read_logo(house, Path(source.file).parent, spec.house.logo)


def _design(source: Source, spec: DesignSpec, scope: Scope, logo: Logo | None, choice: Choice) -> Design:
    stem = re.sub(r"[^\w-]+", "-", Path(source.file).stem).strip("-") or "design"
    stem = f"{stem}-{choice.slug}" if choice.slug else stem
    return Design(stem, spec, source, Fraction(spec.finest), Fraction(spec.finest_mm), scope.system, logo, choice)


def _what_can_be_read(source: Source, data: dict[str, Any], scope: Scope) -> Reading:
    """The parts, assemblies, joints and fixings that are right by themselves, so that they can be checked even so."""
    raw_parts = data.get("parts")
    parts = _readable(_PART, raw_parts.items() if isinstance(raw_parts, dict) else (), scope)
    joints, fixings = (
        _readable(adapter, enumerate(raw) if isinstance(raw := data.get(section), list) else (), scope)
        for section, adapter in (("joints", _JOINT), ("fixings", _FIXING))
    )
    raw_assemblies = data.get("assemblies")
    assemblies = _readable(_ASSEMBLY, raw_assemblies.items() if isinstance(raw_assemblies, dict) else (), scope)
    return Reading(source, parts, joints, fixings, None, scope.units, assemblies)


def _readable(adapter: TypeAdapter[Any], entries: Iterable[tuple[Any, Any]], scope: Scope) -> dict[Any, Any]:
    found: dict[Any, Any] = {}
    for key, raw in entries:
        try:
            found[key] = adapter.validate_python(raw, context=scope)
        except ValidationError:
            continue  # its problems are told already
    return found
