"""The sheets of joints: each kind is there by its trade name, every joint counted, the pictures to one scale."""

import re
from collections.abc import Sequence

import numpy as np
import pytest

from model.joints_alike import UNCUT
from plans.joints import JOINTS
from publish.drawing.records import Image, Label, Sheet
from publish.edition import Edition
from publish.words.joint_details import JOINT_NAMES
from publish.words.spelling import spelt

COUNTED = re.compile(r": (\d+) joints?(?= |$)")


@pytest.fixture
def joint_sheets(set_sheets: Sequence[Sheet]) -> list[Sheet]:
    return [sheet for sheet in set_sheets if sheet.key.startswith("joints")]


def labels(sheets: Sequence[Sheet]) -> list[str]:
    return [record.string for sheet in sheets for record in sheet.items if isinstance(record, Label)]


def test_every_kind_of_joint_has_a_trade_name() -> None:
    assert set(JOINT_NAMES) == set(JOINTS)


def test_the_joints_on_the_sheets_add_up_to_those_of_the_piece(edition: Edition, joint_sheets: list[Sheet]) -> None:
    """As printed, a count that runs over a line included; glued faces have nothing cut, and hook rails no other."""
    cut = [joint for joint in edition.piece.joints if joint.kind not in UNCUT]
    found = COUNTED.finditer(" ".join(labels(joint_sheets)))
    assert sum(int(match[1]) for match in found) == len(cut)
    printed = " ".join(labels(joint_sheets)).lower()
    for kind in {joint.kind for joint in cut}:
        assert spelt(edition, JOINT_NAMES[kind]) in printed


def test_each_is_drawn_apart_and_closed_to_one_scale(edition: Edition, joint_sheets: list[Sheet]) -> None:
    images = [record for sheet in joint_sheets for record in sheet.items if isinstance(record, Image)]
    images = [image for image in images if edition.drawing_area.holds(image.box)]  # a logo stands below it
    joints = edition.drawn.joints
    assert len(images) == 2 * len(joints)
    for n, joint in enumerate(joints):
        first, second = images[2 * n : 2 * n + 2]
        scale = first.width / joint.apart.tint.box.width
        assert second.width / joint.closed.tint.box.width == pytest.approx(scale)
        assert 0 < scale <= 1.0


def test_the_members_are_moved_the_way_they_come_apart_and_both_are_seen(edition: Edition) -> None:
    for joint in edition.drawn.joints:
        shown = joint.alike.shown
        away = joint.apart.shifts[shown.a]
        assert away / np.linalg.norm(away) == pytest.approx(-np.array(shown.direction))
        for picture in (joint.apart, joint.closed):
            assert min(picture.tint.count(0), picture.tint.count(1)) > 0, shown
