"""The maker's own hand in the steps: `steps:` in a design file. It pins, splits, joins, retitles, rewords and adds.

steps:
  - {work: tapers, apart: leg, title: Taper the legs, also: "Mark the two inner faces of every {leg} first."}
  - {adding: seat slat, after: level, instead: ["Lay all slats out.", "Screw them down from the middle."]}
  - {new: Make a story stick, before: mill, say: "Mark {shelf_height} on it."}
"""

import re
from typing import Literal

from pydantic import Field, model_validator

from plans.fields import Entry, Line, OneOrMore, PartName, Words
from plans.kinds import refused

# what a step of work on parts is called in a file; the model has a table with the same words
WorkWord = Literal[
    "mill",
    "glue up",
    "size",
    "templates",
    "ends",
    "spline slots",
    "mortises",
    "end grooves",
    "tenons",
    "bridles",
    "halvings",
    "notches",
    "grooves",
    "rabbets",
    "tongues",
    "sliding dovetails",
    "dovetails",
    "box joints",
    "biscuit slots",
    "scribing",
    "bevels",
    "tapers",
    "curves",
    "turning",
    "recesses",
    "holes",
    "slots",
    "mouldings",
    "easing",
    "dry fit",
    "sand",
    "level",
    "finish",
    "fittings",
    "supplies",
]
NAMED = re.compile(r"\{([^{}]*)\}")  # `{leg}`, `{leg.width}`, `{shelf_height}` in the words of the maker
SIZES = ("length", "width", "thickness")


class OwnStep(Entry):
    """What the maker says of one step: of a `work` on parts, of the one `adding` a part, or of a `new` one."""

    work: WorkWord | None = Field(default=None, description="the work on parts that is meant, as `tapers`")
    adding: PartName | None = Field(default=None, description="the step of assembly in which that part goes in")
    new: Line | None = Field(default=None, description="a step of your own, by its title")
    title: Line | None = None
    say: OneOrMore[Words] = Field(default=(), max_length=12, description="the words of a new step")
    instead: OneOrMore[Words] = Field(default=(), max_length=12, description="your words in the place of ours")
    also: OneOrMore[Words] = Field(default=(), max_length=12, description="your words after ours")
    caution: Words | None = Field(default=None, description="stands before the act, with ours")
    wait: Line | None = Field(default=None, description="how long to wait when it is done")
    before: OneOrMore[Line] = Field(default=(), description="it comes before these: works, parts, or steps of yours")
    after: OneOrMore[Line] = Field(default=(), description="it comes after these")
    apart: OneOrMore[PartName] = Field(default=(), description="these parts get a step of their own")
    joined_to: WorkWord | None = Field(default=None, alias="with", description="told in one step with that work")
    split: bool = Field(default=False, description="not put together in one go with what goes in before it")

    @property
    def called(self) -> str:
        """What it is known by to other steps."""
        return self.work or self.adding or self.new or ""

    @model_validator(mode="after")
    def _one_step(self) -> "OwnStep":
        if sum(said is not None for said in (self.work, self.adding, self.new)) != 1:
            raise refused(
                "step-needs-one",
                "one step is meant here",
                "say `work: tapers`, `adding: leg`, or `new: ` and its title",
            )
        for key, wrong, cure in (
            ("say", self.say and self.new is None, "say `instead` or `also`"),
            ("say", self.new and not self.say, "say what is done in it: `say: ...`"),
            ("title", self.new and self.title, "`new` is its title"),
            ("instead", self.instead and self.new is not None, "say `say`"),
            ("also", self.also and self.new is not None, "say `say`"),
            ("apart", self.apart and self.work is None, "say it of a `work`"),
            ("with", self.joined_to and (self.work is None or self.joined_to == self.work), "say it of another `work`"),
            ("split", self.split and self.adding is None, "say it of the step `adding` a part"),
        ):
            if wrong:
                raise refused("wrong-value", f"`{key}` does not go with this step", cure)
        return self
