"""A printed number as a page shows it."""

from __future__ import annotations

import re

_TEX = re.compile(
    r"\\textperiodcentered(?:\{\})?|\\cdot\b|\\text(?:less|greater|endash|minus)(?:\{\})?|\\(?:leq?|geq?|lt|gt)(?:slant)?(?![a-z])"
    r"|\\[, ]|\\thinspace\s?|\\(.)|--+|[~{}$]|\s+"
)
_SIGNS = {
    r"\textperiodcentered": "·", r"\cdot": "·", r"\textless": "<", r"\textgreater": ">", r"\textendash": "–",
    r"\textminus": "−", r"\le": "≤", r"\leq": "≤", r"\leqslant": "≤", r"\ge": "≥", r"\geq": "≥", r"\geqslant": "≥",
    r"\lt": "<", r"\gt": ">", r"\,": "\u2009", r"\ ": " ", r"\thinspace": "\u2009", "~": "\u00a0", "--": "–",
    "{": "", "}": "", "$": "",
}  # fmt: skip


find_tex = re.compile(r"[\\~{}$\n\t]|--").search
"""Whether a text holds anything that a page shows otherwise."""


def shown(printed: str) -> str:
    """A printed number as a page shows it: TeX resolved, everything else as printed."""
    if not find_tex(printed):
        return printed
    return _TEX.sub(
        lambda found: _SIGNS.get(found[0].strip().rstrip("{}") or found[0], found[1] or " "), printed
    ).strip()
