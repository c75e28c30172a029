"""The passages of an annotation: each begins at a bracket with a locator and goes on to the next."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..records import NamedTuple
from .slugs import slug

# What a locator begins with. Line breaks count as blanks, so an export that joined all lines reads the same.
_LOCATOR = r"""
    pp?\.\s+[1-9]
  | (?:abstract|introduction|first\s+page|page|table|figure|methods|results|discussion|conclusions?
      |supplement|appendix|registration|letter|notice)(?![^\W_])
  | (?:tab|fig)\.
"""
_find_locators = compiled(rf"\[\s*(?={_LOCATOR})([^\[\]]*)\]", re.IGNORECASE | re.VERBOSE).finditer
_find_brackets = compiled(r"\[\s*([^\W\d_][^\[\]]*)\]").finditer
_match_statistic = compiled(
    r"(?:[Qq][1-4]|P\s?\d+|p\d\d\s*[-–;,]\s*p\d\d|IQR|S[DE]M?|CI|[ac]?[OHR]R|[nNpP]\s*[=<>≤≥]|range|median|mean|min|max)(?![^\W\d_])"
).match
""" "[Q1; Q3]", "[SD 0.4]", "[n = 32]" stand within a passage."""
_find_pages = compiled(r"\b(?:pp?\.|pages?)\s+([0-9]+)(?:\s*[-–—]+\s*([0-9]+))?", re.IGNORECASE).finditer
_LONGEST_PAGES = 200  # nobody compares each locator with more
_find_ranges = compiled(r"([0-9]+)(?:\s*[-–—]+\s*([0-9]+))?").fullmatch


class Located(NamedTuple):
    """One bracket and what follows it, by offsets in the annotation."""

    bracket: str
    """Blanks collapsed."""
    slug: str
    start: int
    """Offset of the `[`."""
    text_start: int
    """Offset of the first character that is no blank behind the `]`."""
    text_end: int
    """Offset behind the last character that is no blank."""


def locate(text: str) -> list[Located]:
    """Every passage of an annotation in order; those without text have `text_start == text_end`."""
    found = list(_find_locators(text))
    if not found:
        return []
    ends = [*(match.start() for match in found[1:]), len(text)]
    result = []
    for match, end in zip(found, ends, strict=True):
        start = match.end()
        content = text[start:end]
        inner = content.strip()
        offset = start + (len(content) - len(content.lstrip()) if inner else 0)
        bracket = " ".join(match[1].split())
        result.append(Located(bracket, slug(bracket), match.start(), offset, offset + len(inner)))
    return result


def doubtful_brackets(text: str) -> list[tuple[int, str]]:
    """Offset and text of each bracket that begins with a letter and holds a digit, and is no locator."""
    located = {match.start() for match in _find_locators(text)}
    return [
        (match.start(), " ".join(match[1].split()))
        for match in _find_brackets(text)
        if match.start() not in located
        and any(character.isdecimal() for character in match[1])
        and _match_statistic(match[1]) is None
    ]


def pages_named(bracket: str) -> list[int]:
    """The page numbers that a locator names; a range gives its two ends."""
    numbers: list[int] = []
    for match in _find_pages(bracket):
        first = match[1]
        numbers.append(int(first[:9]))
        if match[2]:
            numbers.append(_second_page(first, match[2]))
    return numbers


def _second_page(first: str, second: str) -> int:
    """ "201-14" means 201 to 214."""
    if len(second) < len(first):
        second = first[: len(first) - len(second)] + second
    return int(second[:9])


def page_ranges(pages: str) -> list[tuple[int, int]] | None:
    """The ranges of a `pages` field, or None where a part of it is no plain number ("e41", "S3--S9")."""
    ranges: list[tuple[int, int]] = []
    if len(pages) > _LONGEST_PAGES:
        return None
    for part in pages.replace("{", "").replace("}", "").split(","):
        match = _find_ranges(part.strip())
        if not match:
            return None
        first = int(match[1][:9])
        ranges.append((first, _second_page(match[1], match[2]) if match[2] else first))
    return ranges or None
