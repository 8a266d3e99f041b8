"""The kinds of work in a build, as data: what each does, on which set-up, and what has to come before what.

The order of `WORKS` is that of the shop; it decides only where the rules leave a choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

On = Literal["same part", "met part", "whole"]


@dataclass(frozen=True)
class Work:
    """A kind of work: the operations on parts it stands for, and the set-up it is done on."""

    kind: str
    operations: tuple[str, ...] = ()
    set_up: str = ""


@dataclass(frozen=True)
class Rule:
    """Every work of `first` comes before every one of `then`: on the same part, on parts that meet, or altogether."""

    first: tuple[str, ...]
    then: tuple[str, ...]
    on: On
    why: str


WORKS: tuple[Work, ...] = (
    Work("mill", (), "jointer and planer"),
    Work("glue up", ("gluing up",), "clamps"),
    Work("size", (), "table saw"),
    Work("templates"),
    Work("ends", ("sloped end",), "mitre saw"),
    Work("spline slots", ("spline slot",), "table saw"),
    Work("mortises", ("mortise",), "mortiser"),
    Work("end grooves", ("end groove",), "router"),
    Work("tenons", ("tenon", "tongue", "saw cut"), "table saw"),
    Work("bridles", ("bridle slot", "bridle cheek"), "bandsaw"),
    Work("halvings", ("halving",), "table saw"),
    Work("notches", ("notch",), "table saw"),
    Work("grooves", ("housing", "groove"), "router"),
    Work("rabbets", ("rabbet",), "router table"),
    Work("tongues", ("edge tongue", "housed tongue", "housed end", "panel edge"), "router table"),
    Work("sliding dovetails", ("dovetail housing", "dovetail tongue"), "router"),
    Work("dovetails", ("tails", "pins"), "bandsaw"),
    Work("box joints", ("fingers",), "table saw"),
    Work("biscuit slots", ("biscuit slot",), "biscuit joiner"),
    Work("scribing", ("scribe",), "coping saw"),
    Work("bevels", ("sloped edge",), "table saw"),
    Work("tapers", ("taper",), "bandsaw"),
    Work("curves", ("arc", "curve", "relief"), "bandsaw"),
    Work("turning", ("turned",), "lathe"),
    Work("recesses", ("recess", "fitting recess"), "router"),
    Work("holes", ("hole", "screw hole", "peg hole", "dowel hole", "fitting hole"), "drill press"),
    Work("slots", ("slot", "hand hold"), "router"),
    Work("mouldings", ("cove", "thumbnail"), "router table"),
    Work("easing", ("round over", "chamfer"), "router"),
)
PREPARED = ("mill", "glue up", "size")
# cut into true faces, or from them
JOINTED = (
    *("spline slots", "mortises", "end grooves", "tenons", "bridles", "halvings", "notches", "grooves", "rabbets"),
    *("tongues", "sliding dovetails", "dovetails", "box joints", "biscuit slots"),
)
SHAPED = ("tapers", "curves", "turning")  # takes true faces away
DONE = tuple(work.kind for work in WORKS)  # all that is done to parts one by one

RULES: tuple[Rule, ...] = (
    Rule(("mill",), ("glue up", "size"), "same part", "boards are flat and straight before they are glued or cut"),
    Rule(("glue up",), ("size",), "same part", "a panel is cut when it is whole"),
    Rule(PREPARED, ("ends", *JOINTED, "scribing", "bevels", *SHAPED), "same part", "joints are laid out on true faces"),
    Rule(PREPARED, ("recesses", "holes", "slots", "mouldings", "easing"), "same part", "sizes come before details"),
    Rule(PREPARED, ("templates",), "whole", "a template is laid on planed stock"),
    Rule(("ends",), JOINTED, "same part", "shoulders and mortises are measured from the finished end"),
    Rule(("mortises",), ("tenons",), "met part", "a tenon is fitted to its mortise"),
    Rule(("end grooves", "grooves"), ("tenons", "tongues"), "met part", "a tongue is fitted to its groove"),
    Rule(("end grooves", "grooves"), ("tongues",), "same part", "the groove is set first, the tongue to it"),
    Rule(JOINTED, SHAPED, "same part", "you lose your square faces"),
    Rule(JOINTED, ("bevels",), "same part", "the fence wants a square edge"),
    Rule(JOINTED, ("scribing", "mouldings", "easing"), "same part", "an eased arris leaves a gap at a shoulder"),
    Rule(("scribing",), ("easing",), "same part", "the profile is taken from the sharp arris"),
    Rule(("bevels", *SHAPED), ("mouldings", "easing"), "same part", "arrises are eased when they are there"),
    Rule(("mouldings",), ("easing",), "same part", "the bit of the moulding wants a sharp arris to run on"),
    Rule(("recesses", "holes", "slots"), ("easing",), "same part", "the fence wants a sharp arris"),
    Rule(
        ("templates",), ("ends", *JOINTED, *SHAPED, "holes", "slots"), "whole", "what is marked from them is cut then"
    ),
    Rule(DONE, ("dry fit",), "whole", "glue hides what was not cut"),
    Rule(DONE, ("sand", "stage"), "whole", "parts are ready before a glue-up hides them"),
    Rule(("dry fit",), ("sand", "stage"), "whole", "what does not close dry will not close wet"),
    Rule(("sand",), ("stage",), "whole", "inside faces cannot be reached later"),
    Rule(("stage", "level"), ("finish", "fittings", "supplies"), "whole", "glue does not take on finish"),
    Rule(("finish",), ("fittings", "supplies"), "whole", "hardware keeps clean"),
    Rule(("fittings",), ("supplies",), "whole", "the small things last"),
)
SET_UP = {work.kind: work.set_up for work in WORKS}
