"""What a page tells once: why nothing was pooled, where what is refused again names its reasons alone, and the way to
a report, where every number of a row leads to it too."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar, cast

from ..values.document import Blocks, Paragraph, StudyRow
from ..values.figures import Figure
from ..values.line import Link, Marked, plain_text

_SHORT = {
    "fewer than five studies agree on what they count": "too few that agree",
    "fewer than five studies agree on what they compare": "too few that agree",
    "some speak only of part of those treated": "only a part of those treated",
    "not every one has its counts": "counts",
    "they count different things": "what is counted",
    "one definition is stricter than the other": "how strictly",
    "how strict the definition was is not reported in all": "how strictly",
    "they were judged by different means": "means of judging",
    "how it was judged is not reported in all": "means of judging",
    "they speak of different times, or count from different moments": "times",
    "not every rate belongs to one time": "times",
    "they count different units": "units",
    "the unit is not reported in all": "units",
    "the people treated differ": "people",
    "the people treated are not fully reported in all": "people",
    "the operators differ": "operators",
    "the operators are not reported in all": "operators",
    "the designs differ": "designs",
    "the design is not reported in all": "designs",
    "not all of them took every patient in turn": "who was taken",
    "whether every patient was taken in turn is not reported in all": "who was taken",
    "some reports are about the same patients": "the same patients",
}

_ANY = "|".join(re.escape(reason) for reason in sorted(_SHORT, key=len, reverse=True))
_REFUSED = re.compile(rf"not pooled: ((?:{_ANY})(?:; (?:{_ANY}))*)")
_T = TypeVar("_T")


def told_once(blocks: Blocks) -> Blocks:
    """The blocks of a page, in the order of reading."""
    return _told(blocks, set())


def _told(value: _T, seen: set[str]) -> _T:
    if not isinstance(value, tuple) or isinstance(value, (Marked, Figure)):
        return value
    whole: tuple[object, ...] = value
    if isinstance(value, StudyRow):
        whole = value._replace(opened=_way_once(value, seen))
    is_line = not hasattr(value, "_fields") and any(isinstance(part, str) and "not pooled: " in part for part in whole)
    parts: list[object] = _in_one(whole) if is_line else list(whole)
    made = tuple(_said(part, seen) if isinstance(part, str) else _told(part, seen) for part in parts)
    if len(made) == len(value) and all(new is old for new, old in zip(made, value, strict=True)):
        return value
    kind: Callable[..., object] = type(value)
    return cast(_T, kind(*made) if hasattr(value, "_fields") else made)


def _way_once(row: StudyRow, seen: set[str]) -> Blocks:
    """What a row opens without "Report: Marlow 2019" where a row above opens it. It stays where the link says more than
    the row's name (how the report was read, how it stands), and where the row would open nothing else."""
    kept = []
    for block in row.opened:
        if isinstance(block, Paragraph) and block.line[:1] == ("Report: ",) and isinstance(way := block.line[1], Link):
            if way.target in seen and len(block.line) == 2 and plain_text(way.line) == row.name:
                continue
            seen.add(way.target)
        kept.append(block)
    return tuple(kept) if 0 < len(kept) < len(row.opened) else row.opened


def _in_one(parts: tuple[object, ...]) -> list[object]:
    """The parts of a line, words that follow each other in one."""
    out: list[object] = []
    for part in parts:
        if isinstance(part, str) and out and isinstance(out[-1], str):
            out[-1] += part
        else:
            out.append(part)
    return out


def _said(text: str, seen: set[str]) -> str:
    if "not pooled: " not in text:
        return text
    return _REFUSED.sub(lambda found: f"not pooled: {_reasons(found[1].split('; '), seen)}", text)


def _reasons(reasons: list[str], seen: set[str]) -> str:
    fresh = [reason for reason in reasons if reason not in seen]
    again = dict.fromkeys(_SHORT[reason] for reason in reasons if reason in seen)
    seen.update(fresh)
    return "; ".join([*fresh, *([f"as told above: {', '.join(again)}"] if again else [])])
