"""A folder written beside its place and moved there when it is whole: who looks finds the old one or the new one."""

from __future__ import annotations

import ctypes
import errno
import os
import re
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

EXCHANGE = 2  # RENAME_EXCHANGE of renameat2(2)
AT_FDCWD = -100
STALE = 3600.0  # seconds after which what a stopped run left behind is swept up


@contextmanager
def written_beside(place: Path) -> Iterator[Path]:
    """A new folder to write in; it takes the name `place` when all went well, and is gone when not.

    OSError where that cannot be done. A run that is killed leaves a folder with a dot before its name, which a later
    run sweeps up.
    """
    place.parent.mkdir(parents=True, exist_ok=True)
    _sweep(place)
    beside = Path(tempfile.mkdtemp(prefix=f".{place.name}-{os.getpid()}-", dir=place.parent))
    try:
        made = beside / place.name
        made.mkdir()
        yield made
        move_into_place(made, place)
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def move_into_place(made: Path, place: Path) -> None:
    """Give `made` the name `place`; what had it is left where `made` was."""
    if not place.exists():
        try:
            os.rename(made, place)
            return
        except OSError as error:  # another run was first
            if error.errno not in (errno.EEXIST, errno.ENOTEMPTY):
                raise
    if not _exchanged(made, place):
        _by_turns(made, place)


def _exchanged(a: Path, b: Path) -> bool:
    """Two names exchanged in one act, so that neither is ever missing; false where the system cannot do it."""
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    if renameat2(AT_FDCWD, os.fsencode(a), AT_FDCWD, os.fsencode(b), EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in (errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP):
        return False
    raise OSError(number, os.strerror(number), str(b))


def _by_turns(made: Path, place: Path) -> None:
    """The old one aside, the new one in; the old one back where that fails."""
    aside = made.with_name(f"{made.name}.before")
    os.rename(place, aside)
    try:
        os.rename(made, place)
    except OSError:
        os.rename(aside, place)
        raise


def _sweep(place: Path) -> None:
    """Take away what runs that are over have left beside `place`."""
    ours = re.compile(rf"\.{re.escape(place.name)}-(\d+)-\w+")
    for left in place.parent.iterdir():
        found = ours.fullmatch(left.name)
        if found and not _runs(int(found[1])) and time.time() - _written(left) > STALE:
            shutil.rmtree(left, ignore_errors=True)


def _written(folder: Path) -> float:
    """When a folder was written last; now, where another run has just swept it up."""
    try:
        return folder.stat().st_mtime
    except FileNotFoundError:
        return time.time()


def _runs(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
