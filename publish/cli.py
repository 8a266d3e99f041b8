"""The command line. The geometry kernel is slow to load: it is imported only once it is needed."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer
from rich.console import Console
from rich.status import Status

from plans.problems import Problem, has_errors

if TYPE_CHECKING:
    from model.piece import Piece
    from plans.design import Design
    from plans.units import System

FINE, FAULTY, UNREADABLE = 0, 1, 2

# small matrices only: threads would spin for nothing, and sums must not depend on how many there are
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    help="Turn a furniture design file into a plan set: drawings, lists, steps and a solid model.",
)


class Units(StrEnum):
    """Which editions to make."""

    INCH = "inch"
    MM = "mm"
    BOTH = "both"


SYSTEMS: dict[Units, tuple[System, ...]] = {
    Units.INCH: ("inch",),
    Units.MM: ("mm",),
    Units.BOTH: ("inch", "mm"),
}
DesignFile = Annotated[Path, typer.Argument(metavar="DESIGN", help="The design file (YAML).", show_default=False)]


def _version(asked: bool) -> None:
    if asked:
        from importlib.metadata import version

        typer.echo(f"plansheaf {version('plansheaf')}")
        raise typer.Exit


@app.callback()
def _top(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    pass


@app.command()
def check(
    design: DesignFile,
    as_json: Annotated[bool, typer.Option("--json", help="Print the findings as JSON, for a program.")] = False,
) -> None:
    """Read a design, build it in 3D and say what does not fit."""
    from publish.report import as_json as json_report
    from publish.report import tell
    from publish.words.fit import verdict

    read, piece, problems, code = _built(design)
    if as_json:
        typer.echo(json_report(design.stem, read, piece, problems))
    else:
        tell(Console(soft_wrap=True), problems)
        if piece is not None and not has_errors(problems):
            things = ((len(piece.parts), "part"), (len(piece.items), "mark"), (len(piece.joints), "joint"))
            said = ", ".join(f"{count} {noun}" + ("" if count == 1 else "s") for count, noun in things)
            typer.echo(f"{piece.design.spec.plan}: {said}: {verdict(problems)}.")
    raise typer.Exit(code)


@app.command()
def publish(
    design: DesignFile,
    out: Annotated[Path, typer.Option(help="Folder under which the set is put.")] = Path("out"),
    units: Annotated[Units, typer.Option(help="Inch edition, millimetre edition, or both.")] = Units.BOTH,
) -> None:
    """Write the plan set of a design: PDF, solid model, cut list and manifest."""
    from publish.report import tell

    _, piece, problems, code = _built(design)
    tell(Console(stderr=True, soft_wrap=True), problems)
    if piece is None or code != FINE:
        raise typer.Exit(code or FAULTY)
    with _kernel():
        from publish.bundle import publish as write
    with _progress() as say:
        try:
            place = write(piece, out, SYSTEMS[units], problems, say)
        except OSError as error:
            typer.echo(f"the set could not be written to {out}: {error.strerror or error}", err=True)
            raise typer.Exit(UNREADABLE) from None
    for file in sorted(place.iterdir()):
        typer.echo(str(file))


@app.command()
def schema() -> None:
    """Print the JSON Schema of design files, for editors that complete them."""
    from plans.schema import json_schema

    typer.echo(json.dumps(json_schema(), indent=2))


def _built(path: Path) -> tuple[Design | None, Piece | None, tuple[Problem, ...], int]:
    """The design and its piece as far as they come, all problems, and the exit code they mean."""
    from plans.resolve import resolve
    from plans.source import read_source

    source, problems = read_source(path)
    if source is None:
        return None, None, problems, UNREADABLE
    design, found = resolve(source)
    problems = (*problems, *found)
    if design is None or has_errors(problems):
        return design, None, problems, FAULTY
    with _kernel():
        from model.build import build
        from model.checks import check_fit
    with _progress() as say:
        piece, made = build(design, say)
        problems = (*problems, *made)
        if piece is not None:
            say("checking the fit")
            problems = (*problems, *check_fit(piece))
    return design, piece, problems, FAULTY if has_errors(problems) else FINE


@contextmanager
def _kernel() -> Iterator[None]:
    """Load the geometry kernel; where a system library is missing, say which package brings it."""
    try:
        yield
    except ImportError as error:
        if "libGL" not in str(error):
            raise
        typer.echo(
            "The geometry kernel needs the system library libGL.so.1: install it with "
            "'apt-get install libgl1' (Debian, Ubuntu) or your system's package for OpenGL.",
            err=True,
        )
        raise typer.Exit(UNREADABLE) from None


@contextmanager
def _progress() -> Iterator[_Say]:
    """A line that tells what is being done; nothing where nobody watches."""
    console = Console(stderr=True)
    if not console.is_terminal:
        yield _Say(None)
        return
    with console.status("starting") as status:
        yield _Say(status)


class _Say:
    """Tells the current piece of work."""

    def __init__(self, status: Status | None) -> None:
        self.status = status

    def __call__(self, text: str) -> None:
        if self.status is not None:
            self.status.update(text)


def main() -> None:
    """The `plansheaf` command."""
    try:
        app()
    except BrokenPipeError:
        sys.stderr.close()
        raise SystemExit(FINE) from None
