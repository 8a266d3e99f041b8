"""What is said on and about full-size templates."""

from __future__ import annotations

from model.piece import Piece
from model.templates import Template, Use, templates
from publish.edition import Edition
from publish.words.names import capital, item_name, listed, number

PRINT = "Print at 100 % (actual size): not fitted, not shrunk to the page"
CHECK = {"across": "100 mm", "up": "4 in"}
PAPER_WORDS = {"inch": "letter", "mm": "a4"}
HOW = (
    "Print every sheet at 100 %, or actual size. Turn off fitting and shrinking, and paper of another size.",
    "Measure the check bars of one sheet before you print the rest: 100 mm across and 4 in up, to half a millimetre.",
    "Where a sheet has a neighbour to its left or above, cut it along the dashed line there. Lay it over that "
    "neighbour, dashed line on dashed line and cross on cross, and tape it down.",
    "Stick the paper to hardboard or thin plywood for a template that is used more than once, or straight to the wood.",
    "The middle of the heavy line is the edge of the part. Saw on the waste side and work down to it.",
    "An arrow runs with the grain. A fine outline lies below the face: a tenon, a rabbet. Eased arrises are drawn "
    "sharp.",
)


def file_name(piece: Piece, form: str) -> str:
    """`porch_bench-templates-letter.pdf`: form is `letter`, `a4` or `whole`."""
    return f"{piece.design.file_stem}-templates-{form}.pdf"


def dxf_name(piece: Piece, template: Template) -> str:
    """`porch_bench-template-C-front.dxf`: after the first thing it serves; marks and sides are plain words."""
    use = template.uses[0]
    return f"{piece.design.file_stem}-template-{use.mark}-{use.side}.dxf"


def title(piece: Piece, template: Template) -> str:
    """`C  Leg, front face`; the faces are told apart below where there are several: `A, B  Leg`."""
    sides = {use.side for use in template.uses}
    side = f", {sides.pop()} face" if len(sides) == 1 and not template.cut else ""
    return f"{', '.join(template.marks)}  {capital(called(piece, template))}{side}"


def called(piece: Piece, template: Template) -> str:
    """The name of what it serves."""
    items = [item for item in piece.items if item.mark in template.marks]
    names = [item_name(piece, items[0])] if len(items) == 1 else list(dict.fromkeys(item.name for item in items))
    return listed(names)


def about(edition: Edition, template: Template) -> str:
    """What it is for and how large: `Taper and compound angles, 17 3/16 × 1 3/4 in. Holes: ...`."""
    reasons = capital(listed(template.reasons))
    cut = " (cut through the middle)" if template.cut else ""
    return f"{reasons}{cut}, {size_words(edition, template)}. {hole_words(edition, template)}".strip()


def serves(template: Template) -> list[str]:
    """Which parts it is for: `leg front left; turned over: leg front right`, a line for each mark and side.

    Nothing where its name says it all.
    """
    many = len(template.uses) > 1
    if not many and len(template.uses[0].as_drawn) + len(template.uses[0].turned_over) == 1:
        return []
    return [f"{use.mark}, {use.side} face: {_parts(use)}" if many else capital(_parts(use)) for use in template.uses]


def serves_in_short(template: Template) -> str:
    """The same in one line for the head of a sheet; where that would be long, where to find it."""
    if len(template.uses) > 1:
        return f"Serves {number(len(template.uses))} faces of {listed(template.marks)}: the first sheet says which"
    return "".join(serves(template))


def _parts(use: Use) -> str:
    said = [listed(use.as_drawn)] if use.as_drawn else []
    if use.turned_over:
        said.append(f"turned over: {listed(use.turned_over)}")
    return "; ".join(said)


def hole_words(edition: Edition, template: Template) -> str:
    """`2 holes of 3/16 and 5 of 1/8 in`; empty where there are none."""
    found: dict[str, int] = {}
    for _, diameter in template.holes:
        found[edition.drill(diameter)] = found.get(edition.drill(diameter), 0) + 1
    if not found:
        return ""
    rows = [f"{count} of {size}" for size, count in found.items()]
    return f"Holes: {listed(rows)} {edition.units.suffix} across."


def size_words(edition: Edition, template: Template) -> str:
    """How large it is over all."""
    return " × ".join(edition.number(mm) for mm in template.size) + f" {edition.units.suffix}"


def where_to_find(edition: Edition) -> str:
    """Which marks have templates and in which files; empty where none has."""
    piece = edition.piece
    found = templates(piece)
    if not found:
        return ""
    marks = list(dict.fromkeys(mark for template in found for mark in template.marks))
    return (
        f"Full-size templates of {listed(marks)} come in files of their own: templates-"
        f"{PAPER_WORDS[edition.units.name]}.pdf (sheets to tape together), templates-whole.pdf (each on one large "
        "sheet) and DXF. Print them at 100 %."
    )


def on_the_sheet(piece: Piece, mark: str) -> list[str]:
    """The note on the sheet of a part that has templates: of which sides."""
    sides = dict.fromkeys(use.side for made in templates(piece) for use in made.uses if use.mark == mark)
    if not sides:
        return []
    what, faces = ("A full-size template", "face") if len(sides) == 1 else ("Full-size templates", "faces")
    return [f"{what} of the {listed(sides)} {faces}: see the file of templates."]


def dxf_words(piece: Piece, template: Template) -> str:
    """What is written under the outline in a DXF file."""
    served = ".  ".join(serves(template))
    return f"{piece.design.spec.plan}: {title(piece, template)}. {served}".strip()
