"""Regular expressions as Python compiled them the last time, kept beside the byte code, since a check asks 400 of them.

`re` compiles every pattern anew in every process, in Python: a sixth of a small check. What it makes of one depends on
the pattern, its flags and the Python alone, as byte code depends on the source, and is kept where byte code is: in the
`__pycache__` of this folder, written at the end of a command that missed some, where Python itself would write (not
under `python -B`, nor where the folder is closed). It is trusted as a .pyc there is: whoever can write one can write
the other.

What is private to CPython here, and may change with any release: `re._parser.parse`, `re._compiler._code`, and the six
arguments of `_sre.compile`. So a file is of one Python, to its very build; what is kept of a pattern was compared, when
it was written, with what `re.compile` gives; and `_sre` itself refuses code that it cannot run. Whatever is not as
expected, no such module, another number of arguments, a torn file, is as if nothing were kept: all is compiled as ever.

PASSAGEPROOF_PATTERNS=anew in the environment neither reads nor writes the file.
"""

from __future__ import annotations

import marshal
import os
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any

from .loaded_together import write_whole

_OFF = os.environ.get("PASSAGEPROOF_PATTERNS") == "anew"
_MOST = 1500
"""Patterns in one file, four times what a check asks: vocabularies bring some of their own, and releases go."""

_Key = tuple[str, int]
"""Pattern and flags, as they are typed."""
_Arguments = tuple[int, bytes, int, dict[str, int], tuple[str | None, ...]]
"""Of `_sre.compile`, the pattern left out: flags, code, how many groups, groups by name, names of groups."""


def compiled(pattern: str, flags: int = 0) -> re.Pattern[str]:
    """As re.compile, for patterns that are the same in every run; those made of what people wrote are not kept."""
    key = pattern, int(flags)
    kept = _kept.get(key)
    if kept is not None:
        try:
            return _made(pattern, kept)
        except Exception:  # it is not what this Python takes: kept anew, as if it had never been
            del _kept[key]
    _missing[key] = None
    return re.compile(pattern, flags)


@contextmanager
def lent() -> Iterator[None]:
    """While a module of others is imported: what it hands to `re` is taken from those kept, and kept as well."""
    compiler: Any = getattr(re, "_compiler", None)
    own = getattr(compiler, "compile", None)
    if own is None:
        yield
        return

    def lend(pattern: Any, flags: int) -> Any:
        kept = _kept.get((pattern, flags))
        if kept is not None:
            with suppress(Exception):
                return _made(pattern, kept)
        if isinstance(pattern, str):
            _missing[pattern, flags] = None
        return own(pattern, flags)

    compiler.compile = lend
    try:
        yield
    finally:
        compiler.compile = own


def expect(pattern: str, flags: int = 0) -> None:
    """Have it kept for the next run, whether this one compiles it or not."""
    key = pattern, int(flags)
    if key not in _kept:
        _missing[key] = None


def missed() -> list[_Key]:
    """What is to be kept for the next run; a worker tells it to the process it was forked off, which does."""
    return list(_missing)


def keep() -> None:
    """Keep what is missing, for the next run.

    Never an error: where nothing can be kept, the next run compiles as this one did.
    """
    if not _missing or _OFF or sys.dont_write_bytecode:
        return
    with suppress(Exception):
        found = {key: arguments for key in _missing if (arguments := _arguments(*key)) is not None}
        _write({**(_kept if len(_kept) + len(found) <= _MOST else {}), **found})


def _made(pattern: str, kept: _Arguments) -> re.Pattern[str]:
    flags, code, *groups = kept
    made: re.Pattern[str] = _compile(pattern, flags, memoryview(code).cast("I").tolist(), *groups)
    return made


def _arguments(pattern: str, flags: int) -> _Arguments | None:
    """What `re.compile` hands to `_sre`; None where that gives another pattern, as it would where its ways changed."""
    from array import array

    parsed = _parser.parse(pattern, flags)
    state = parsed.state
    names = dict(state.groupdict)
    by_group: list[str | None] = [None] * state.groups
    for name, group in names.items():
        by_group[group] = name
    code = array("I", _compiler._code(parsed, flags)).tobytes()
    arguments = int(flags | state.flags), code, state.groups - 1, names, tuple(by_group)
    made, whole = _made(pattern, arguments), re.compile(pattern, flags)
    # Two patterns are equal where text, flags and code are; of their groups `==` says nothing.
    is_same = made == whole and made.groups == whole.groups and made.groupindex == whole.groupindex
    return arguments if is_same else None


def _write(kept: dict[_Key, _Arguments]) -> None:
    if _file:
        write_whole(_file, marshal.dumps((_PYTHON, kept)))


def _read() -> dict[_Key, _Arguments]:
    """What is kept; empty where that is of another Python, or is no such file."""
    with suppress(Exception), open(_file, "rb") as file:
        python, kept = marshal.loads(file.read())
        if python == _PYTHON and isinstance(kept, dict):
            return kept
    return {}


_missing: dict[_Key, None] = {}
_kept: dict[_Key, _Arguments] = {}
_file = ""
"""Where they are kept; "" for nowhere."""
_PYTHON: tuple[Any, ...] = ()

if not _OFF:
    with suppress(Exception):
        import _sre  # type: ignore[import-not-found]
        from re import _compiler, _parser  # type: ignore[attr-defined]

        _compile = _sre.compile
        _PYTHON = sys.version, _sre.MAGIC, _sre.CODESIZE, sys.byteorder
        if memoryview(b"").cast("I").itemsize == _sre.CODESIZE and __spec__ is not None and __spec__.cached:
            folder = os.path.dirname(__spec__.cached)
            _file = os.path.join(folder, f"compiled_patterns.{sys.implementation.cache_tag}.kept")
            _kept = _read()
