"""A set is whole or not there at all: killed, in a race, on a full disk.

`kill -9` is the operating system's own; whether a set is whole is told by comparing every file with what was written.
"""

from __future__ import annotations

import errno
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from publish import in_place
from publish.in_place import written_beside

ROOT = Path(__file__).parent.parent.parent
# one set after another, each of forty files that all say which it is
WRITER = """
import sys
from pathlib import Path
from publish.in_place import written_beside
number = int(sys.argv[2])
print("ready", flush=True)
while True:
    with written_beside(Path(sys.argv[1])) as made:
        for name in range(40):
            (made / str(name)).write_text(str(number))
    number += 2
"""
KILLS = 50


def whole(place: Path) -> bool:
    """Forty files that say the same."""
    said = [file.read_text() for file in place.iterdir()]
    return len(said) == 40 and len(set(said)) == 1


def writer(place: Path, number: int) -> subprocess.Popen[str]:
    world = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", WRITER, str(place), str(number)]
    process = subprocess.Popen(command, env=world, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None and process.stdout.readline() == "ready\n"
    return process


def test_killed_at_any_moment_the_old_set_is_whole(tmp_path: Path) -> None:
    place = tmp_path / "r1"
    with written_beside(place) as made:
        for name in range(40):
            (made / str(name)).write_text("first")
    chance = random.Random(20261125)
    seen = set()
    for number in range(KILLS):
        process = writer(place, number * 1_000_000)
        time.sleep(chance.uniform(0.0, 0.03))
        process.send_signal(signal.SIGKILL)
        process.wait()
        assert process.stdout is not None
        process.stdout.close()
        assert whole(place), f"not whole after kill {number}"
        seen.add((place / "0").read_text())
    assert len(seen) > KILLS / 4, "it was hardly ever killed while it wrote"


def test_two_runs_at_once_do_not_mix(tmp_path: Path) -> None:
    place = tmp_path / "r1"
    runs = [writer(place, number) for number in (0, 1)]
    seen = set()
    end = time.monotonic() + 3
    while time.monotonic() < end and not {"even", "odd"} <= seen:
        held = os.open(place, os.O_RDONLY) if place.exists() else None
        if held is not None:
            # the folder that had the name just now: what is listed is one set, or one that was cleared away since
            said = {_read(held, name) for name in os.listdir(held)} - {None}
            os.close(held)
            assert len(said) <= 1
            seen |= {"odd" if int(text) % 2 else "even" for text in said if text is not None}
    for run in runs:
        run.kill()
        run.wait()
        assert run.stdout is not None
        run.stdout.close()
    assert whole(place)


def _read(folder: int, name: str) -> str | None:
    try:
        file = os.open(name, os.O_RDONLY, dir_fd=folder)
    except FileNotFoundError:
        return None
    with os.fdopen(file) as stream:
        return stream.read()


def test_without_the_exchange_of_the_system(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(in_place, "_exchanged", lambda a, b: False)
    for text in ("old", "new"):
        with written_beside(tmp_path / "r1") as made:
            (made / "page").write_text(text)
    assert (tmp_path / "r1" / "page").read_text() == "new" and [p.name for p in tmp_path.iterdir()] == ["r1"]


def test_what_killed_runs_leave_is_swept_up(tmp_path: Path) -> None:
    """Not what a run still writes in, nor what is younger than an hour, nor what is not ours."""
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    folders = {
        f".r1-{gone.pid}-abcdefgh": True,
        f".r1-{os.getpid()}-abcdefgh": False,
        f".r12-{gone.pid}-abcdefgh": False,
        ".r1-notes": False,
    }
    for name in folders:
        (tmp_path / name).mkdir()
        os.utime(tmp_path / name, (time.time() - 2 * in_place.STALE,) * 2)
    (tmp_path / f".r1-{gone.pid}-young").mkdir()
    with written_beside(tmp_path / "r1"):
        pass
    for name, swept in folders.items():
        assert (tmp_path / name).exists() != swept
    assert (tmp_path / f".r1-{gone.pid}-young").exists()


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EDQUOT, errno.EIO])
def test_a_disk_that_fails_leaves_the_old_set(number: int, tmp_path: Path) -> None:
    with written_beside(tmp_path / "r1") as made:
        (made / "page").write_text("old")
    with pytest.raises(OSError, match=os.strerror(number)), written_beside(tmp_path / "r1") as made:
        (made / "page").write_text("ne")
        raise OSError(number, os.strerror(number))
    assert (tmp_path / "r1" / "page").read_text() == "old" and [p.name for p in tmp_path.iterdir()] == ["r1"]
