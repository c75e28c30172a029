"""Two halves of one answer, each made by a process of its own where the machine has a second core to give."""

from __future__ import annotations

import os
import pickle
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from typing import Any, NoReturn, TypeVar

from .compiled_patterns import expect, missed

First = TypeVar("First")
Second = TypeVar("Second")
Value = TypeVar("Value")


def in_two(
    first: Callable[[], First], second: Callable[[], Second], *, is_worth_it: bool = True
) -> tuple[First, Second]:
    """What both give. `second` is made by a worker process; where that cannot be, or goes wrong, here, after `first`.

    Neither needs the other, and what `second` gives can be pickled: the answer is the same by either way.
    is_worth_it: False where both together take less than a worker does.
    """
    worker = _worker_of(second) if is_worth_it and _has_second_core() else None
    if worker is None:
        return first(), second()
    with worker:
        mine = first()
        try:
            return mine, worker.answer()
        except Exception:  # a worker that died; and a fault of `second` is raised below, with its own place
            return mine, second()


MOST_TURNS = 256
_SHARE = 3
"""A piece of work is so great a part of what is left."""
_SMALLEST = 8
"""Values of a piece at least."""


def in_pieces(values: Sequence[Value]) -> list[Sequence[Value]]:
    """Values in pieces for `turns`, large ones at first, since those cost least, and a few at the end, so that neither
    process waits for the other."""
    pieces: list[Sequence[Value]] = []
    done = 0
    while done < len(values):
        size = max((len(values) - done) // _SHARE, _SMALLEST)
        pieces.append(values[done : done + size])
        done += size
    return pieces


def turns(count: int) -> Iterator[int]:
    """The numbers below count, each once, though both halves of `in_two` ask for them: whoever is free has the next.

    To be made before `in_two`. What a worker had before it died comes no more: the answers tell which are wanting.
    count: at most MOST_TURNS.
    """
    try:
        reading, writing = os.pipe() if _has_second_core() else (-1, -1)
    except OSError:
        reading = -1
    if reading < 0:
        return iter(range(count))
    os.write(writing, bytes(range(count)))  # one byte for each number, which nobody reads by halves
    os.close(writing)
    return _read_turns(reading)


def _read_turns(reading: int) -> Iterator[int]:
    try:
        while turn := os.read(reading, 1):
            yield turn[0]
    finally:
        os.close(reading)


def _has_second_core() -> bool:
    """A worker forked off a process with several threads may wait for a lock that nobody will ever open."""
    threading = sys.modules.get("threading")  # who has not imported it has no thread
    if not hasattr(os, "fork") or (threading is not None and threading.active_count() > 1):
        return False
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return cores > 1


def _worker_of(work: Callable[[], Any]) -> _Worker | None:
    """A forked worker has all that was read; a spawned one would have to be sent it, which costs more than it saves.

    None where there is no process to be had. A pool of the standard library takes longer to import than a small check
    has to win.
    """
    try:
        reading, writing = os.pipe()
    except OSError:
        return None
    try:
        number = os.fork()
    except OSError:
        os.close(reading)
        os.close(writing)
        return None
    if number == 0:
        _work(work, reading, writing)
    os.close(writing)
    return _Worker(number, reading)


def _work(work: Callable[[], Any], reading: int, writing: int) -> NoReturn:
    """In the worker: do it, send what it gives, and end at once, so that nothing of the process it was forked off is
    done twice."""
    code = 1
    try:
        os.close(reading)
        with suppress(Exception), open(writing, "wb") as sent:
            # Whole before it is sent: whoever asks is still at work, and a pipe takes a few pages until they are read.
            answer = pickle.dumps((work(), missed()), pickle.HIGHEST_PROTOCOL)
            sent.write(answer)
            sent.flush()
            code = 0
    finally:
        os._exit(code)


class _Worker:
    """A process at work."""

    def __init__(self, number: int, reading: int) -> None:
        self._number, self._sent = number, open(reading, "rb")  # noqa: SIM115 (closed by __exit__)

    def __enter__(self) -> _Worker:
        return self

    def answer(self) -> Any:
        """What it gives; EOFError and the like where it ended without."""
        answer, patterns = pickle.load(self._sent)
        for pattern in patterns:
            expect(*pattern)
        return answer

    def __exit__(self, *_: object) -> None:
        """Leave no process behind: one that still has something to say finds nobody listening, and ends."""
        self._sent.close()
        os.waitpid(self._number, 0)
