"""What each kind of joint does to the two parts it joins, by its entry in the design file."""

from collections.abc import Callable
from typing import Any

from model.body import Body
from model.joints import (
    biscuit,
    box_joint,
    breadboard_end,
    bridle,
    cross_halving,
    dovetail,
    dowel,
    glued_face,
    grooved_panel,
    housing,
    loose_tenon,
    mitre,
    mortise_and_tenon,
    notch_over,
    rabbet,
    scribe,
    sliding_dovetail,
    tongue_and_groove,
)
from model.joints.joining import Habits
from model.piece import JointMade
from plans import joints as written

Bodies = dict[str, list[Body]]
Joiner = Callable[[Bodies, Any, int, Habits], list[JointMade]]

JOINERS: dict[type, Joiner] = {
    written.MortiseAndTenon: mortise_and_tenon.join,
    written.Bridle: bridle.join,
    written.CrossHalving: cross_halving.join,
    written.NotchOver: notch_over.join,
    written.GluedFace: glued_face.join,
    written.Housing: housing.join,
    written.Rabbet: rabbet.join,
    written.TongueAndGroove: tongue_and_groove.join,
    written.GroovedPanel: grooved_panel.join,
    written.BoxJoint: box_joint.join,
    written.Dovetail: dovetail.join,
    written.SlidingDovetail: sliding_dovetail.join,
    written.Mitre: mitre.join,
    written.LooseTenon: loose_tenon.join,
    written.Dowel: dowel.join,
    written.Biscuit: biscuit.join,
    written.BreadboardEnd: breadboard_end.join,
    written.Scribe: scribe.join,
}

__all__ = ["JOINERS", "Bodies", "Habits"]
