"""The tools each kind of step needs, by machine and by hand (common practice)."""

from __future__ import annotations

from model.steps import Step
from publish.edition import Edition
from publish.words.spelling import spelt

TOOLS: dict[str, tuple[str, str, str]] = {
    "mill": ("Milling", "jointer and planer", "jack plane, try plane, winding sticks"),
    "glue up": ("Gluing up boards", "jointer, clamps on both faces", "try plane, clamps on both faces"),
    "size": ("Cutting to size", "table saw with a sled", "rip and crosscut saws, shooting board"),
    "ends": ("Angled ends", "mitre saw or table saw, bevel gauge", "bevel gauge, backsaw, block plane"),
    "mortises": ("Mortises", "router with a guide, or mortiser", "mortise chisel, mallet, marking gauge"),
    "end grooves": ("Grooves in breadboard ends", "router with a fence", "plough plane, mortise chisel"),
    "tenons": ("Tenons", "table saw or router table", "backsaw, shoulder plane, chisel"),
    "bridles": ("Bridles", "bandsaw or table saw", "backsaw, chisel"),
    "halvings": ("Halvings", "table saw with a stacked blade, or router", "backsaw, chisel, router plane"),
    "notches": ("Notches", "table saw or router with a guide", "backsaw, chisel, router plane"),
    "grooves": (
        "Housings and grooves",
        "router or table saw with a grooving blade",
        "plough plane, tenon saw, router plane",
    ),
    "rabbets": ("Rabbets", "table saw or router table", "rabbet plane, marking gauge"),
    "tongues": ("Tongues", "table saw or router table", "rabbet plane, shoulder plane"),
    "spline slots": ("Spline slots", "table saw or router table with a jig", "backsaw, chisel"),
    "sliding dovetails": (
        "Sliding dovetails",
        "router with a dovetail cutter",
        "dovetail saw, dovetail plane, router plane",
    ),
    "dovetails": ("Dovetails", "bandsaw, router with a jig", "dovetail saw, bevel gauge, chisels, marking gauge"),
    "box joints": ("Box joints", "table saw with a finger jig", "backsaw, chisels"),
    "biscuit slots": (
        "Biscuit slots",
        "biscuit joiner, or router with a slot cutter",
        "dowels instead: brace, dowelling jig",
    ),
    "scribing": ("Scribing", "jigsaw or bandsaw with a narrow blade", "compass, coping saw, gouge and file"),
    "bevels": ("Bevelled edges", "table saw or jointer with a tilted fence", "bench plane, bevel gauge"),
    "tapers": ("Tapers", "bandsaw, or table saw with a jig", "jack plane, marking gauge"),
    "recesses": ("Recesses", "router with a small straight bit", "chisel, router plane, marking gauge"),
    "holes": ("Holes", "drill press or drill, brad-point bits", "brace and bits"),
    "curves": ("Shaped edges", "bandsaw, spindle sander", "bow saw, spokeshave, batten"),
    "turning": ("Turning", "lathe, gouges, callipers", "drawknife, spokeshave, callipers"),
    "slots": ("Slots", "router with a guide, jigsaw", "brace and bits, keyhole saw, rasp"),
    "mouldings": ("Mouldings", "router table", "moulding planes"),
    "easing": ("Easing arrises", "router with a small bit", "block plane, sandpaper on a block"),
    "templates": ("Templates", "scroll saw or bandsaw", "coping saw, knife, file"),
    "sand": ("Sanding", "random-orbit sander", "sanding block, scraper"),
    "level": ("Levelling", "flat table, wedges", "wedges, pencil on a block, block plane"),
    "stage": ("Assembly", "clamps, cauls, drill and driver", "clamps, cauls, screwdriver"),
    "finish": ("Finishing", "random-orbit sander", "sanding block, lint-free cloths"),
}


def tool_words(edition: Edition, step: Step) -> tuple[str, ...]:
    """A line of the tools of a step: by machine, and by hand."""
    rows = [TOOLS[one.kind] for one in step.every if one.kind in TOOLS]
    return tuple(spelt(edition, f"Tools: {machine}. By hand: {hand}.") for _, machine, hand in dict.fromkeys(rows))


def tools(edition: Edition) -> list[tuple[str, ...]]:
    """A row for each kind of work in the build, in its order."""
    kinds = dict.fromkeys(one.kind for step in edition.steps for one in step.every)
    return [tuple(spelt(edition, word) for word in TOOLS[kind]) for kind in kinds if kind in TOOLS]
