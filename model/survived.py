"""Work that may bring its whole process down is done in a child of it: the kernel's fillet may end in a crash.

Where the system cannot fork (Windows) the work is done as it is.
"""

from __future__ import annotations

import faulthandler
import signal
import traceback
from collections.abc import Callable
from multiprocessing import get_all_start_methods, get_context
from multiprocessing.connection import Connection

CRASHES = ("SIGSEGV", "SIGABRT", "SIGBUS", "SIGFPE", "SIGILL")  # what the kernel itself may end in


def survived(make: Callable[[], bytes]) -> bytes | None:
    """What `make` gives; None where it crashes.

    What it raises is raised as RuntimeError with its trace, and so is a child that somebody else stopped: that tells
    nothing of the work. `make` has to do without other threads: those of the parent are not in the child.
    """
    if "fork" not in get_all_start_methods():
        return make()
    context = get_context("fork")
    here, there = context.Pipe(duplex=False)
    child = context.Process(target=_answer, args=(make, there))
    child.start()
    there.close()
    try:
        answer, trace = here.recv()
    except EOFError:
        answer, trace = None, ""
    child.join()
    if trace or (answer is None and child.exitcode not in {-getattr(signal, name) for name in CRASHES}):
        raise RuntimeError(trace or f"the process of a piece of work ended with {child.exitcode}")
    made: bytes | None = answer
    return made


def _answer(make: Callable[[], bytes], to: Connection) -> None:
    """The child's whole life; it leaves no trace and no file of a crash, which is expected here."""
    import resource  # not on every system

    faulthandler.disable()
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    try:
        to.send((make(), ""))
    except Exception:
        to.send((None, traceback.format_exc()))
