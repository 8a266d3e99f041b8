"""The piece as a STEP file: every part and every fixing in its place, by name and in its colour.

Parts that come out alike share one product ("A leg"); each place it stands in has the part's own name
("leg front left"). A mirror image is a product of its own ("A leg, mirrored"). Millimetres, AP214.
"""

from __future__ import annotations

import itertools
import re
import tempfile
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path

import cadquery as cq
from OCP.IFSelect import IFSelect_RetDone
from OCP.Interface import Interface_Static
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_AsIs
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from model.alike import match_parts
from model.frames import location
from model.piece import Item, Part, Piece

Colour = tuple[float, float, float]  # red, green, blue, each 0 to 1 (sRGB)

PLAIN: Colour = (0.8, 0.7, 0.5)
METAL: Colour = (0.75, 0.75, 0.78)
_STRING = r"'(?:[^']|'')*'"
_HEADER = re.compile(rf"FILE_DESCRIPTION\((?:{_STRING}|[^';])*;\s*FILE_NAME\((?:{_STRING}|[^';])*;")
_BODY = re.compile(r"ADVANCED_BREP_SHAPE_REPRESENTATION\('',\(#\d+,\s*(#\d+)\),\s*(#\d+)\s*\);")
# each statement points to the next (ISO 10303-46, presentation of surfaces)
_PAINT = (
    "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',({next}),{context})",
    "STYLED_ITEM('color',({next}),{solid})",
    "PRESENTATION_STYLE_ASSIGNMENT(({next}))",
    "SURFACE_STYLE_USAGE(.BOTH.,{next})",
    "SURFACE_SIDE_STYLE('',({next}))",
    "SURFACE_STYLE_FILL_AREA({next})",
    "FILL_AREA_STYLE('',({next}))",
    "FILL_AREA_STYLE_COLOUR('',{next})",
    "COLOUR_RGB('',{rgb})",
)
_OCCURRENCE = re.compile(rf"NEXT_ASSEMBLY_USAGE_OCCURRENCE\((?:{_STRING}|[^';])*;")
_NOT_ASCII = re.compile(r"[^\x00-\x7e]")


def write_step(piece: Piece, path: Path, colours: Mapping[str, Colour] | None = None) -> None:
    """Write `piece` to `path`; colours: by name of the wood. The same piece gives the same bytes.

    Raises OSError where the file cannot be written, RuntimeError where the kernel refuses.
    """
    document = TDocStd_Document(TCollection_ExtendedString("plansheaf"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    whole = shapes.NewShape()
    _name(whole, piece.design.spec.plan)
    paints: list[Colour] = []
    for item in piece.items:
        wood = piece.parts[item.shown].spec.made_of
        paints += [(colours or {}).get(wood, PLAIN)] * _add_item(piece, item, shapes, whole)
    paints += [METAL] * _add_fixings(piece, shapes, whole)
    shapes.UpdateAssemblies()
    text = _painted(_settled(_transferred(document), path.name, piece), paints)
    path.write_text(text, encoding="ascii", newline="\n")


def _add_item(piece: Piece, item: Item, shapes: XCAFDoc_ShapeTool, whole: TDF_Label) -> int:
    """One product for the parts alike, one for their mirror images, each where it stands; how many products."""
    hands = [(names, ending) for names, ending in ((item.parts, ""), (item.mirrored, ", mirrored")) if names]
    for names, ending in hands:
        first = piece.parts[names[0]]
        product = shapes.AddShape(first.eased.wrapped, False)
        _name(product, f"{item.mark} {item.name}{ending}")
        for name in names:
            placed = shapes.AddComponent(whole, product, _place(first, piece.parts[name]).wrapped)
            _name(placed, name)
    return len(hands)


def _add_fixings(piece: Piece, shapes: XCAFDoc_ShapeTool, whole: TDF_Label) -> int:
    """A product for each plain solid, and every place it stands in: `wood screw 3`; how many products."""
    products: dict[int, TDF_Label] = {}
    count: Counter[str] = Counter()
    for fixing in piece.fixings:
        if fixing.solid is None:
            continue
        key = id(fixing.solid)  # the places of one entry may share it
        if key not in products:
            products[key] = shapes.AddShape(fixing.solid.wrapped, False)
            _name(products[key], fixing.kind)
        for place in fixing.at:
            count[fixing.kind] += 1
            _name(shapes.AddComponent(whole, products[key], place.wrapped), f"{fixing.kind} {count[fixing.kind]}")
    return len(products)


def _place(first: Part, part: Part) -> cq.Location:
    """Where the product, which is the `first` part's solid, goes to be `part`."""
    if part is first:
        return part.at
    found = match_parts(first, part).same
    if found is None:
        raise RuntimeError(f"{first.name} and {part.name} were counted alike, and are not")
    return part.at * location(found)


def _transferred(document: TDocStd_Document) -> str:
    """The text of the document's STEP file, as the kernel writes it."""
    writer = STEPCAFControl_Writer()
    writer.SetNameMode(True)
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    if not writer.Transfer(document, STEPControl_AsIs):
        raise RuntimeError("the kernel could not turn the piece into STEP")
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "piece.step"
        if writer.Write(str(file)) != IFSelect_RetDone:
            raise RuntimeError("the kernel could not write STEP")
        return file.read_text(encoding="utf-8")


def _settled(text: str, file: str, piece: Piece) -> str:
    """The text in ASCII, with nothing of the hour, the machine or what the kernel wrote before."""
    spec = piece.design.spec
    header = (
        f"FILE_DESCRIPTION(({_quoted(spec.plan)}),'2;1');\n"
        f"FILE_NAME({_quoted(file)},'{spec.date.isoformat()}T00:00:00',({_quoted(spec.maker)}),(''),"
        "'plansheaf','plansheaf','');"
    )
    text = _HEADER.sub(lambda _: header, text, count=1)
    # the kernel numbers these through for as long as it runs
    number = itertools.count(1)
    text = _OCCURRENCE.sub(lambda found: _numbered(found.group(), next(number)), text)
    return _NOT_ASCII.sub(lambda found: _written(found.group()), text)


def _painted(text: str, paints: Sequence[Colour]) -> str:
    """The text with the products' solids coloured, in their order.

    The kernel would write the same statements, but in the order of memory addresses.
    """
    bodies = [(found[1], found[2]) for found in _BODY.finditer(text)]
    if len(bodies) != len(paints):
        raise RuntimeError(f"{len(paints)} products, but {len(bodies)} bodies in the STEP text")
    number = max(int(found) for found in re.findall(r"^#(\d+) = ", text, re.MULTILINE))
    lines = []
    for (solid, context), paint in zip(bodies, paints, strict=True):
        rgb = ",".join(f"{value:.6f}" for value in paint)
        for statement in _PAINT:
            number += 1
            filled = statement.format(next=f"#{number + 1}", solid=solid, context=context, rgb=rgb)
            lines.append(f"#{number} = {filled};\n")
    body, end = text.rsplit("ENDSEC;", 1)
    return f"{body}{''.join(lines)}ENDSEC;{end}"


def _numbered(statement: str, number: int) -> str:
    """A usage statement on one line, with its number set."""
    return re.sub(r"\('\d+'", f"('{number}'", statement.replace("\n  ", "").replace("\n", ""), count=1)


def _quoted(text: str) -> str:
    """A STEP string (ISO 10303-21): quotes and backslashes doubled."""
    return "'" + _one_line(text).replace("\\", "\\\\").replace("'", "''") + "'"


def _written(letter: str) -> str:
    """A letter that is not ASCII as ISO 10303-21 writes it: as \\X2\\ or \\X4\\ hexadecimal."""
    return f"\\X4\\{ord(letter):08X}\\X0\\" if ord(letter) > 0xFFFF else f"\\X2\\{ord(letter):04X}\\X0\\"


def _one_line(text: str) -> str:
    """The text without line ends or other control characters."""
    return "".join(letter if letter.isprintable() else " " for letter in text)


def _name(label: TDF_Label, name: str) -> None:
    """Name a product or a place."""
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(_one_line(name), True))
