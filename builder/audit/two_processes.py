"""Two halves of one answer, each made by a process of its own where the machine has a second core to give."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TypeVar

First = TypeVar("First")
Second = TypeVar("Second")


def in_two(first: Callable[[], First], second: Callable[[], Second]) -> tuple[First, Second]:
    """What both give. `second` runs in a forked child; where that cannot be, or goes wrong, here, after `first`.

    Both are pure, and what `second` gives can be pickled: the answer is the same by either way.
    """
    import pickle  # here, since a small compendium never needs it

    child = _start(second) if _can_fork() else None
    if child is None:
        return first(), second()
    process, answer = child
    written = b""
    try:
        mine = first()
        while piece := os.read(answer, 1 << 20):
            written += piece
    finally:
        os.close(answer)  # a child that is still writing ends then
        _, status = os.waitpid(process, 0)
    if status == 0:
        try:
            return mine, pickle.loads(written)
        except (pickle.UnpicklingError, EOFError):
            pass
    return mine, second()


def _can_fork() -> bool:
    """A child of a process with several threads may wait for a lock that nobody will ever open."""
    import threading

    if not hasattr(os, "fork") or threading.active_count() > 1:
        return False
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return cores > 1


def _start(work: Callable[[], object]) -> tuple[int, int] | None:
    """Process and pipe of a child that writes what `work` gives; None where none could be made."""
    try:
        answer, writing = os.pipe()
    except OSError:
        return None
    try:
        process = os.fork()
    except OSError:
        os.close(answer)
        os.close(writing)
        return None
    if process:
        os.close(writing)
        return process, answer
    # The child: it leaves by os._exit alone, so that nothing of its parent's is flushed or closed twice.
    import pickle

    code = 1
    try:
        os.close(answer)
        with os.fdopen(writing, "wb") as pipe:
            pickle.dump(work(), pipe, pickle.HIGHEST_PROTOCOL)
        code = 0
    finally:
        os._exit(code)
