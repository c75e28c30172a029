"""What mkdocs.yml says of the site's folder of pages: with a name that leads nowhere the site would be another one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import yaml

from ..problems import Position, Problem, error
from .files import WRITTEN_DIR
from .refusals import nearest
from .yaml_text import BASE

SETTINGS = "mkdocs.yml"
_FOLDER = "docs_dir"
_USUAL = "docs"
"""The folder that MkDocs takes where none is named."""


def find_in_settings(root: Path) -> Iterator[Problem]:
    """A folder of pages that is not there. That of the hand-written pages may be missing: then there are none.

    What MkDocs alone can tell is left to it: a file that is no YAML, a name from the surroundings or another file.
    """
    try:
        with (root / SETTINGS).open(encoding="utf-8-sig") as stream:
            node = yaml.compose(stream, Loader=BASE)
    except (OSError, UnicodeDecodeError, yaml.YAMLError):
        return
    if not isinstance(node, yaml.MappingNode):
        return
    fields = {key.value: value for key, value in node.value if isinstance(key, yaml.ScalarNode)}
    typed = fields.get(_FOLDER)
    if typed is None and "INHERIT" in fields:
        return
    if typed is not None and not (isinstance(typed, yaml.ScalarNode) and typed.tag == "tag:yaml.org,2002:str"):
        return
    name = typed.value if typed is not None else ""
    place = Position(SETTINGS, 1, 1)
    if typed is not None:
        place = Position(SETTINGS, typed.start_mark.line + 1, typed.start_mark.column + 1)
    reason, hint = without_pages(root, name)
    if reason:
        yield error(place, "no-folder-of-pages", reason, hint)


def without_pages(root: Path, name: str) -> tuple[str, str]:
    """Why the folder of pages cannot be used and how to mend it, in plain words; both "" where it can.

    root: holds mkdocs.yml. name: as `docs_dir` names it; "" where it names none.
    """
    folder = root / (name or _USUAL)
    if folder.is_dir() or folder.resolve() == (root / WRITTEN_DIR).resolve():
        return "", ""
    reason = f'the folder of pages "{name}" is not there'
    if not name:
        reason = f"no folder of pages is named ({_FOLDER}), and {_USUAL}, which is the usual one, is not there"
    near = nearest(name, _folders(root)) if name else ""
    hint = f"did you mean {near}? " if near else ""
    return reason, f"{hint}name the folder of the site's own pages; in a site of the guide alone: {_FOLDER}: evidence"


def _folders(root: Path) -> list[str]:
    try:
        return sorted(path.name for path in root.iterdir() if path.is_dir())
    except OSError:
        return []
