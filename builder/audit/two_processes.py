"""Two halves of one answer, each made by a process of its own where the machine has a second core to give."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from typing import Any, TypeVar

First = TypeVar("First")
Second = TypeVar("Second")


def in_two(first: Callable[[], First], second: Callable[[], Second]) -> tuple[First, Second]:
    """What both give. `second` is made by a worker process; where that cannot be, or goes wrong, here, after `first`.

    Both are pure, and what `second` gives can be pickled: the answer is the same by either way.
    """
    if not _has_second_core():
        return first(), second()
    # Here, since a small compendium never needs them.
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    # A forked worker has all that was read; a spawned one would have to be sent it, which costs more than it saves.
    forked = get_context("fork")
    try:
        pool = ProcessPoolExecutor(1, forked, initializer=_keep, initargs=(second,))
        answer = pool.submit(_work)
    except (OSError, ImportError, NotImplementedError):  # no process to be had, or no semaphore for the pool's queues
        return first(), second()
    with pool:
        mine = first()
        try:
            return mine, answer.result()
        except Exception:  # a worker that died; and a fault of `second` is raised below, with its own place
            return mine, second()


def _has_second_core() -> bool:
    """A worker forked off a process with several threads may wait for a lock that nobody will ever open."""
    if not hasattr(os, "fork") or threading.active_count() > 1:
        return False
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return cores > 1


_kept: list[Callable[[], Any]] = []
"""In a worker process: the one work it was made for."""


def _keep(work: Callable[[], Any]) -> None:
    _kept.append(work)


def _work() -> Any:
    return _kept[0]()
