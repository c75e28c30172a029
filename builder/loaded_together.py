"""The byte code of our modules in one file, since a check asks for 260 of them and nearly all are small.

To find, open and judge one .pyc takes as long as to run what most of them hold. So what was loaded is kept together
beside them, written at the end of a command that had to look for some, where Python itself would write byte code (not
under `python -B`, nor where the folder is closed). It is trusted as a .pyc is and by the same rule: the time and the
size of the source are what they were. A module that is not so, or not there, is found as ever, and kept the next time.
"""

from __future__ import annotations

import marshal
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib.machinery import ModuleSpec, SourceFileLoader
from types import CodeType, ModuleType
from typing import cast

_PACKAGE = f"{__name__.partition('.')[0]}."
_HEAD = 8
"""Bytes that say how long the table of the file is."""

_Kept = tuple[str, str, bytes, int, int]
"""Source, .pyc, time and size of the source as the .pyc has them, and from where to where the byte code stands."""


class _Loader(SourceFileLoader):
    """As for any module of ours, but that its byte code is at hand."""

    def __init__(self, name: str, path: str, code: memoryview) -> None:
        super().__init__(name, path)
        self._code = code

    def get_code(self, fullname: str) -> CodeType:
        try:
            made = marshal.loads(self._code)
        except Exception:  # it is no byte code
            return cast("CodeType", super().get_code(fullname))
        return cast("CodeType", made)


class _Finder:
    """Finds what is kept, where its source is still the same."""

    @staticmethod
    def find_spec(name: str, path: Sequence[str] | None = None, target: ModuleType | None = None) -> ModuleSpec | None:
        kept = _kept.get(name)
        if kept is None:
            return None
        source, cached, told, start, end = kept
        try:
            if _told_of(source) != told:
                return None
        except OSError:
            return None
        loader = _Loader(name, source, _codes[start:end])
        spec = ModuleSpec(name, loader, origin=source, is_package=source.endswith("__init__.py"))
        spec.has_location, spec.cached = True, cached
        if spec.submodule_search_locations is not None:
            spec.submodule_search_locations.append(os.path.dirname(source))
        return spec


def _told_of(source: str) -> bytes:
    """Time and size of a source, as a .pyc has them."""
    found = os.stat(source)
    low = 0xFFFFFFFF
    return (int(found.st_mtime) & low).to_bytes(4, "little") + (found.st_size & low).to_bytes(4, "little")


def keep_together() -> None:
    """Keep the byte code of what was loaded, for the next run, where some of it had to be looked for.

    Never an error: where nothing can be kept, the next run looks for it as this one did.
    """
    if sys.dont_write_bytecode or not os.access(os.path.dirname(_file), os.W_OK):
        return
    with suppress(Exception):
        specs = [module.__spec__ for name, module in list(sys.modules.items()) if name.startswith(_PACKAGE)]
        ours = [spec for spec in specs if spec is not None and spec.name not in _BEFORE]
        if all(isinstance(spec.loader, _Loader) for spec in ours):
            return
        table: dict[str, _Kept] = {}
        codes: list[bytes] = []
        length = 0
        for spec in ours:
            source, told = spec.origin or "", _told_of(spec.origin or "")
            code = marshal.dumps(SourceFileLoader(spec.name, source).get_code(spec.name))
            if told == _told_of(source):
                table[spec.name] = source, spec.cached or "", told, length, length + len(code)
                codes.append(code)
                length += len(code)
        head = marshal.dumps((_PYTHON, table))
        write_whole(_file, b"".join((len(head).to_bytes(_HEAD, "little"), head, *codes)))


def write_whole(path: str, content: bytes) -> None:
    """All at once, so that nobody reads half of it. Raises OSError where it cannot be written."""
    os.makedirs(os.path.dirname(path), exist_ok=True)
    new = f"{path}.{os.getpid()}"
    try:
        with open(new, "wb") as file:
            file.write(content)
        os.replace(new, path)
    finally:
        with suppress(OSError):
            os.unlink(new)


def _read() -> tuple[dict[str, _Kept], memoryview]:
    """What is kept; nothing where that is of another Python, or is no such file."""
    with suppress(Exception), open(_file, "rb") as file:
        whole = memoryview(file.read())
        start = _HEAD + int.from_bytes(whole[:_HEAD], "little")
        python, table = marshal.loads(whole[_HEAD:start])
        if python == _PYTHON and max(end for *_, end in table.values()) == len(whole) - start:
            return table, whole[start:]
    return {}, memoryview(b"")


_PYTHON = sys.version, sys.flags.optimize, os.path.dirname(os.path.abspath(__file__))
"""Of which Python, and of which folder: that of a copy of ours names the sources of the other."""
_BEFORE = frozenset(name for name in sys.modules if name.startswith(_PACKAGE))
"""What was loaded before this module, and itself: these are found as ever."""
_file = ""
"""Where they are kept; "" for nowhere."""
if __spec__ is not None and __spec__.cached:
    _file = os.path.join(os.path.dirname(__spec__.cached), f"loaded_together.{sys.implementation.cache_tag}.kept")
_kept, _codes = _read()
if _kept:
    sys.meta_path.insert(0, _Finder)
