"""The pictures of the steps: what is added is seen, counted in the image; arrows point home; glue is hatched."""

import numpy as np
import pytest

from model.frames import placing
from publish.edition import Edition
from publish.shade import tint
from publish.stage_pictures import TURNED, _added, _from_below, _stands


def test_at_least_half_of_everything_added_is_seen(edition: Edition, unit_system: str) -> None:
    """Half of its area, never under a quarter (our bar after Heiser et al. 2004: every part added is visible)."""
    if unit_system == "mm":
        pytest.skip("the same pictures")
    shares = []
    for stage, made in zip(edition.piece.stages, edition.drawn.stages, strict=True):
        moved = {name for move in stage.moves for name in move.parts}
        new = moved if _stands(edition.piece, stage) else set(stage.parts)
        axes, grid = made.tint.axes, made.tint.grid
        numbers = {name: n for n, name in enumerate(made.names)}
        for group in _added(stage, new):
            apart = [placing(np.eye(3), made.shifts[name]) for name in group]
            meshes = [edition.piece.parts[n].mesh.moved(away) for n, away in zip(group, apart, strict=True)]
            white = [(1.0, 1.0, 1.0)] * len(meshes)
            alone = tint(meshes, white, axes.towards, axes.right, grid.pixels_per_mm, grid.box)
            seen = sum(made.tint.count(numbers[name]) for name in group)
            shares.append((seen / int((alone.ids >= 0).sum()), sorted(group), made.said))
    assert min(shares)[0] >= 0.25, min(shares)
    assert sum(share >= 0.5 for share, _, _ in shares) >= 0.95 * len(shares), sorted(shares)[:5]


def test_arrows_point_the_way_home(edition: Edition) -> None:
    for stage, made in zip(edition.piece.stages, edition.drawn.stages, strict=True):
        assert len(made.arrows) <= len(stage.moves)
        ways = [np.array(made.tint.axes.at(-np.array(move.path[-1].direction))) for move in stage.moves if move.path]
        for start, tip in made.arrows:
            run = np.subtract(tip, start)
            assert any(float(run @ way) > 0.99 * float(np.hypot(*run) * np.hypot(*way)) for way in ways)


def test_what_comes_from_below_is_drawn_turned_over_and_said(edition: Edition) -> None:
    for stage, made in zip(edition.piece.stages, edition.drawn.stages, strict=True):
        up = made.tint.axes.at((0.0, 0.0, 1.0))[1]
        assert (up < 0) == (made.said == TURNED.said)
        assert up > 0 or _from_below(stage)


def test_clamps_push_inwards_and_only_where_there_is_glue(edition: Edition) -> None:
    for stage, made in zip(edition.piece.stages, edition.drawn.stages, strict=True):
        here = set(stage.parts)
        glued = any(joint.glued and {joint.a, joint.b} <= here for joint in edition.piece.joints)
        assert glued or not made.clamps
        assert glued or not made.hatched


def test_the_piece_is_turned_over_rarely(edition: Edition) -> None:
    """At most once for each eight steps (our bar, after Agrawala et al. 2003: keep the upright pose)."""
    turned = sum(made.said == TURNED.said for made in edition.drawn.stages)
    assert turned <= max(1, len(edition.steps) // 8)
