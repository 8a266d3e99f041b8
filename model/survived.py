"""Work that may bring its whole process down is done in a child of it: the kernel's fillet may end in a crash.

Where the system cannot fork (Windows) the work is done as it is.
"""

from __future__ import annotations

import faulthandler
import os
import traceback
from collections.abc import Callable
from typing import NoReturn

FAILED = 1  # exit code of a child whose work raised


def survived(make: Callable[[], bytes]) -> bytes | None:
    """What `make` gives; None where it took its process down. What it raises is raised as RuntimeError, with its trace.

    `make` has to do without other threads: those of the parent are not in the child.
    """
    if not hasattr(os, "fork"):
        return make()
    outlet, inlet = os.pipe()
    child = os.fork()
    if child == 0:
        _answer(make, inlet)
    os.close(inlet)
    with os.fdopen(outlet, "rb") as answers:
        answer = answers.read()
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return None
    if os.WEXITSTATUS(status) == FAILED:
        raise RuntimeError(answer.decode("utf-8", "replace"))
    return answer


def _answer(make: Callable[[], bytes], inlet: int) -> NoReturn:
    """The child's whole life; it leaves without a word, and without what the parent has still to do at its end."""
    import resource  # not on every system

    code = FAILED
    try:
        faulthandler.disable()
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))  # a crash is expected here: no file of it
        try:
            answer, code = make(), 0
        except BaseException:
            answer = traceback.format_exc().encode()
        with os.fdopen(inlet, "wb") as answers:
            answers.write(answer)
    finally:
        os._exit(code)
