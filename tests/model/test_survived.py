"""A crash of the kernel is an answer like another: found by random parts (tests/publish/test_random_parts.py)."""

import math
import os
import signal

import pytest

from model.survived import survived

CORNER = 1 - math.pi / 4  # of r^2: a square less a quarter of a circle


@pytest.mark.parametrize("answer", [b"", b"some", bytes(3_000_000)])  # more than a pipe holds
def test_what_is_made_comes_back(answer):
    assert survived(lambda: answer) == answer


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes of this kind here")
def test_a_crash_is_no_answer():
    def falls_over() -> bytes:
        os.kill(os.getpid(), signal.SIGSEGV)
        return b"never"

    assert survived(falls_over) is None


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes of this kind here")
def test_a_child_that_somebody_stopped_is_no_crash():
    """Such as for want of memory: it would else be kept as an answer, and other runs would take it."""

    def is_stopped() -> bytes:
        os.kill(os.getpid(), signal.SIGKILL)
        return b"never"

    with pytest.raises(RuntimeError):
        survived(is_stopped)


def test_a_fault_of_ours_is_raised():
    with pytest.raises((RuntimeError, ZeroDivisionError), match="division"):
        survived(lambda: bytes(1 // 0))


CRASHES = """
plan: Trial
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: mm
parts:
  board:
    wood: white oak
    runs: left-right
    thick: front-back
    length: 268
    width: 184
    thickness: 29.5
    where: {bottom: floor, centred: [left-right, front-back]}
    shaping:
    - arc: {bend: hollow, edge: top, rise: 5.5}
    - thumbnail: {step: 1.5, face: front, edges: bottom, radius: 7}
    - round over: {arrises: ends, radius: 7}
    - slot: {at: {bottom: 10, left: 84}, side: front, long: 67, wide: 7.5}
"""


def test_a_fillet_that_crashes_is_cut_instead(built):
    """The kernel's own fillet of these ends is a segmentation fault (cadquery-ocp 7.9); cutters do it."""
    part = built(CRASHES).parts["board"]
    lost = part.sharp.Volume() - part.eased.Volume()
    # eight arrises of two ends, four along the width and four along the thickness; less what meets at the corners
    straight = CORNER * 7.0**2 * (4 * 184 + 4 * 29.5)
    assert 0.8 * straight < lost < straight
