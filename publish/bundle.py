"""A published set on disk, every file of it: written beside, then moved into place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path

from model.buying import purchases
from model.piece import Piece
from model.sizes import SizeMade, sizes
from model.steps import plan_of
from plans.problems import Problem
from plans.units import System
from publish.drawn import draw_all
from publish.edition import Edition, Leaf, sheets
from publish.fit_report import fit_report
from publish.house import style_of
from publish.in_place import written_beside
from publish.looks import tint_of
from publish.pages import leaves
from publish.record import FILE, SetRecord, record, written
from publish.writers.archive import write_archive
from publish.writers.cut_list_csv import cut_list_csv
from publish.writers.manifest import Counts, Published, manifest
from publish.writers.pdf import Document, write_pdf
from publish.writers.step import write_step
from publish.writers.template_files import LANGUAGES, tiled_templates, whole_templates

Progress = Callable[[str], None]


def publish(
    piece: Piece,
    out: Path,
    systems: Sequence[System],
    problems: Sequence[Problem] = (),
    progress: Progress = lambda _: None,
    offered: tuple[SizeMade, ...] = (),
) -> Path:
    """Write the set of a piece under `out` and give its folder. OSError where that cannot be done.

    `offered`: all sizes the design comes in, this one first, for the table of them.
    """
    design = piece.design
    place = out / design.stem / f"r{design.spec.revision}"
    with written_beside(place) as made:
        _write(piece, made, systems, problems, progress, offered)
    return place


def _write(
    piece: Piece,
    folder: Path,
    systems: Sequence[System],
    problems: Sequence[Problem],
    progress: Progress,
    offered: tuple[SizeMade, ...],
) -> None:
    design = piece.design
    editions = _editions(piece, systems, offered, progress)
    files: list[Published] = []
    for edition, content in editions:
        files += _edition(edition, content, folder)
        files += tiled_templates(edition, folder)
    progress("drawing the templates")
    files += whole_templates(replace(editions[0][0], units=design.units()), folder)
    progress("writing the solid model")
    name = f"{design.stem}.step"
    write_step(piece, folder / name, {part.spec.made_of: tint_of(part.spec) for part in piece.parts.values()})
    files.append(Published(name, "solid model", "mm", None))
    archive = write_archive(folder, design, systems, files)
    files.append(Published(archive, "archive", "+".join(systems), None))
    (folder / FILE).write_text(written(record(piece, editions)), encoding="utf-8")
    files.append(Published(FILE, "record", None, None))
    report = f"{design.stem}-fit-report.pdf"
    pages = fit_report(folder / report, piece, problems)
    files.append(Published(report, "fit report", design.system, pages))
    counts = Counts(
        len(piece.parts),
        len(piece.items),
        len(piece.joints),
        sum(len(fixing.points) for fixing in piece.fixings),
        _to_buy(piece, "board"),
        _to_buy(piece, "sheet"),
        len(problems),
    )
    text = manifest(folder, design.spec.plan, design.spec.revision, version("plansheaf"), files, counts)
    (folder / "manifest.json").write_text(text, encoding="utf-8")


def record_of(piece: Piece, systems: Sequence[System], progress: Progress = lambda _: None) -> SetRecord:
    """The record of the set that would be written, without writing it."""
    return record(piece, _editions(piece, systems, sizes(piece)[0], progress))


def _editions(
    piece: Piece, systems: Sequence[System], offered: tuple[SizeMade, ...], progress: Progress
) -> list[tuple[Edition, list[Leaf]]]:
    """Every edition with its pages; what does not depend on the unit system is made once."""
    design = piece.design
    progress("finding the order of the steps")
    steps = plan_of(piece).steps
    drawn = draw_all(piece, progress)
    made = []
    for system in systems:
        progress(f"setting the pages in {system}")
        edition = Edition(piece, steps, drawn, design.units(system), style_of(design), offered)
        made.append((edition, leaves(edition)))
    return made


def _to_buy(piece: Piece, of: str) -> int:
    return sum(purchase.count for purchase in purchases(piece) if purchase.plan.of == of)


def _edition(edition: Edition, content: list[Leaf], folder: Path) -> list[Published]:
    """The PDF and the cut list in one unit system."""
    design, system = edition.piece.design, edition.units.name
    made = sheets(edition, content)
    spec = design.spec
    document = Document(
        f"{spec.plan}, plan set, {system} edition",
        spec.maker,
        spec.about.strip(),
        "plan, woodworking",
        LANGUAGES[system],
    )
    pdf = f"{design.stem}-{system}.pdf"
    write_pdf(folder / pdf, made, document)
    table = f"{design.stem}-cut-list-{system}.csv"
    (folder / table).write_bytes(cut_list_csv(edition).encode("utf-8"))
    return [Published(pdf, "plan set", system, len(made)), Published(table, "cut list", system, None)]
