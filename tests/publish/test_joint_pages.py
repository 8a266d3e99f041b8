"""The sheets of joints: each kind by its trade name, every joint counted, pictures to one scale, sections to theirs."""

import re
from collections.abc import Sequence

import numpy as np
import pytest

from model.joints_alike import UNCUT
from plans.joints import JOINTS
from publish.drawing.records import Image, Label, Sheet
from publish.drawing.scales import STANDARD
from publish.drawing.wishes import DimensionWish
from publish.edition import Edition
from publish.part_wishes import printed, wishes
from publish.printed_places import printed_places
from publish.words.joint_details import JOINT_NAMES, section_caption
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


def test_every_joint_is_cut_through_and_its_sizes_read_as_on_the_sheets_of_the_parts(edition: Edition) -> None:
    for joint in edition.drawn.joints:
        assert joint.section is not None, joint.alike.shown
        section = joint.section.section
        assert {cut.name for cut in section.cuts[:2]} == {joint.alike.shown.a, joint.alike.shown.b}
        for size in section.sizes:
            part = edition.piece.parts[size.part]
            item = next(i for i in edition.piece.items if size.part in (*i.parts, *i.mirrored))
            shown = edition.piece.parts[item.shown]
            if size.size is None or size.part != item.shown:
                continue
            told = [
                w.text for w in wishes(edition, shown, edition.drawn.parts[item.mark]) if isinstance(w, DimensionWish)
            ]
            text = printed(edition, printed_places(part, edition.units), size.size)
            assert text in {one.split("× ")[-1] for one in told}


def test_members_that_adjoin_are_hatched_apart(edition: Edition) -> None:
    for joint in edition.drawn.joints:
        assert joint.section is not None
        of, into = joint.section.section.cuts[:2]
        if of.adjoins(into):
            assert joint.section.hatch(0, 1.0) != joint.section.hatch(1, 1.0)


def test_sections_have_scales_of_their_own(edition: Edition, joint_sheets: list[Sheet]) -> None:
    found = [text for text in labels(joint_sheets) if text.startswith("SECTION")]
    assert len(found) == len(edition.drawn.joints)
    assert set(found) <= {section_caption(scale) for scale in STANDARD}
