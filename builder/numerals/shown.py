"""A printed number as a page shows it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..compiled_patterns import compiled
from .late import holds_any, late

_TEX = late(
    r"\\textperiodcentered(?:\{\})?|\\cdot\b|\\text(?:less|greater|endash|minus)(?:\{\})?|\\(?:leq?|geq?|lt|gt)(?:slant)?(?![a-z])"
    r"|\\[, ]|\\thinspace\s?|\\(.)|--+|[~{}$]|\s+"
)
_SIGNS = {
    r"\textperiodcentered": "·", r"\cdot": "·", r"\textless": "<", r"\textgreater": ">", r"\textendash": "–",
    r"\textminus": "−", r"\le": "≤", r"\leq": "≤", r"\leqslant": "≤", r"\ge": "≥", r"\geq": "≥", r"\geqslant": "≥",
    r"\lt": "<", r"\gt": ">", r"\,": "\u2009", r"\ ": " ", r"\thinspace": "\u2009", "~": "\u00a0", "--": "–",
    "{": "", "}": "", "$": "",
}  # fmt: skip


def has_tex(text: str) -> bool:
    """Whether a text holds anything that a page shows otherwise."""
    return holds_any(text, _SHOWN_OTHERWISE)


_SHOWN_OTHERWISE = ("\\", "~", "{", "}", "$", "\n", "\t", "--")


def shown(printed: str) -> str:
    """A printed number as a page shows it: TeX resolved, everything else as printed."""
    if not has_tex(printed):
        return printed
    return _TEX.sub(
        lambda found: _SIGNS.get(found[0].strip().rstrip("{}") or found[0], found[1] or " "), printed
    ).strip()


_BEGINS, _ENDS = "\ufdd0", "\ufdd1"  # characters that no text may hold: Unicode 15, section 23.7 (from memory)
_find_bounds = compiled("[\ufdd0\ufdd1]").split


def around(text: str, spans: Sequence[tuple[int, int]], decode: Callable[[str], str]) -> list[str]:
    """What a page shows before, between and behind parts of a text, and of these: three pieces for one span.

    spans: begin and end of each part, in rising order. decode: makes text as typed readable. The text is decoded
    whole, so that what opens in one piece closes in another. A part that is not shown makes the answer shorter.
    """
    marked = []
    at = 0
    for start, end in spans:
        marked += [text[at:start], _BEGINS, text[start:end], _ENDS]
        at = end
    return _find_bounds(decode("".join([*marked, text[at:]])))
