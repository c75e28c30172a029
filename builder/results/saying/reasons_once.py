"""Why nothing was pooled, told in full once a page: what is refused again for reasons told above names them alone."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar, cast

from ..values.document import Blocks
from ..values.figures import Figure
from ..values.line import Marked

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
    is_line = not hasattr(value, "_fields") and any(isinstance(part, str) and "not pooled: " in part for part in value)
    parts: list[object] = _in_one(value) if is_line else list(value)
    made = tuple(_said(part, seen) if isinstance(part, str) else _told(part, seen) for part in parts)
    if len(made) == len(value) and all(new is old for new, old in zip(made, value, strict=True)):
        return value
    kind: Callable[..., object] = type(value)
    return cast(_T, kind(*made) if hasattr(value, "_fields") else made)


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
