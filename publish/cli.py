"""The command line. The geometry kernel is slow to load: it is imported only once it is needed."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer
from rich.console import Console
from rich.status import Status

from publish.words.system import NO_KERNEL

if TYPE_CHECKING:
    from model.piece import Piece
    from plans.problems import Problem
    from plans.sizes import Choice
    from plans.units import System
    from publish.jobs import Job

FINE, UNREADABLE = 0, 2

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
DesignFiles = Annotated[
    list[Path], typer.Argument(metavar="DESIGN...", help="One design file (YAML), or several.", show_default=False)
]
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


SizeName = Annotated[str | None, typer.Option("--size", metavar="NAME", help="One of the sizes that the design names.")]
AllSizes = Annotated[bool, typer.Option("--all-sizes", help="The design as it stands, and every size it names.")]
SetValues = Annotated[
    list[str] | None,
    typer.Option(
        "--set",
        metavar="NAME=VALUE",
        help="A size made to measure: another value for a named number; as often as needed.",
    ),
]
OtherUnits = Annotated[
    Literal["soft", "hard"] | None,
    typer.Option(
        "--other-units",
        help="The same piece in the other units (soft), or one re-made in sizes natural there (hard); "
        "as the design says unless given.",
    ),
]


CacheFolder = Annotated[
    Path | None,
    typer.Option(
        "--cache",
        metavar="DIR",
        help="Folder in which work is kept for the next run; it may be deleted at any time.",
        show_default="the user's cache folder",
    ),
]
NoCache = Annotated[bool, typer.Option("--no-cache", help="Keep no work for the next run, and use none.")]


@app.command()
def check(
    design: DesignFile,
    size: SizeName = None,
    values: SetValues = None,
    all_sizes: AllSizes = False,
    other_units: OtherUnits = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the findings as JSON, for a program.")] = False,
    cache: CacheFolder = None,
    no_cache: NoCache = False,
) -> None:
    """Read a design, build it in 3D and say what does not fit."""
    from model.cache import kept_in
    from publish.jobs import jobs

    reports: list[dict[str, object]] | None = [] if as_json else None
    wanted = jobs([design], _choice(size, values), all_sizes, other_units)
    with kept_in(_cache_folder(cache, no_cache)):
        codes = [_checked(job, reports) for job in wanted]
    if reports is not None:
        typer.echo(json.dumps(reports if all_sizes else reports[0], indent=2, ensure_ascii=False))
    raise typer.Exit(max(codes))


def _checked(job: Job, reports: list[dict[str, object]] | None) -> int:
    """Check one job, and add what was found to the reports, or tell it where none are kept; gives the exit code."""
    from publish.jobs import read
    from publish.report import report_of, tell

    done = read(job)
    pieces, problems, code = [], done.problems, done.code
    if done.code == FINE:
        with _kernel():
            from publish.making import built
        with _progress() as say:
            ready = built(done, say)
        pieces, problems, code = [one.piece for one in ready.versions], ready.problems, ready.code
    if reports is not None:
        reports.append(report_of(job.path.stem, done.design, pieces, problems))
    else:
        tell(Console(soft_wrap=True), problems)
        if pieces:
            typer.echo(_fits(pieces, problems))
    return code


def _fits(pieces: list[Piece], problems: Sequence[Problem]) -> str:
    """What was built, in a line: `Hook rail: 2 parts, 2 marks, 1 joint: all fits.`"""
    from publish.words.fit import verdict
    from publish.words.remade import IN_WORDS

    piece, *others = pieces
    things = ((len(piece.parts), "part"), (len(piece.items), "mark"), (len(piece.joints), "joint"))
    said = ", ".join(f"{count} {noun}" + ("" if count == 1 else "s") for count, noun in things)
    also = "".join(f", and re-made in {IN_WORDS[other.design.system]}" for other in others)
    return f"{piece.design.spec.plan}: {said}{also}: {verdict(problems)}."


@app.command()
def publish(
    designs: DesignFiles,
    out: Annotated[Path, typer.Option(help="Folder under which the sets are put.")] = Path("out"),
    units: Annotated[Units, typer.Option(help="Inch edition, millimetre edition, or both.")] = Units.BOTH,
    size: SizeName = None,
    values: SetValues = None,
    all_sizes: AllSizes = False,
    other_units: OtherUnits = None,
    watch: Annotated[
        bool, typer.Option("--watch", help="Go on, and write the sets again whenever a file is saved.")
    ] = False,
    cache: CacheFolder = None,
    no_cache: NoCache = False,
) -> None:
    """Write the plan set of a design: PDF, solid model, cut list and manifest; of several designs, all their sets."""
    from publish.jobs import jobs
    from publish.watching import named_files, seen, wait

    choice, kept = _choice(size, values), _cache_folder(cache, no_cache)
    while True:
        before = seen(file for path in designs for file in named_files(path))
        code = _published(jobs(designs, choice, all_sizes, other_units), out, SYSTEMS[units], kept)
        if not watch:
            raise typer.Exit(code)
        typer.echo("waiting for a file to be saved; stop with Ctrl-C", err=True)
        try:
            wait(before)
        except KeyboardInterrupt:
            raise typer.Exit(code) from None


def _published(wanted: list[Job], out: Path, systems: tuple[System, ...], kept: Path | None) -> int:
    """Write every set that is asked for, and give the exit code that says how it went."""
    from model.cache import kept_in
    from publish.jobs import read, twice
    from publish.report import tell

    console = Console(stderr=True, soft_wrap=True)
    if clashing := twice(wanted):
        tell(console, clashing)
        return UNREADABLE
    if len(wanted) > 1:
        return _publish_all(wanted, out, systems, kept, console)
    (job,) = wanted
    done = read(job)
    if done.code:
        tell(console, done.problems)
        return done.code
    with _kernel():
        from publish.making import made
    with _progress() as say, kept_in(kept):
        outcome = made(job, done, out, systems, say)
    if outcome.failure:
        typer.echo(outcome.failure, err=True)
    else:
        tell(console, outcome.problems)
    for file in outcome.files:
        typer.echo(file)
    return outcome.code


def _publish_all(wanted: list[Job], out: Path, systems: tuple[System, ...], kept: Path | None, console: Console) -> int:
    """One line a set as it is done, then what is wrong with those that were not written, then a table of all."""
    from publish.catalogue import line, publish_all, summary
    from publish.report import tell

    outcomes = publish_all(wanted, out, systems, kept, lambda outcome: typer.echo(line(outcome)))
    for outcome in outcomes:
        if outcome.code and not outcome.failure:
            tell(console, outcome.problems)
    Console().print(summary(outcomes))
    return max(outcome.code for outcome in outcomes)


def _cache_folder(named: Path | None, none: bool) -> Path | None:
    """Where work is kept from run to run; None where none is."""
    from model.cache import usual_folder

    if none and named is not None:
        raise typer.BadParameter("a folder, and that none is to be used", param_hint="'--cache' and '--no-cache'")
    return None if none else named or usual_folder()


def _choice(size: str | None, values: list[str] | None) -> Choice:
    from plans.sizes import Choice

    pairs = []
    for written in values or ():
        name, equals, value = written.partition("=")
        if not equals or not name.strip() or not value.strip():
            raise typer.BadParameter(f"{written!r} is not NAME=VALUE, as in seat_length=48", param_hint="'--set'")
        pairs.append((name.strip(), value.strip()))
    return Choice(size, tuple(pairs))


@app.command()
def compare(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="A design file, or the folder of a published set.")],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="The same, of the later revision.")],
    notice: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write a change notice (PDF) for those who have the old set.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the changes as JSON, for a program.")] = False,
    cache: CacheFolder = None,
    no_cache: NoCache = False,
) -> None:
    """Say what differs between two sets: parts, sizes, lists, steps, and the pages to print again."""
    from model.cache import kept_in
    from publish.jobs import UNREADABLE
    from publish.report import tell

    with _kernel():
        from publish.changes import compare as changes_of
        from publish.comparing import set_at
        from publish.notice import write_notice
        from publish.words.changes import changes_json, in_words
    found = []
    for path in (old, new):
        with _progress() as say, kept_in(_cache_folder(cache, no_cache)):
            one, problems, code = set_at(path, say)
        if one is None:
            tell(Console(stderr=True, soft_wrap=True), problems)
            raise typer.Exit(code)
        found.append(one)
    try:
        changes = changes_of(found[0], found[1])
    except ValueError as error:
        typer.echo(f"the two sets cannot be compared: {error}; publish one of them in both", err=True)
        raise typer.Exit(UNREADABLE) from None
    typer.echo(changes_json(changes) if as_json else in_words(changes))
    if notice is not None:
        try:
            write_notice(notice, changes)
        except OSError as error:
            typer.echo(f"the notice could not be written to {notice}: {error.strerror or error}", err=True)
            raise typer.Exit(UNREADABLE) from None


@app.command()
def reconcile(
    design: DesignFile,
    as_json: Annotated[bool, typer.Option("--json", help="Print what was found as JSON, for a program.")] = False,
    cache: CacheFolder = None,
    no_cache: NoCache = False,
) -> None:
    """Compare a design with what was measured on the finished piece, and say which numbers to change."""
    from model.cache import kept_in
    from publish.jobs import FAULTY, Job, read
    from publish.report import tell

    done = read(Job(design))
    problems, found = done.problems, None
    if done.code == FINE and done.design is not None:
        with _kernel():
            from model.build import build
            from model.reconcile import reconcile as reconciled
            from publish.words.reconcile import agrees, in_words, reconciled_json
        with _progress() as say, kept_in(_cache_folder(cache, no_cache)):
            piece, told = build(done.design, say)
            problems = (*problems, *told)
            found = None if piece is None else reconciled(piece, say)
    if found is None:
        tell(Console(stderr=True, soft_wrap=True), problems)
        raise typer.Exit(done.code or FAULTY)
    tell(Console(stderr=True, soft_wrap=True), found.missing)
    typer.echo(reconciled_json(found) if as_json else in_words(found))
    raise typer.Exit(FINE if agrees(found) else FAULTY)


@app.command()
def schema() -> None:
    """Print the JSON Schema of design files, for editors that complete them."""
    from plans.schema import json_schema

    typer.echo(json.dumps(json_schema(), indent=2))


@contextmanager
def _kernel() -> Iterator[None]:
    """Load the geometry kernel; where a system library is missing, say which package brings it."""
    try:
        yield
    except ImportError as error:
        if "libGL" not in str(error):
            raise
        typer.echo(NO_KERNEL, err=True)
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
