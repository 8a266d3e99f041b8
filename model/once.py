"""What is worked out once for a piece or a part, however many checks ask for it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

Asked = TypeVar("Asked")
Answer = TypeVar("Answer")


def once(work: Callable[[Asked], Answer]) -> Callable[[Asked], Answer]:
    """A function of one piece, or one part, that keeps its answer with it; what is kept is not to be changed."""
    key = f"once {work.__module__}.{work.__qualname__}"

    @wraps(work)
    def kept(of: Asked) -> Answer:
        # as functools.cached_property does it: the classes are frozen, their dictionaries are not
        kept_here = of.__dict__
        if key not in kept_here:
            kept_here[key] = work(of)
        answer: Answer = kept_here[key]
        return answer

    return kept
